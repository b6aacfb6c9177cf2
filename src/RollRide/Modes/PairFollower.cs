using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Modes;

/// <summary>Follows pairs of eigenvalues while the damper setting grows, so that each stays with the motion it belonged to.</summary>
/// <remarks>Settings must be asked for in ascending order. Not thread-safe; one per sequence.</remarks>
internal sealed class PairFollower
{
    // The first trial factor between two settings where modes lie near each other or creep; it is reduced where eigenvalues move too fast
    // to be told apart.
    private const double LargestFactor = 1.25;
    private const double SmallestFactor = 1 + 1e-6;

    // An eigenvalue may change by this much (relative distance plus 1 less the assurance criterion) between two settings and still be of the same mode.
    private const double LargestChange = 0.25;

    private readonly ILinearMotion _linear;
    private EigenSystem _system;
    private double _coefficient;
    private (int First, int Second)[] _pairs;

    /// <summary>Starts at a setting.</summary>
    /// <param name="linear">What swings.</param>
    /// <param name="coefficient">The setting, N·s/m; greater than 0.</param>
    /// <param name="system">The eigenvalues there.</param>
    /// <param name="pairs">The two eigenvalues of each motion, as indices.</param>
    public PairFollower(ILinearMotion linear, double coefficient, EigenSystem system, (int First, int Second)[] pairs) =>
        (_linear, _coefficient, _system, _pairs) = (linear, coefficient, system, pairs);

    /// <summary>The eigenvalues at the setting reached.</summary>
    public EigenSystem System => _system;

    /// <summary>The two eigenvalues of each motion there.</summary>
    public (int First, int Second)[] Pairs => _pairs;

    /// <summary>A follower that goes on from the same setting on its own.</summary>
    public PairFollower Fork() => (PairFollower)MemberwiseClone();

    /// <summary>Takes the nearest eigenvalues at another setting, one that changes hardly anything.</summary>
    /// <param name="coefficient">The setting, N·s/m.</param>
    public void JumpTo(double coefficient)
    {
        var system = EigenSystem.Solve(_linear, coefficient);
        var match = Match(_system, system, out _);
        (_pairs, _system, _coefficient) = (Repair(system, _pairs.Map(pair => (match[pair.First], match[pair.Second]))), system, coefficient);
    }

    /// <summary>Goes on to another setting.</summary>
    /// <param name="coefficient">The setting, N·s/m; not less than the one before.</param>
    /// <exception cref="ArgumentException">It is less than the one before.</exception>
    public void MoveTo(double coefficient)
    {
        if (coefficient < _coefficient)
            throw new ArgumentException(FormattableString.Invariant($"Settings must ascend: {coefficient} N·s/m was asked for after {_coefficient} N·s/m."), nameof(coefficient));

        // Where the modes are well separated at both settings, the whole interval is tried in one step: modes that meet in between change their
        // shapes, and a change that large is not accepted.
        var last = _coefficient < coefficient ? EigenSystem.Solve(_linear, coefficient) : _system;
        var isClear = _system.IsWellSeparated && last.IsWellSeparated;
        var factor = isClear ? Math.Max(LargestFactor, coefficient / _coefficient) : LargestFactor;
        while (_coefficient < coefficient)
        {
            var next = _coefficient * factor >= coefficient ? coefficient : _coefficient * factor;
            var system = next == coefficient ? last : EigenSystem.Solve(_linear, next);
            var match = Match(_system, system, out var change);
            if (change > LargestChange && factor > SmallestFactor)
            {
                factor = Math.Sqrt(factor);
                continue;
            }

            _pairs = Repair(system, _pairs.Map(pair => (match[pair.First], match[pair.Second])));
            _system = system;
            _coefficient = next;
            factor = isClear ? factor * factor : Math.Min(LargestFactor, factor * factor);
        }
    }

    /// <summary>
    /// Pairs the eigenvalues of two neighbouring settings, the closest first. Where a damper has no coefficient its mount has no motion of its own: that of the
    /// other setting stays without a partner.
    /// </summary>
    private static int[] Match(EigenSystem from, EigenSystem to, out double largestChange)
    {
        var (n, m) = (from.Values.Length, to.Values.Length);
        var costs = new double[n, m];
        var sizesTo = to.Values.Map(EigenSystem.Magnitude);
        for (var i = 0; i < n; i++)
        {
            var sizeFrom = EigenSystem.Magnitude(from.Values[i]);
            for (var j = 0; j < m; j++)
            {
                var sizes = sizeFrom + sizesTo[j];
                var distance = sizes > 0 ? EigenSystem.Magnitude(from.Values[i] - to.Values[j]) / sizes : 0;
                costs[i, j] = distance + 1 - from.AssuranceCriterion(i, to, j);
            }
        }

        var match = new int[n];
        largestChange = 0;
        for (var pair = 0; pair < Math.Min(n, m); pair++)
        {
            var (first, second, least) = (-1, -1, double.PositiveInfinity);
            for (var i = 0; i < n; i++)
            {
                for (var j = 0; j < m; j++)
                {
                    if (costs[i, j] < least)
                        (first, second, least) = (i, j, costs[i, j]);
                }
            }

            match[first] = second;
            for (var k = 0; k < m; k++)
                costs[first, k] = double.PositiveInfinity;
            for (var k = 0; k < n; k++)
                costs[k, second] = double.PositiveInfinity;

            // Only oscillating modes must be followed in small changes; an overdamped one has no shape to compare once the suspension is locked.
            if (from.Values[first].Imaginary != 0)
                largestChange = Math.Max(largestChange, least);
        }

        return match;
    }

    /// <summary>
    /// Where a real eigenvalue of one mode met a real one of another and both became a swinging pair, gives the pair to the mode
    /// that the first of them belonged to.
    /// </summary>
    private static (int First, int Second)[] Repair(EigenSystem system, (int First, int Second)[] pairs)
    {
        for (var mode = 0; mode < pairs.Length; mode++)
        {
            var (first, second) = pairs[mode];
            if (system.Values[first].Imaginary == 0 && system.Values[second].Imaginary != 0)
                (first, second) = (second, first);
            if (system.Values[first].Imaginary == 0)
                continue;
            var partner = system.ConjugateOf(first);
            for (var other = 0; other < pairs.Length; other++)
            {
                if (other == mode)
                    continue;
                if (pairs[other].First == partner)
                    pairs[other].First = second;
                else if (pairs[other].Second == partner)
                    pairs[other].Second = second;
            }

            pairs[mode] = (first, partner);
        }

        return pairs;
    }
}
