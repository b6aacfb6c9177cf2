using System.Collections.Immutable;
using RollRide.Numerics;

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

/// <summary>Gathers a <see cref="VelocityHistogram"/> in bins that reach as far as the velocities do. Not thread-safe.</summary>
internal sealed class VelocityHistogramAccumulator(double binWidth)
{
    private const int MostBins = 1_000_000;

    private readonly double _binsPerUnit = 1 / binWidth;

    // Bin number `i` stands at index `i + _offset`.
    private (double Seconds, double Energy)[] _bins = new (double, double)[128];
    private int _offset = 64;

    /// <summary>Adds what another one has gathered in bins of the same width.</summary>
    public void Merge(VelocityHistogramAccumulator other)
    {
        for (var i = 0; i < other._bins.Length; i++)
        {
            if (other._bins[i].Seconds != 0)
                AddToBin(i - other._offset, other._bins[i].Seconds, other._bins[i].Energy);
        }
    }

    /// <summary>The histogram from the first bin that holds something to the last.</summary>
    public VelocityHistogram ToHistogram()
    {
        var (first, end) = (0, _bins.Length);
        while (first < end && _bins[first].Seconds == 0)
            first++;
        while (end > first && _bins[end - 1].Seconds == 0)
            end--;
        if (first == end)
            return new VelocityHistogram(binWidth, 0, [], []);
        var bins = _bins.AsSpan(first, end - first);
        return new VelocityHistogram(binWidth, first - _offset, [.. bins.Map(b => b.Seconds)], [.. bins.Map(b => b.Energy)]);
    }

    /// <summary>Adds a span of time at one velocity.</summary>
    /// <param name="velocity">The velocity, m/s.</param>
    /// <param name="seconds">How long, s.</param>
    /// <param name="energy">Energy taken up, J.</param>
    public void Add(double velocity, double seconds, double energy) => AddToBin(Math.Floor(velocity * _binsPerUnit), seconds, energy);

    private void AddToBin(double bin, double seconds, double energy)
    {
        var index = (int)bin + _offset;
        if ((uint)index >= (uint)_bins.Length)
            index = Widen(bin);
        ref var sums = ref _bins[index];
        sums.Seconds += seconds;
        sums.Energy += energy;
    }

    private int Widen(double bin)
    {
        if (!(Math.Abs(bin) < MostBins))
            throw new ArgumentOutOfRangeException(nameof(bin), bin * binWidth, "The velocity, m/s, lies too far out for a histogram.");
        var reach = Math.Max(_bins.Length, (int)Math.Abs(bin) + 1);
        var wider = new (double, double)[2 * reach];
        _bins.CopyTo(wider, reach - _offset);
        (_bins, _offset) = (wider, reach);
        return (int)bin + reach;
    }
}
