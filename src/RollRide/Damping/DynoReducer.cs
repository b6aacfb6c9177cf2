using System.Collections.Immutable;
using System.Globalization;
using MathNet.Numerics.Statistics;

namespace RollRide.Damping;

/// <summary>Reduces what a dynamometer recorded to a force–velocity curve.</summary>
public static class DynoReducer
{
    /// <summary>The fewest different speeds that make a curve: two could not show a knee.</summary>
    public const int FewestSpeeds = 3;

    internal const int Compression = 1, Rebound = -1;

    // Peak velocity method: the samples that count, as a share of the cycle's peak.
    private const double PeakShare = 0.95;

    // Constant velocity method: the band around the median that counts, and the share of the samples it must hold.
    private const double PlateauBand = 0.05, PlateauShare = 0.5;

    // Below this a run is the damper standing still, m/s.
    private const double StandstillVelocity = 1e-3;

    // Points closer than this in velocity are repetitions of one speed.
    private const double SameSpeed = 0.01;

    // Of the modified z-score, see DynoOutlier.
    private const double OutlierScore = 3.5;

    // Of the force: what a load cell measures no better than.
    internal const double LoadCellShare = 3e-3;

    private const int FewestForOutliers = 4;

    /// <summary>Reduces full loops.</summary>
    /// <param name="runs">The runs, one a speed, in any order; a run at standstill gives the gas force.</param>
    /// <param name="method">How a point is taken from a loop.</param>
    /// <param name="excludeOutliers">Whether outlying cycles stay out of the curve; they are reported either way.</param>
    /// <exception cref="DynoDataException">Too few speeds; a loop that is not closed; a damper that would make energy; gas that would pull the
    /// rod in; columns swapped; no stretch of constant velocity where the method needs one.</exception>
    public static DynoReduction Reduce(IReadOnlyList<DynoRun> runs, DynoMethod method, bool excludeOutliers = false)
    {
        ArgumentNullException.ThrowIfNull(runs);
        var standing = runs.Where(run => run.PeakVelocity < StandstillVelocity).ToList();
        var moving = runs.Except(standing).OrderBy(run => run.PeakVelocity).Select(run => (Run: run, Cycles: DynoCycle.Of(run))).ToList();
        RequireSpeeds(moving.Select(m => m.Run.PeakVelocity));

        var warnings = ImmutableArray.CreateBuilder<string>();
        var slow = SlowForces.Of([.. moving.Take(method == DynoMethod.ConstantVelocity ? 2 : 1).Select(m => m.Cycles)], warnings);
        double gasForce = standing.Count > 0 ? standing.Average(run => run.Force.Average()) : slow.GasForce;
        DynoChecks.GasForce(gasForce, moving.Max(m => m.Run.Force.Max(Math.Abs)), warnings);

        var outliers = ImmutableArray.CreateBuilder<DynoOutlier>();
        var speeds = ImmutableArray.CreateBuilder<DynoSpeed>();
        var points = new List<ForceVelocityPoint>();
        foreach (var (run, cycles) in moving)
        {
            var compression = MeanPoint(run.Name, [.. cycles.Select(c => PointOf(run.Name, c, Compression, method))], excludeOutliers, outliers);
            var rebound = MeanPoint(run.Name, [.. cycles.Select(c => PointOf(run.Name, c, Rebound, method))], excludeOutliers, outliers);
            points.Add(compression with { Force = compression.Force - gasForce - slow.Friction });
            points.Add(rebound with { Force = rebound.Force - gasForce + slow.Friction });
            speeds.Add(new DynoSpeed
            {
                Name = run.Name,
                Cycles = cycles.Count,
                Compression = compression,
                Rebound = rebound,
                Stroke = cycles.Average(c => c.Stroke),
                EnergyPerCycle = cycles.Average(c => c.Energy),
                Hysteresis = method == DynoMethod.PeakVelocity ? DynoHysteresis.Of(cycles, slow.GasRate) : null,
                Loop = [.. cycles[cycles.Count / 2].Velocity.Zip(cycles[cycles.Count / 2].Force, (v, f) => new ForceVelocityPoint(v, f))],
            });
        }

        var curve = CurveThrough(points);
        DynoChecks.Directions(curve, warnings);
        return new DynoReduction
        {
            Method = method,
            Curve = curve,
            Friction = slow.Friction,
            GasForce = gasForce,
            GasRate = slow.GasRate,
            Speeds = speeds.ToImmutable(),
            Outliers = outliers.ToImmutable(),
            OutliersExcluded = excludeOutliers,
            Warnings = warnings.ToImmutable(),
        };
    }

