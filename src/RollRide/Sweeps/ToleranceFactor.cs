using MathNet.Numerics.Distributions;
using MathNet.Numerics.Integration;
using MathNet.Numerics.RootFinding;

namespace RollRide.Sweeps;

/// <summary>How many standard deviations around the mean of a few measured parts hold a share of all parts made.</summary>
public static class ToleranceFactor
{
    // The mean of the measured parts lies within so many of its own standard deviations but for 1e-15 of all times; the integrand is smooth over them.
    private const double Reach = 8;
    private const int Nodes = 64;
    private const double Accuracy = 1e-9;

    /// <summary>
    /// The two-sided factor <c>k</c> for normally distributed parts: with the confidence given, at least the coverage of all parts lies within <c>mean ± k s</c>
    /// of those measured.
    /// </summary>
    /// <remarks>
    /// Where the mean is off by <c>z/√n</c>, an interval of half-width <c>R(z)</c> holds the coverage, <c>Φ(z/√n + R) − Φ(z/√n − R) = p</c>, and <c>k s ≥ R</c> has the chance
    /// <c>P(χ²ₙ₋₁ ≥ (n − 1) R²/k²)</c>; the mean of this over <c>z</c> is the confidence. (A. Wald, J. Wolfowitz, Ann. Math. Stat. 17, 1946, without their approximation; from memory.)
    /// </remarks>
    /// <param name="measured">The number of parts measured <c>n</c>, at least 2.</param>
    /// <param name="coverage">The share of all parts <c>p</c>, between 0 and 1.</param>
    /// <param name="confidence">The confidence, between 0 and 1.</param>
    public static double TwoSided(int measured, double coverage, double confidence)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(measured, 2);
        RequireShare(coverage, nameof(coverage));
        RequireShare(confidence, nameof(confidence));
        var centred = Normal.InvCDF(0, 1, (1 + coverage) / 2);
        var rule = new GaussLegendreRule(0, Reach, Nodes);
        var places = Enumerable.Range(0, Nodes).Select(i => (Weight: 2 * rule.GetWeight(i) * Normal.PDF(0, 1, rule.GetAbscissa(i)), HalfWidth: HalfWidth(rule.GetAbscissa(i) / Math.Sqrt(measured)))).ToArray();
        var greatest = 2 * centred;
        while (Confidence(greatest) < confidence)
            greatest *= 2;
        return Brent.FindRoot(k => Confidence(k) - confidence, centred / 2, greatest, Accuracy);

        double HalfWidth(double shift) => Brent.FindRoot(
            half => Normal.CDF(0, 1, shift + half) - Normal.CDF(0, 1, shift - half) - coverage, 0, shift + centred + Accuracy, Accuracy);
        double Confidence(double k) => places.Sum(at => at.Weight * (1 - ChiSquared.CDF(measured - 1, (measured - 1) * at.HalfWidth * at.HalfWidth / (k * k))));
    }

    private static void RequireShare(double share, string name)
    {
        if (!(share > 0 && share < 1))
            throw new ArgumentOutOfRangeException(name, share, "A share between 0 and 1 is needed.");
    }
}
