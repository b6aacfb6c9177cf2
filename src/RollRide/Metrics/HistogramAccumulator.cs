using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>Adds up time and energy over the value of a quantity, in bins of one width that reach as far as the values do. Not thread-safe.</summary>
/// <param name="binWidth">Width of a bin, in the unit of the value; above 0.</param>
internal sealed class HistogramAccumulator(double binWidth)
{
    // 16 MB each way: a value so far out is no damper velocity, but a run that went wrong.
    private const int MostBins = 1_000_000;

    private readonly double _binsPerUnit = 1 / binWidth;

    // Bin number `i` stands at index `i + _offset`.
    private (double Seconds, double Energy)[] _bins = new (double, double)[256];
    private int _offset = 128;

    /// <summary>Adds a span of time at one value.</summary>
    /// <param name="value">The value.</param>
    /// <param name="seconds">How long, s.</param>
    /// <param name="energy">Energy dissipated, J; 0 where only time is asked for.</param>
    /// <exception cref="ArgumentOutOfRangeException">The value is not a number, or more than a million bins from 0.</exception>
    public void Add(double value, double seconds, double energy = 0)
    {
        var bin = Math.Floor(value * _binsPerUnit);
        if (!(Math.Abs(bin) < MostBins))
            throw new ArgumentOutOfRangeException(nameof(value), value, "The value lies too far out for a histogram.");
        AddToBin((int)bin, seconds, energy);
    }

    /// <summary>Adds what another accumulator has gathered in bins of the same width.</summary>
    public void Merge(HistogramAccumulator other)
    {
        for (var i = 0; i < other._bins.Length; i++)
        {
            if (other._bins[i].Seconds != 0)
                AddToBin(i - other._offset, other._bins[i].Seconds, other._bins[i].Energy);
        }
    }

    /// <summary>The share of the time in each bin.</summary>
    public Histogram ToHistogram()
    {
        var (first, bins) = Filled();
        var total = 0.0;
        foreach (var (seconds, _) in bins)
            total += seconds;
        return new Histogram(binWidth, first, [.. bins.Map(bin => bin.Seconds / total)]);
    }

    /// <summary>Time and energy in each bin, the value being a damper velocity.</summary>
    public VelocityHistogram ToVelocityHistogram()
    {
        var (first, bins) = Filled();
        return new VelocityHistogram(binWidth, first, [.. bins.Map(bin => bin.Seconds)], [.. bins.Map(bin => bin.Energy)]);
    }

    /// <summary>The number of the first bin that holds something, and all bins from there to the last one that does; 0 and none if all are empty.</summary>
    private (int First, (double Seconds, double Energy)[] Bins) Filled()
    {
        var first = Array.FindIndex(_bins, bin => bin.Seconds != 0);
        return first < 0 ? (0, []) : (first - _offset, _bins[first..(Array.FindLastIndex(_bins, bin => bin.Seconds != 0) + 1)]);
    }

    private void AddToBin(int bin, double seconds, double energy)
    {
        if ((uint)(bin + _offset) >= (uint)_bins.Length)
            Widen(bin);
        ref var sums = ref _bins[bin + _offset];
        sums.Seconds += seconds;
        sums.Energy += energy;
    }

    private void Widen(int bin)
    {
        var reach = Math.Max(_bins.Length, Math.Abs(bin) + 1);
        var wider = new (double, double)[2 * reach];
        _bins.CopyTo(wider, reach - _offset);
        (_bins, _offset) = (wider, reach);
    }
}
