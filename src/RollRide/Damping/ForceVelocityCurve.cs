using System.Collections.Immutable;
using System.Globalization;
using MathNet.Numerics.Interpolation;
using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>
/// A damper's force as a function of its velocity: <c>v &gt; 0</c> (m/s) is compression, <c>F &gt; 0</c> (N) resists
/// compression. It runs through its points, and beyond them straight on with the slope it has at either end.
/// </summary>
/// <remarks>
/// Immutable and thread-safe. <see cref="MinimumVelocity"/> and <see cref="MaximumVelocity"/> tell where the data end and
/// the straight extension begins. Whether the curve is one a damper can have is the reader's to judge, with
/// <see cref="EnergyFaults"/> and <see cref="IsStrictlyIncreasing"/>.
/// </remarks>
public sealed partial class ForceVelocityCurve : IForceLaw, ISmoothFunction
{
    // Segment k holds from break k − 1 (included) to break k; the first and the last reach to infinity.
    private readonly CurveSegment[] _segments;
    private readonly double[] _breaks;
    private readonly double[] _breakForces;

    private ForceVelocityCurve(ImmutableArray<ForceVelocityPoint> points, CurveInterpolation interpolation)
    {
        Points = points;
        Interpolation = interpolation;
        bool isCubic = interpolation == CurveInterpolation.MonotoneCubic && points.Length > 2;
        _segments = isCubic ? Cubics(points) : Lines(points);
        var breaks = isCubic ? points.AsSpan() : points.AsSpan()[1..^1];
        _breaks = breaks.Map(p => p.Velocity);
        _breakForces = breaks.Map(p => p.Force);
        int bad = 0;
        while (bad < _segments.Length && _segments[bad].IsFinite)
            bad++;
        if (bad < _segments.Length)
        {
            throw new ArgumentException(string.Create(
                CultureInfo.InvariantCulture,
                $"The curve's slope near point {Math.Min(bad + 1, points.Length)} is not a finite number: its points lie too close together or its forces are too large."));
        }

        IsStrictlyIncreasing = _segments[0].C1 > 0 && _segments[^1].C1 > 0 && Rises(points);
        EnergyFaults = FindEnergyFaults();
    }

    /// <summary>The points, by ascending velocity.</summary>
    public ImmutableArray<ForceVelocityPoint> Points { get; }

    /// <summary>How the curve runs between its points.</summary>
    public CurveInterpolation Interpolation { get; }

    /// <summary>The lowest velocity of the data, m/s: the fastest rebound. Below zero.</summary>
    public double MinimumVelocity => Points[0].Velocity;

    /// <summary>The highest velocity of the data, m/s: the fastest compression. Above zero.</summary>
    public double MaximumVelocity => Points[^1].Velocity;

    /// <summary>The largest force of a point in either direction, N.</summary>
    public double LargestForce => Points.Max(p => Math.Abs(p.Force));

    /// <summary>Whether more velocity always means more force, extensions included, so that <see cref="VelocityAt"/> exists.</summary>
    public bool IsStrictlyIncreasing { get; }

    /// <summary>
    /// The points where the damper would push instead of resist (<c>F·v &lt; 0</c>), and its force at rest if it is not
    /// exactly zero (where no point lies at rest this may be no more than a rounding). In order of velocity; empty for
    /// a curve that only dissipates over the range of its data.
    /// </summary>
    public ImmutableArray<EnergyFault> EnergyFaults { get; }

