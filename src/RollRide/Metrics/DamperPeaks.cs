namespace RollRide.Metrics;

/// <summary>The largest movements of one damper, each as a number of 0 or more.</summary>
/// <param name="CompressionTravel">Travel in compression from ride height, m.</param>
/// <param name="ReboundTravel">Travel in rebound from ride height, m.</param>
/// <param name="CompressionVelocity">Velocity in compression, m/s.</param>
/// <param name="ReboundVelocity">Velocity in rebound, m/s.</param>
public sealed record DamperPeaks(double CompressionTravel, double ReboundTravel, double CompressionVelocity, double ReboundVelocity);
