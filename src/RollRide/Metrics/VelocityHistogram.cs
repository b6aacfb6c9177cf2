using System.Collections.Immutable;

namespace RollRide.Metrics;

/// <summary>How long the dampers ran at each velocity, both sides together.</summary>
/// <param name="BinWidth">Width of a bin, m/s; bin <c>i</c> covers <c>(i + FirstBin)·BinWidth</c> onwards.</param>
/// <param name="FirstBin">Number of the first bin; negative bins are rebound.</param>
/// <param name="Seconds">Time in each bin, s, left and right damper added.</param>
/// <param name="Energy">Energy dissipated in each bin, J, left and right added.</param>
public sealed record VelocityHistogram(double BinWidth, int FirstBin, ImmutableArray<double> Seconds, ImmutableArray<double> Energy)
{
    /// <summary>Velocity at the middle of a bin, m/s.</summary>
    /// <param name="bin">Index into <see cref="Seconds"/>.</param>
    public double Velocity(int bin) => (FirstBin + bin + 0.5) * BinWidth;
}
