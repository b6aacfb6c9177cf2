using System.Numerics;
using MathNet.Numerics.Providers.LinearAlgebra;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Modes;

/// <summary>
/// Finds the modes of a linearised half-car and keeps their names while the damper setting grows. Modes are named where damping
/// is small, by the coordinate that holds most of the kinetic energy, and followed from there: at a high setting a shape alone no
/// longer tells which mode it was.
/// </summary>
/// <remarks>Settings must be asked for in ascending order. Not thread-safe; one per sequence.</remarks>
public sealed class ModeFollower
{
    // The first trial factor between two settings where modes lie near each other or creep; it is reduced where eigenvalues move too fast
    // to be told apart.
    private const double LargestFactor = 1.25;
    private const double SmallestFactor = 1 + 1e-6;

    // An eigenvalue may change by this much (relative distance plus 1 less the assurance criterion) between two settings and still be of the same mode.
    private const double LargestChange = 0.25;

    // Below this share of the largest squared natural frequency a stiffness is zero but for rounding.
    private const double StabilityMargin = 1e-12;

    private readonly LinearHalfCar _linear;
    private EigenSystem _system;
    private double _coefficient;

    // The two eigenvalues (indices into the system) of heave, roll, hop and tramp.
    private (int First, int Second)[] _pairs;

    /// <summary>Names the modes at a small setting.</summary>
    /// <param name="linear">The linearised half-car.</param>
    /// <exception cref="UnstableBodyException">The stiffness is not positive definite: no setting makes it swing about rest.</exception>
    /// <exception cref="UnnamedModesException">The tyres are damped so strongly that the axle does not swing.</exception>
    public ModeFollower(LinearHalfCar linear)
    {
        ArgumentNullException.ThrowIfNull(linear);
        _linear = linear;
        if (!IsStable(linear))
            throw new UnstableBodyException(linear);
        _coefficient = NamingCoefficient = ModeNaming.Coefficient(linear);
        _system = EigenSystem.Solve(linear, _coefficient);
        _pairs = ModeNaming.Pairs(_system);
    }

    /// <summary>The modes at one damper coefficient.</summary>
    /// <param name="linear">The linearised half-car.</param>
    /// <param name="coefficient">Coefficient of each damper, N·s/m; 0 or more.</param>
    /// <exception cref="UnstableBodyException">The stiffness is not positive definite.</exception>
    /// <exception cref="UnnamedModesException">The tyres are damped so strongly that the axle does not swing.</exception>
    public static ModeSet Solve(LinearHalfCar linear, double coefficient) => new ModeFollower(linear).At(coefficient);

    /// <summary>The modes with the equivalent coefficients of a layout's dampers at a velocity amplitude.</summary>
    /// <param name="linear">The linearised half-car.</param>
    /// <param name="layout">The layout; of unlike dampers each counts with its own.</param>
    /// <param name="velocity">Velocity amplitude at the dampers, m/s, at least 0.</param>
    /// <param name="includeFriction">Whether friction counts in the coefficient.</param>
    /// <exception cref="UnstableBodyException">The stiffness is not positive definite.</exception>
    /// <exception cref="UnnamedModesException">The tyres are damped so strongly that the axle does not swing.</exception>
    public static ModeSet Solve(LinearHalfCar linear, DamperLayout layout, double velocity, bool includeFriction)
    {
        ArgumentNullException.ThrowIfNull(linear);
        ArgumentNullException.ThrowIfNull(layout);
        return Solve(linear.WithShares(layout.SideShares(velocity, DampingDirection.Both, includeFriction)), layout.EquivalentCoefficient(velocity, DampingDirection.Both, includeFriction));
    }

    /// <summary>The modes at the next damper coefficient.</summary>
    /// <param name="coefficient">Coefficient of each damper, N·s/m; 0 or more, and not less than the one asked for before.</param>
    /// <exception cref="ArgumentException">The coefficient is negative, not finite, or less than the one before.</exception>
    public ModeSet At(double coefficient)
    {
        Require.NotNegative(coefficient, "N·s/m");
        if (coefficient < NamingCoefficient)
        {
            // Below the naming setting shapes are the undamped ones: nothing needs following.
            var system = EigenSystem.Solve(_linear, coefficient);
            return ToModes(system, ModeNaming.Pairs(system), coefficient);
        }

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

        return ToModes(_system, _pairs, coefficient);
    }