    /// <summary>
    /// Takes force–velocity points as they are. Points at one velocity are repetitions and are averaged; friction and gas cannot be told apart
    /// from the valves, unless there is a point at rest: its force is the gas force.
    /// </summary>
    /// <param name="points">The points, in any order; compression positive.</param>
    /// <param name="excludeOutliers">Whether outlying points stay out of the curve; they are reported either way.</param>
    /// <exception cref="DynoDataException">Too few speeds, or a damper that would make energy, gas that would pull the rod in, or columns swapped.</exception>
    public static DynoReduction FromPoints(IReadOnlyList<ForceVelocityPoint> points, bool excludeOutliers = false)
    {
        ArgumentNullException.ThrowIfNull(points);
        var moving = points.Where(p => p.Velocity != 0).OrderBy(p => Math.Abs(p.Velocity)).ToList();
        RequireSpeeds(moving.Where(p => p.Velocity > 0).Select(p => p.Velocity), " in compression");
        RequireSpeeds(moving.Where(p => p.Velocity < 0).Select(p => p.Velocity), " in rebound");
        double? gasForce = points.Any(p => p.Velocity == 0) ? points.Where(p => p.Velocity == 0).Average(p => p.Force) : null;
        DynoChecks.Power(moving, gasForce ?? 0);
        var warnings = ImmutableArray.CreateBuilder<string>();
        warnings.Add("Points alone do not tell friction from the valves' force; full loops do.");
        if (gasForce is { } gas)
            DynoChecks.GasForce(gas, moving.Max(p => Math.Abs(p.Force)), warnings);

        var outliers = ImmutableArray.CreateBuilder<DynoOutlier>();
        var speeds = ImmutableArray.CreateBuilder<DynoSpeed>();
        var means = new List<ForceVelocityPoint>();
        foreach (var speed in GroupBySpeed(moving, p => Math.Abs(p.Velocity)))
        {
            string name = string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(speed[0].Velocity):G4} m/s");
            ForceVelocityPoint? Mean(int direction)
            {
                var here = speed.Where(p => direction * p.Velocity > 0).ToList();
                if (here.Count == 0)
                    return null;
                var mean = MeanPoint(name, here, excludeOutliers, outliers);
                means.Add(mean with { Force = mean.Force - (gasForce ?? 0) });
                return mean;
            }

            var (compression, rebound) = (Mean(Compression), Mean(Rebound));
            speeds.Add(new DynoSpeed
            {
                Name = name,
                Cycles = Math.Max(speed.Count(p => p.Velocity > 0), speed.Count(p => p.Velocity < 0)),
                Compression = compression,
                Rebound = rebound,
            });
        }

