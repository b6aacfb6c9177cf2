using System.Collections.Immutable;

namespace RollRide.Metrics;

/// <summary>Share of the time that a quantity spent at each value, in bins of one width.</summary>
/// <param name="BinWidth">Width of a bin, in the unit of the value.</param>
/// <param name="FirstBin">Number of the first bin; bin <c>i</c> begins at <c>(FirstBin + i)·BinWidth</c>.</param>
/// <param name="Shares">Share of the time in each bin; they add up to 1, or the histogram is empty.</param>
public sealed record Histogram(double BinWidth, int FirstBin, ImmutableArray<double> Shares)
{
    /// <summary>The value below which the quantity stays for a share of the time, interpolated linearly within its bin.</summary>
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