    /// <summary>The setting at which modes are named, N·s/m; below it they need no following.</summary>
    internal double NamingCoefficient { get; }

    /// <summary>A follower that goes on from the same setting on its own.</summary>
    internal ModeFollower Fork() => (ModeFollower)MemberwiseClone();

    /// <summary>Whether the stiffness is positive definite, beyond rounding.</summary>
    internal static bool IsStable(LinearHalfCar linear)
    {
        const int Count = HalfCarState.Rates;
        var scaled = new double[Count * Count];
        for (var j = 0; j < Count; j++)
        {
            for (var i = 0; i < Count; i++)
                scaled[(j * Count) + i] = 1 / Math.Sqrt(linear.Mass[i, i]) * linear.Stiffness[i, j] * (1 / Math.Sqrt(linear.Mass[j, j]));
        }

        var squares = new Complex[Count];
        LinearAlgebraControl.Provider.EigenDecomp(true, Count, scaled, new double[Count * Count], squares, new double[Count * Count]);
        var (least, most) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var square in squares)
            (least, most) = (Math.Min(least, square.Real), Math.Max(most, square.Real));
        return !(least <= StabilityMargin * most);
    }

    /// <summary>Pairs the eigenvalues of two neighbouring settings, the closest first.</summary>
    private static int[] Match(EigenSystem from, EigenSystem to, out double largestChange)
    {
        var n = from.Values.Length;
        var costs = new double[n, n];
        var sizesTo = to.Values.Map(EigenSystem.Magnitude);
        for (var i = 0; i < n; i++)
        {
            var sizeFrom = EigenSystem.Magnitude(from.Values[i]);
            for (var j = 0; j < n; j++)
            {
                var sizes = sizeFrom + sizesTo[j];
                var distance = sizes > 0 ? EigenSystem.Magnitude(from.Values[i] - to.Values[j]) / sizes : 0;
                costs[i, j] = distance + 1 - from.AssuranceCriterion(i, to, j);
            }
        }

        var match = new int[n];
        largestChange = 0;
        for (var pair = 0; pair < n; pair++)
        {
            var (first, second, least) = (-1, -1, double.PositiveInfinity);
            for (var i = 0; i < n; i++)
            {
                for (var j = 0; j < n; j++)
                {
                    if (costs[i, j] < least)
                        (first, second, least) = (i, j, costs[i, j]);
                }
            }

            match[first] = second;
            for (var k = 0; k < n; k++)
                costs[first, k] = costs[k, second] = double.PositiveInfinity;

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

    private ModeSet ToModes(EigenSystem system, (int First, int Second)[] pairs, double coefficient)
    {
        Mode ModeOf(ModeName name)
        {
            var (first, second) = pairs[(int)name];
            var (a, b) = (system.Values[first], system.Values[second]);

            // The upper of a conjugate pair, or the slower of two real ones.
            if (a.Imaginary < 0 || (a.Imaginary == 0 && a.Real < b.Real))
                (first, a, b) = (second, b, a);
            var weighted = system.Weighted[first];
            var shape = (Complex[])weighted.Clone();
            _linear.Unweigh(shape);
            var largest = shape.MaxBy(value => value.Magnitude);

            return new Mode
            {
                Name = name,
                Eigenvalue = a,
                Partner = b,
                Shape = [.. shape.Map(value => largest == Complex.Zero ? value : value / largest)],
                Participation = [.. weighted.Map(EigenSystem.MagnitudeSquared)],
            };
        }

        return new ModeSet(coefficient, ModeOf(ModeName.Heave), ModeOf(ModeName.Roll), ModeOf(ModeName.Hop), ModeOf(ModeName.Tramp));
    }
}
