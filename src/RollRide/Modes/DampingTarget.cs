namespace RollRide.Modes;

/// <summary>One thing that is asked of a damper setting.</summary>
public enum DampingTarget
{
    /// <summary>Roll must be damped at least so much.</summary>
    RollMinimum,

    /// <summary>Heave must be damped at least so much.</summary>
    HeaveMinimum,

    /// <summary>Heave must be damped at most so much: beyond it the body follows the road.</summary>
    HeaveMaximum,

    /// <summary>Axle hop must be damped at least so much.</summary>
    HopMinimum,

    /// <summary>Axle tramp must be damped at least so much.</summary>
    TrampMinimum,
}

/// <summary>The targets as they are written.</summary>
public static class DampingTargetNames
{
    /// <summary>The target in words, as the subject of a sentence.</summary>
    /// <param name="target">The target.</param>
    public static string Words(DampingTarget target) => target switch
    {
        DampingTarget.RollMinimum => "roll minimum",
        DampingTarget.HeaveMinimum => "heave minimum",
        DampingTarget.HeaveMaximum => "heave maximum",
        DampingTarget.HopMinimum => "hop minimum",
        _ => "tramp minimum",
    };
}
