namespace RollRide.Modes;

/// <summary>The four natural modes of the half-car, by what moves most in them.</summary>
public enum ModeName
{
    /// <summary>The body moves up and down on its springs.</summary>
    Heave,

    /// <summary>The body rolls on its springs.</summary>
    Roll,

    /// <summary>The axle, or both wheels together, moves up and down between springs and tyres.</summary>
    Hop,

    /// <summary>The axle rolls, or the wheels move against each other, between springs and tyres.</summary>
    Tramp,
}
