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
    private readonly SortedDictionary<int, (double Seconds, double Energy)> _bins = [];

    public void Add(StepSamples step)
    {
        for (var node = 0; node < StepSamples.Nodes; node++)
        {
            foreach (var (velocity, force) in dampers)
            {
                var v = velocity(step.At(node));
                var bin = (int)Math.Floor(v / binWidth);
                var (seconds, energy) = _bins.GetValueOrDefault(bin);
                _bins[bin] = (seconds + step.Weight(node), energy + (step.Weight(node) * v * force(step.At(node))));
            }
        }
    }

    public VelocityHistogram ToHistogram()
    {
        if (_bins.Count == 0)
            return new VelocityHistogram(binWidth, 0, [], []);
        var (first, last) = (_bins.Keys.First(), _bins.Keys.Last());
        var bins = Enumerable.Range(first, last - first + 1).Select(bin => _bins.GetValueOrDefault(bin)).ToArray();
        return new VelocityHistogram(binWidth, first, [.. bins.Select(b => b.Seconds)], [.. bins.Select(b => b.Energy)]);
    }
}
