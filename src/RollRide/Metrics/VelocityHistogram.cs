using System.Collections.Immutable;

namespace RollRide.Metrics;

/// <summary>How long the dampers ran at each velocity, both sides together.</summary>
/// <param name="BinWidth">Width of a bin, m/s; bin <c>i</c> covers <c>(i + FirstBin)·BinWidth</c> onwards.</param>
/// <param name="FirstBin">Number of the first bin; negative bins are rebound.</param>
/// <param name="Seconds">Time in each bin, s, left and right damper added.</param>
/// <param name="Energy">Energy taken up in each bin, J, left and right added.</param>
public sealed record VelocityHistogram(double BinWidth, int FirstBin, ImmutableArray<double> Seconds, ImmutableArray<double> Energy)
{
    /// <summary>Velocity at the middle of a bin, m/s.</summary>
    /// <param name="bin">Index into <see cref="Seconds"/>.</param>
    public double Velocity(int bin) => (FirstBin + bin + 0.5) * BinWidth;
}

/// <summary>Gathers a <see cref="VelocityHistogram"/>.</summary>
internal sealed class VelocityHistogramAccumulator(double binWidth, params (Quantity Velocity, Quantity Force)[] dampers) : IAccumulator
{
    // Bins 0, 1, … of compression and −1, −2, … of rebound, each list growing outwards.
    private readonly List<(double Seconds, double Energy)> _compression = [];
    private readonly List<(double Seconds, double Energy)> _rebound = [];

    public void Add(StepSamples step)
    {
        for (var node = 0; node < StepSamples.Nodes; node++)
        {
            foreach (var (velocity, force) in dampers)
            {
                var v = velocity(step.At(node));
                var bin = (int)Math.Floor(v / binWidth);
                var (bins, index) = bin >= 0 ? (_compression, bin) : (_rebound, -1 - bin);
                while (bins.Count <= index)
                    bins.Add(default);
                var (seconds, energy) = bins[index];
                bins[index] = (seconds + step.Weight(node), energy + (step.Weight(node) * v * force(step.At(node))));
            }
        }
    }

    public VelocityHistogram ToHistogram()
    {
        var bins = Enumerable.Reverse(_rebound).Concat(_compression).ToArray();
        return new VelocityHistogram(binWidth, -_rebound.Count, [.. bins.Select(b => b.Seconds)], [.. bins.Select(b => b.Energy)]);
    }
}