        var curve = CurveThrough(means);
        DynoChecks.Directions(curve, warnings);
        return new DynoReduction
        {
            Method = null,
            Curve = curve,
            Friction = null,
            GasForce = gasForce,
            GasRate = null,
            Speeds = speeds.ToImmutable(),
            Outliers = outliers.ToImmutable(),
            OutliersExcluded = excludeOutliers,
            Warnings = warnings.ToImmutable(),
        };
    }

    private static void RequireSpeeds(IEnumerable<double> velocities, string direction = "")
    {
        int count = GroupBySpeed([.. velocities.Select(Math.Abs).Order()], v => v).Count;
        if (count < FewestSpeeds)
        {
            throw new DynoDataException(null, null, string.Create(
                CultureInfo.InvariantCulture, $"there {(count == 1 ? "is 1 speed" : $"are {count} different speeds")}{direction}; a curve needs at least {FewestSpeeds}"));
        }
    }

    /// <summary>Groups values sorted by speed into those of one speed.</summary>
    private static List<List<T>> GroupBySpeed<T>(IReadOnlyList<T> sorted, Func<T, double> speed)
    {
        var groups = new List<List<T>>();
        foreach (var item in sorted)
        {
            if (groups.Count > 0 && speed(item) <= speed(groups[^1][0]) * (1 + SameSpeed))
                groups[^1].Add(item);
            else
                groups.Add([item]);
        }

        return groups;
    }

    private static ForceVelocityPoint PointOf(string run, DynoCycle cycle, int direction, DynoMethod method)
    {
        int[] samples = [.. cycle.Samples(direction)];
        double[] speeds = [.. samples.Select(i => Math.Abs(cycle.Velocity[i]))];
        var (low, high) = method == DynoMethod.PeakVelocity
            ? (PeakShare * speeds.Max(), double.PositiveInfinity)
            : ((1 - PlateauBand) * speeds.Median(), (1 + PlateauBand) * speeds.Median());
        int[] counted = [.. samples.Where((_, k) => speeds[k] >= low && speeds[k] <= high)];
        if (method == DynoMethod.ConstantVelocity && counted.Length < PlateauShare * samples.Length)
        {
            throw new DynoDataException(run, null, string.Create(
                CultureInfo.InvariantCulture,
                $"only {100.0 * counted.Length / samples.Length:F0} % of the samples {(direction > 0 ? "in compression" : "in rebound")} lie within {100 * PlateauBand:F0} % of one velocity; the constant velocity method needs {100 * PlateauShare:F0} %. A sinusoidal movement takes the peak velocity method"));
        }

        return new ForceVelocityPoint(counted.Average(i => cycle.Velocity[i]), counted.Average(i => cycle.Force[i]));
    }

    private static ForceVelocityPoint MeanPoint(
        string run, List<ForceVelocityPoint> cycles, bool excludeOutliers, ImmutableArray<DynoOutlier>.Builder outliers)
    {
        double median = cycles.Select(p => p.Force).Median();
        double deviation = cycles.Select(p => Math.Abs(p.Force - median)).Median();

        // A few cycles may agree by chance far better than a load cell measures (some 0.3 % of the force; common practice, no source).
        double scatter = Math.Max(deviation, LoadCellShare * Math.Abs(median));
        var counted = new List<ForceVelocityPoint>();
        for (int i = 0; i < cycles.Count; i++)
        {
            bool outlies = cycles.Count >= FewestForOutliers && 0.6745 * Math.Abs(cycles[i].Force - median) / scatter > OutlierScore;
            if (outlies)
                outliers.Add(new DynoOutlier(run, i + 1, cycles[i].Velocity, cycles[i].Force, median));
            if (!outlies || !excludeOutliers)
                counted.Add(cycles[i]);
        }

        return new ForceVelocityPoint(counted.Average(p => p.Velocity), counted.Average(p => p.Force));
    }

    private static ForceVelocityCurve CurveThrough(IEnumerable<ForceVelocityPoint> points)
    {
        var sorted = GroupBySpeed([.. points.Where(p => p.Velocity < 0).OrderBy(p => -p.Velocity)], p => -p.Velocity)
            .Concat(GroupBySpeed([.. points.Where(p => p.Velocity > 0).OrderBy(p => p.Velocity)], p => p.Velocity))
            .Select(group => new ForceVelocityPoint(group.Average(p => p.Velocity), group.Average(p => p.Force)))
            .Append(new ForceVelocityPoint(0, 0))
            .OrderBy(p => p.Velocity)
            .ToList();
        if (sorted.Find(p => p.Force * p.Velocity < 0) is { } push)
        {
            throw new DynoDataException(null, null, string.Create(
                CultureInfo.InvariantCulture,
                $"at {push.Velocity:F3} m/s the valves would push with {push.Force:F1} N once gas and friction are taken out; a damper cannot make energy"));
        }

        return ForceVelocityCurve.FromPoints([.. sorted.Select(p => p.Velocity)], [.. sorted.Select(p => p.Force)]);
    }
}
