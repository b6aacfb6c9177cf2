using System.Collections.Immutable;

namespace RollRide.Metrics;

/// <summary>How much of something fell at each value, in bins of one width.</summary>
/// <param name="BinWidth">Width of a bin, in the unit of the value.</param>
/// <param name="FirstBin">Number of the first bin; bin <c>i</c> begins at <c>(FirstBin + i)·BinWidth</c>.</param>
/// <param name="Shares">Share of the whole in each bin; they add up to 1, or the histogram is empty.</param>
public sealed record Histogram(double BinWidth, int FirstBin, ImmutableArray<double> Shares)
{
    /// <summary>The value in the middle of a bin.</summary>
    /// <param name="bin">Index into <see cref="Shares"/>.</param>
    public double Middle(int bin) => (FirstBin + bin + 0.5) * BinWidth;

    /// <summary>The value below which a share of the whole lies, linear within its bin.</summary>
    /// <param name="share">The share, above 0 and below 1.</param>
    /// <exception cref="InvalidOperationException">The histogram is empty.</exception>
    public double Quantile(double share)
    {
        if (!(share is > 0 and < 1)) throw new ArgumentOutOfRangeException(nameof(share), share, "A share lies between 0 and 1.");
        if (Shares.IsEmpty) throw new InvalidOperationException("An empty histogram has no quantiles.");
        double below = 0;
        for (var i = 0; i < Shares.Length; i++)
        {
            if (below + Shares[i] >= share)
                return (FirstBin + i + ((share - below) / Shares[i])) * BinWidth;
            below += Shares[i];
        }

        return (FirstBin + Shares.Length) * BinWidth;
    }
}

/// <summary>Gathers a histogram in bins that reach as far as the values do. Not thread-safe.</summary>
internal sealed class HistogramAccumulator(double binWidth)
{
    private const int MostBins = 1_000_000;

    private readonly double _binsPerUnit = 1 / binWidth;

    // Bin number `i` stands at index `i + _offset`.
    private double[] _sums = new double[256];
    private int _offset = 128;

    public void Add(double value, double amount)
    {
        var bin = Math.Floor(value * _binsPerUnit);
        var index = (int)bin + _offset;
        if ((uint)index >= (uint)_sums.Length)
        {
            if (!(Math.Abs(bin) < MostBins)) throw new ArgumentOutOfRangeException(nameof(value), value, "The value lies too far out for a histogram.");
            Widen((int)bin);
            index = (int)bin + _offset;
        }

        _sums[index] += amount;
    }

    /// <summary>The histogram from the first bin that holds something to the last.</summary>
    public Histogram ToHistogram()
    {
        var first = Array.FindIndex(_sums, sum => sum != 0);
        if (first < 0) return new Histogram(binWidth, 0, []);
        var sums = _sums[first..(Array.FindLastIndex(_sums, sum => sum != 0) + 1)];
        var total = sums.Sum();
        return new Histogram(binWidth, first - _offset, [.. sums.Select(sum => sum / total)]);
    }

    private void Widen(int bin)
    {
        var reach = Math.Max(_sums.Length, Math.Abs(bin) + 1);
        var wider = new double[2 * reach];
        _sums.CopyTo(wider, reach - _offset);
        (_sums, _offset) = (wider, reach);
    }
}