    /// <summary>Makes a curve through points.</summary>
    /// <param name="velocity">Velocities, m/s, strictly ascending, from rebound (below zero) to compression (above zero);
    /// at least two. A point at zero is not needed.</param>
    /// <param name="force">Forces, N, as many as velocities.</param>
    /// <param name="interpolation">How the curve runs between the points.</param>
    /// <exception cref="ArgumentException">The points do not make a curve; the message names the first bad one, counted from 1.</exception>
    public static ForceVelocityCurve FromPoints(
        IReadOnlyList<double> velocity,
        IReadOnlyList<double> force,
        CurveInterpolation interpolation = CurveInterpolation.Linear)
    {
        ArgumentNullException.ThrowIfNull(velocity);
        ArgumentNullException.ThrowIfNull(force);
        if (interpolation is not (CurveInterpolation.Linear or CurveInterpolation.MonotoneCubic))
            throw new ArgumentOutOfRangeException(nameof(interpolation), interpolation, "The interpolation must be linear or monotone cubic.");
        if (velocity.Count != force.Count)
            throw Fault($"A curve needs as many forces as velocities; there are {velocity.Count} velocities and {force.Count} forces.");
        if (velocity.Count < 2)
            throw Fault($"A curve needs at least 2 points; there are {velocity.Count}.");

        for (int i = 0; i < velocity.Count; i++)
        {
            if (!double.IsFinite(velocity[i]) || !double.IsFinite(force[i]))
                throw Fault($"Point {i + 1} ({velocity[i]} m/s, {force[i]} N) must be finite.");
            if (i > 0 && velocity[i] <= velocity[i - 1])
                throw Fault($"Velocities must ascend: point {i + 1} ({velocity[i]} m/s) does not lie above point {i} ({velocity[i - 1]} m/s).");
        }

        if (velocity[0] >= 0 || velocity[^1] <= 0)
        {
            string missing = velocity[0] >= 0 ? "rebound (v < 0)" : "compression (v > 0)";
            throw Fault($"The velocities run from {velocity[0]} to {velocity[^1]} m/s, so {missing} has no points; a curve needs both directions.");
        }

        var points = ImmutableArray.CreateBuilder<ForceVelocityPoint>(velocity.Count);
        for (int i = 0; i < velocity.Count; i++)
            points.Add(new ForceVelocityPoint(velocity[i], force[i]));
        return new ForceVelocityCurve(points.ToImmutable(), interpolation);
    }

    /// <summary>The straight pieces of the curve; null if one is bent.</summary>
    internal StraightPieces? StraightPieces => field ??= Array.TrueForAll(_segments, s => s.IsLinear)
        ? Numerics.StraightPieces.Of(_breaks, _segments.Map(s => s.C1), _segments.Map(s => s.C0 - (s.C1 * s.Origin)))
        : null;

    (double Value, double First) ISmoothFunction.At(double x) => (Force(x), Slope(x));

    double ISmoothFunction.SecondAt(double x) => _segments[CountUpTo(_breaks, x)].SlopeSlope(x);

    /// <summary>The linear damper <c>F = c v</c>, with its points at −1, 0 and 1 m/s.</summary>
    /// <param name="coefficient">Damping coefficient <c>c</c>, N·s/m, at least 0.</param>
    public static ForceVelocityCurve Linear(double coefficient)
    {
        Require.NotNegative(coefficient, "N·s/m");
        return FromPoints([-1, 0, 1], [-coefficient, 0, coefficient]);
    }

    /// <summary>The same curve with every force multiplied.</summary>
    /// <param name="factor">The factor, at least 0.</param>
    public ForceVelocityCurve Scaled(double factor)
    {
        Require.NotNegative(factor);
        return new ForceVelocityCurve([.. Points.Select(p => p with { Force = factor * p.Force })], Interpolation);
    }

    /// <summary>The force at a velocity, N. Allocates nothing.</summary>
    /// <param name="velocity">Damper velocity, m/s, positive in compression.</param>
    public double Force(double velocity) => _segments[CountUpTo(_breaks, velocity)].Force(velocity);

    /// <summary>
    /// The slope <c>dF/dv</c> at a velocity, N·s/m; at a corner the mean of both sides. Allocates nothing.
    /// </summary>
    /// <param name="velocity">Damper velocity, m/s, positive in compression.</param>
    public double Slope(double velocity)
    {
        var (below, above) = SlopesAround(velocity);
        return below + (above - below) / 2;
    }

    /// <summary>
    /// The velocity at which the damper gives a force, m/s: the inverse of <see cref="Force"/>. Exact on a straight
    /// piece, otherwise to machine precision of the force. Allocates nothing.
    /// </summary>
    /// <param name="force">Damper force, N, positive when it resists compression.</param>
    /// <exception cref="InvalidOperationException">The curve is not <see cref="IsStrictlyIncreasing">strictly increasing</see>.</exception>
    public double VelocityAt(double force)
    {
        if (!IsStrictlyIncreasing)
            throw new InvalidOperationException("The force–velocity curve has no inverse: its force does not rise with velocity everywhere.");

        int k = CountUpTo(_breakForces, force);
        ref readonly var segment = ref _segments[k];
        if (segment.IsLinear)
            return segment.Origin + (force - segment.C0) / segment.C1;

        // Only the pieces between two points are cubic, so both breaks exist.
        double low = _breaks[k - 1], high = _breaks[k];
        return ForceInverse.Velocity(this, force, low, high, start: low + (high - low) / 2);
    }

