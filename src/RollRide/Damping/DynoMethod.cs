namespace RollRide.Damping;

/// <summary>How one point per direction is taken from a dynamometer's loop.</summary>
public enum DynoMethod
{
    /// <summary>
    /// The force at peak velocity, at mid-stroke of a sinusoidal (crank) movement: the mean of the samples within 5 % of the peak.
    /// </summary>
    PeakVelocity,

    /// <summary>The mean force over the stretch of constant velocity of a triangular movement.</summary>
    ConstantVelocity,
}
