namespace RollRide.Modes;

/// <summary>The natural modes of a vehicle with two axles, by what moves most in them.</summary>
public enum VehicleModeName
{
    /// <summary>The body moves up and down.</summary>
    Bounce,

    /// <summary>The body pitches.</summary>
    Pitch,

    /// <summary>The body rolls as a whole.</summary>
    Roll,

    /// <summary>The ends of the body roll against each other; a frame that does not twist has no such mode.</summary>
    Twist,

    /// <summary>The front axle, or both its wheels together, moves up and down between springs and tyres.</summary>
    FrontHop,

    /// <summary>The front axle rolls, or its wheels move against each other.</summary>
    FrontTramp,

    /// <summary>The rear axle moves up and down between springs and tyres.</summary>
    RearHop,

    /// <summary>The rear axle rolls, or its wheels move against each other.</summary>
    RearTramp,
}
