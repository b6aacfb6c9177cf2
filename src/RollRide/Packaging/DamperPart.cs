namespace RollRide.Packaging;

/// <summary>A part of the damper's envelope.</summary>
public enum DamperPart
{
    /// <summary>The tube at the body end.</summary>
    UpperTube,

    /// <summary>The tube at the axle end.</summary>
    LowerTube,

    /// <summary>The line between the ends: the rod, where no tube covers it.</summary>
    Rod,

    /// <summary>The bush at the body end.</summary>
    UpperBush,

    /// <summary>The bush at the axle end.</summary>
    LowerBush,
}
