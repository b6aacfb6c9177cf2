namespace RollRide.Mounting;

/// <summary>The part of a wheel's linkage that carries an element's outer end.</summary>
public enum LinkagePart
{
    /// <summary>The lower arm of a double wishbone or of a strut suspension.</summary>
    LowerArm,

    /// <summary>The upper arm of a double wishbone.</summary>
    UpperArm,

    /// <summary>The upright, which carries the wheel.</summary>
    Upright,

    /// <summary>The trailing or semi-trailing arm.</summary>
    TrailingArm,
}