    private static CurveSegment[] Lines(ImmutableArray<ForceVelocityPoint> points)
    {
        var segments = new CurveSegment[points.Length - 1];
        for (int i = 0; i < segments.Length; i++)
            segments[i] = CurveSegment.Through(points[i], points[i + 1]);
        return segments;
    }

    private static CurveSegment[] Cubics(ImmutableArray<ForceVelocityPoint> points)
    {
        // Rebound and compression have valves of their own: where a point lies at rest, each direction runs from it by itself.
        int rest = points.IndexOf(points.FirstOrDefault(p => p.Velocity == 0, points[0]));
        var rebound = Pieces(rest == 0 ? points : points[..(rest + 1)]);
        var compression = rest == 0 ? rebound : Pieces(points[rest..]);
        CurveSegment[] between = rest == 0 ? rebound.Between : [.. rebound.Between, .. compression.Between];
        return [CurveSegment.Tangent(points[0], rebound.FirstSlope), .. between, CurveSegment.Tangent(points[^1], compression.LastSlope)];
    }

    /// <summary>The monotone cubics between points, and their slopes at both ends; through two points their straight line.</summary>
    private static (CurveSegment[] Between, double FirstSlope, double LastSlope) Pieces(ImmutableArray<ForceVelocityPoint> points)
    {
        if (points.Length == 2)
        {
            var line = CurveSegment.Through(points[0], points[1]);
            return ([line], line.C1, line.C1);
        }

        var spline = CubicSpline.InterpolatePchipSorted(
            [.. points.Select(p => p.Velocity)],
            [.. points.Select(p => p.Force)]);
        double[] slopes = [.. points.Select(p => spline.Differentiate(p.Velocity))];
        AtRest(0, 1);
        AtRest(points.Length - 1, points.Length - 2);
        var between = Enumerable.Range(0, points.Length - 1)
            .Select(i => CurveSegment.Hermite(points[i], slopes[i], points[i + 1], slopes[i + 1]));
        return ([.. between], slopes[0], slopes[^1]);

        // The end formula makes the slope at rest vanish where the curve steepens fast. There a damper in an elastic mount would have
        // no defined velocity, so the slope stays at that to the first point, which keeps the cubic monotone.
        void AtRest(int end, int next)
        {
            double chord = (points[next].Force - points[end].Force) / (points[next].Velocity - points[end].Velocity);
            if (points[end].Velocity == 0 && Math.Abs(slopes[end]) < Math.Abs(chord))
                slopes[end] = chord;
        }
    }

    /// <summary>How many of ascending values do not exceed a value: the index of its segment.</summary>
    private static int CountUpTo(double[] ascending, double value)
    {
        int count = 0, end = ascending.Length;
        while (count < end)
        {
            int middle = (count + end) >>> 1;
            if (ascending[middle] <= value)
                count = middle + 1;
            else
                end = middle;
        }

        return count;
    }

    private static bool Rises(ImmutableArray<ForceVelocityPoint> points)
    {
        for (int i = 1; i < points.Length; i++)
        {
            if (!(points[i].Force > points[i - 1].Force))
                return false;
        }

        return true;
    }

    private static ArgumentException Fault(FormattableString message) => new(FormattableString.Invariant(message));

    private (double Below, double Above) SlopesAround(double velocity)
    {
        int k = CountUpTo(_breaks, velocity);
        double above = _segments[k].Slope(velocity);
        bool atBreak = k > 0 && _breaks[k - 1] == velocity;
        return (atBreak ? _segments[k - 1].Slope(velocity) : above, above);
    }

    private ImmutableArray<EnergyFault> FindEnergyFaults()
    {
        var faults = new List<EnergyFault>();
        for (int i = 0; i < Points.Length; i++)
        {
            var (velocity, force) = Points[i];
            if (velocity == 0 ? force != 0 : force * velocity < 0)
                faults.Add(new EnergyFault(i, velocity, force));
        }

        if (!Points.Any(p => p.Velocity == 0) && Force(0) is not 0 and var atRest)
            faults.Insert(faults.Count(f => f.Velocity < 0), new EnergyFault(null, 0, atRest));
        return [.. faults];
    }
}
