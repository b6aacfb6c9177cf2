using MathNet.Numerics.Distributions;

namespace RollRide.Sweeps;

/// <summary>Where the probability of something lies, given how often it was seen in independent samples, with 95 % confidence.</summary>
/// <param name="Low">Lower end, 0 to 1.</param>
/// <param name="High">Upper end, 0 to 1.</param>
/// <remarks>
/// C. J. Clopper, E. S. Pearson, The use of confidence or fiducial limits, Biometrika 26, 1934: the limits at which what was seen
/// has 2.5 % of chance to come out so low, or so high. Where nothing or everything was seen only one end can be wrong, and it has 5 %.
/// </remarks>
public readonly record struct ShareInterval(double Low, double High)
{
    private const double Chance = 0.05;

    /// <summary>The interval.</summary>
    /// <param name="seen">How often it was seen, 0 to <paramref name="samples"/>.</param>
    /// <param name="samples">The number of samples, at least 1.</param>
    public static ShareInterval Of(int seen, int samples)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(samples, 1);
        ArgumentOutOfRangeException.ThrowIfNegative(seen);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(seen, samples);
        var tail = seen == 0 || seen == samples ? Chance : Chance / 2;
        return new ShareInterval(
            seen == 0 ? 0 : Beta.InvCDF(seen, samples - seen + 1, tail),
            Upper(seen, samples, 1 - tail));
    }

    /// <summary>The share below which the probability lies with a confidence.</summary>
    /// <param name="seen">How often it was seen, 0 to <paramref name="samples"/>.</param>
    /// <param name="samples">The number of samples, at least 1.</param>
    /// <param name="confidence">The confidence, between 0 and 1.</param>
    public static double Upper(int seen, int samples, double confidence) => seen == samples ? 1 : Beta.InvCDF(seen + 1, samples - seen, confidence);

    /// <summary>
    /// The least number of samples that shows the probability to be at most a share (S. S. Wilks, Ann. Math. Stat. 12, 1941). With one seen it is also the number whose least
    /// and greatest value have no more than that share of all outside them.
    /// </summary>
    /// <param name="seen">How often it is seen in them, at least 0.</param>
    /// <param name="share">The share, between 0 and 1.</param>
    /// <param name="confidence">The confidence, between 0 and 1.</param>
    public static int Fewest(int seen, double share, double confidence)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(seen);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(share);
        var samples = seen + 1;
        while (Upper(seen, samples, confidence) > share)
            samples++;
        return samples;
    }
}
