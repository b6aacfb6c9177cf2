namespace RollRide.Roads;

/// <summary>The road under the two wheels at one instant.</summary>
/// <param name="Left">Elevation under the left wheel, m.</param>
/// <param name="Right">Elevation under the right wheel, m.</param>
/// <param name="LeftRate">Rate of the left elevation, slope × speed, m/s.</param>
/// <param name="RightRate">Rate of the right elevation, slope × speed, m/s.</param>
public readonly record struct RoadSample(double Left, double Right, double LeftRate, double RightRate);
