namespace RollRide.Damping;

/// <summary>A force that rises with velocity.</summary>
internal interface IForceLaw
{
    /// <summary>Force at a velocity, N.</summary>
    double Force(double velocity);

    /// <summary>Slope at a velocity, N·s/m.</summary>
    double Slope(double velocity);
}
