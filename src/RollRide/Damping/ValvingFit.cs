using System.Collections.Immutable;
using System.Globalization;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using MathNet.Numerics.Optimization;

namespace RollRide.Damping;

/// <summary>A valving fitted to a curve's points, and how well it does.</summary>
/// <param name="Valving">The valving found.</param>
/// <param name="Residuals">At each point other than the one at rest: its velocity, m/s, and measured minus fitted force, N.</param>
public sealed record ValvingFit(Valving Valving, ImmutableArray<ForceVelocityPoint> Residuals)
{
    // Parameters of a valve, all made dimensionless: bleed and high-speed slope over the largest F/v, knee as the share of the
    // fastest point, blow-off as the share of what lies above the knee, and its slope; the rounding comes last.
    private const int Bleed = 0, Knee = 1, HighSpeed = 2, BlowOffShare = 3, BlowOffSlope = 4;

    // Where the search for the knee starts, as shares of the fastest point; the best of all ends is taken.
    private static readonly double[] KneeStarts = [0.04, 0.08, 0.15, 0.25, 0.4, 0.6];

    /// <summary>Root mean square of the residuals, N.</summary>
    public double RmsResidual => Math.Sqrt(Residuals.Average(r => r.Force * r.Force));

    /// <summary>The residual of largest size.</summary>
    public ForceVelocityPoint LargestResidual => Residuals.MaxBy(r => Math.Abs(r.Force))!;

    /// <summary>
    /// Fits a valving by bounded least squares (Levenberg–Marquardt), each direction on its own, from several starts.
    /// </summary>
    /// <param name="points">Measured points; those at rest do not count. In each direction at least 3 different velocities are
    /// needed, 4 with rounded knees, and 2 more with a blow-off.</param>
    /// <param name="rounded">Whether the knees may be rounded; sharp ones otherwise.</param>
    /// <param name="blowOff">Whether there is a blow-off.</param>
    /// <exception cref="ArgumentException">Too few points in a direction, or forces that push.</exception>
    public static ValvingFit Of(IReadOnlyList<ForceVelocityPoint> points, bool rounded = false, bool blowOff = false)
    {
        ArgumentNullException.ThrowIfNull(points);
        var valving = new Valving(
            FitValve([.. points.Where(p => p.Velocity > 0)], rounded, blowOff, "compression"),
            FitValve([.. points.Where(p => p.Velocity < 0).Select(p => new ForceVelocityPoint(-p.Velocity, -p.Force))], rounded, blowOff, "rebound"));
        return new ValvingFit(
            valving,
            [.. points.Where(p => p.Velocity != 0).Select(p => p with { Force = p.Force - valving.Force(p.Velocity) })]);
    }

    private static ValveCharacteristic FitValve(ForceVelocityPoint[] points, bool rounded, bool blowOff, string direction)
    {
        int needed = 3 + (rounded ? 1 : 0) + (blowOff ? 2 : 0);
        int speeds = points.Select(p => p.Velocity).Distinct().Count();
        if (speeds < needed)
        {
            throw new ArgumentException(string.Create(
                CultureInfo.InvariantCulture,
                $"A valving with these terms needs at least {needed} velocities in {direction}; there are {speeds}."));
        }

        if (Array.FindIndex(points, p => p.Force <= 0) is >= 0 and var bad)
        {
            throw new ArgumentException(string.Create(
                CultureInfo.InvariantCulture,
                $"At {points[bad].Velocity} m/s in {direction} the force does not resist the motion, so no valving gives it."));
        }

        double slope = points.Max(p => p.Force / p.Velocity);
        double fastest = points.Max(p => p.Velocity);
        double slowest = points.Min(p => p.Velocity);

        int round = blowOff ? BlowOffSlope + 1 : HighSpeed + 1;
        ValveCharacteristic Valve(Vector<double> p)
        {
            double knee = p[Knee] * fastest;
            return new ValveCharacteristic(slope * p[Bleed], knee, slope * p[HighSpeed])
            {
                // The minimiser's difference quotient reaches a hair beyond the bounds.
                Rounding = rounded ? Math.Min(p[round], 1) : 0,
                BlowOff = blowOff ? new BlowOff(knee + p[BlowOffShare] * (fastest - knee), slope * p[BlowOffSlope]) : null,
            };
        }

        // The knee lies among the points. A bleed steeper than twice the steepest measured slope could not be told from friction.
        // Slopes stay above zero by a little, so that difference quotients do.
        List<(double Lower, double Guess, double Upper)> ranges =
            [(1e-3, 0.9, 2), (0.5 * slowest / fastest, 0, blowOff ? 0.95 : 1), (1e-6, 0.3, 2)];
        if (blowOff)
            ranges.AddRange([(0.05, 0.5, 1), (1e-6, 0.2, 2)]);
        if (rounded)
            ranges.Add((1e-6, 0.3, 1));
        var velocities = Vector.Build.DenseOfEnumerable(points.Select(p => p.Velocity));
        var forces = Vector.Build.DenseOfEnumerable(points.Select(p => p.Force / (slope * fastest)));
        var model = ObjectiveFunction.NonlinearModel(
            (p, v) => v.Map(Valve(p).Force) / (slope * fastest),
            velocities,
            forces,
            accuracyOrder: 4);

        (double Misfit, ValveCharacteristic Valve)? best = null;
        foreach (double knee in KneeStarts.Where(share => share > ranges[Knee].Lower))
        {
            // Strictly within the bounds: from a guess on one the minimiser does not move.
            ranges[Knee] = ranges[Knee] with { Guess = knee };
            var result = new LevenbergMarquardtMinimizer(maximumIterations: 400).FindMinimum(
                model,
                DenseVector.OfEnumerable(ranges.Select(r => r.Guess)),
                DenseVector.OfEnumerable(ranges.Select(r => r.Lower)),
                DenseVector.OfEnumerable(ranges.Select(r => r.Upper)));
            var valve = Valve(result.MinimizingPoint);
            double misfit = points.Sum(p => (p.Force - valve.Force(p.Velocity)) * (p.Force - valve.Force(p.Velocity)));
            if (best is null || misfit < best.Value.Misfit)
                best = (misfit, valve);
        }

        return best!.Value.Valve;
    }
}
