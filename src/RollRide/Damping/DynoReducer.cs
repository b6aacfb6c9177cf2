using System.Collections.Immutable;
using System.Globalization;
using MathNet.Numerics.LinearRegression;
using MathNet.Numerics.Statistics;

namespace RollRide.Damping;

/// <summary>Reduces what a dynamometer recorded to a force–velocity curve.</summary>
public static class DynoReducer
{
    /// <summary>The fewest different speeds that make a curve: two could not show a knee.</summary>
    public const int FewestSpeeds = 3;

    private const int Compression = 1, Rebound = -1;

    // Peak velocity method: the samples that count, as a share of the cycle's peak.
    private const double PeakShare = 0.95;

    // Constant velocity method: the band around the median that counts, and the share of the samples it must hold.
    private const double PlateauBand = 0.05, PlateauShare = 0.5;

    // Friction and gas are read from the slow movement: above the velocity over which friction builds up, and below the knee of
    // ordinary dampers (common practice, no source).
    private const double SlowShare = 0.3, SlowVelocity = 0.1;

    // Below this a run is the damper standing still, m/s.
    private const double StandstillVelocity = 1e-3;

    // Points closer than this in velocity are repetitions of one speed.
    private const double SameSpeed = 0.01;

    private const double OutlierScore = 3.5, LoadCellShare = 3e-3;

    // A load cell that was not zeroed is off by no more than this share of the largest force; common practice, no source.
    private const double LargestOffsetShare = 0.01;

    // Ordinary dampers give more rebound than compression; below this share the two are likely to be mixed up; common practice, no source.
    private const double LeastRebound = 0.7;

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
        var slow = SeparateSlowForces([.. moving.Take(method == DynoMethod.ConstantVelocity ? 2 : 1).Select(m => m.Cycles)], warnings);
        double gasForce = standing.Count > 0 ? standing.Average(run => run.Force.Average()) : slow.GasForce;
        CheckGasForce(gasForce, moving.Max(m => m.Run.Force.Max(Math.Abs)), warnings);

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
                Hysteresis = method == DynoMethod.PeakVelocity ? Hysteresis(cycles, slow.GasRate) : null,
                Loop = [.. cycles[cycles.Count / 2].Velocity.Zip(cycles[cycles.Count / 2].Force, (v, f) => new ForceVelocityPoint(v, f))],
            });
        }

        var curve = CurveThrough(points);
        CheckDirections(curve, warnings);
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
        CheckPower(moving, gasForce ?? 0);
        var warnings = ImmutableArray.CreateBuilder<string>();
        warnings.Add("Points alone do not tell friction from the valves' force; full loops do.");
        if (gasForce is { } gas)
            CheckGasForce(gas, moving.Max(p => Math.Abs(p.Force)), warnings);

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
        CheckDirections(curve, warnings);
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

    /// <summary>
    /// Gas pushes the rod out. With both signs turned round energy looks right, and compression and rebound stand in each other's place:
    /// only the gas shows it.
    /// </summary>
    private static void CheckGasForce(double gasForce, double largestForce, ImmutableArray<string>.Builder warnings)
    {
        if (gasForce < -LargestOffsetShare * largestForce)
        {
            throw new DynoDataException(null, null, string.Create(
                CultureInfo.InvariantCulture,
                $"the force at rest is {gasForce:F0} N: the gas would pull the rod in, but gas pushes it out. The direction declared positive is the wrong one (compression and rebound would change places), or the load cell was not zeroed without the damper"));
        }

        if (gasForce < -LoadCellShare * largestForce)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"The force at rest is {gasForce:F1} N, as if the gas pulled the rod in: the load cell may be off its zero, or the direction declared positive is the wrong one."));
        }
    }

    /// <summary>Warns where rebound is so soft against compression that the two may be mixed up; without gas nothing else shows it.</summary>
    private static void CheckDirections(ForceVelocityCurve curve, ImmutableArray<string>.Builder warnings)
    {
        double fastest = Math.Min(curve.MaximumVelocity, -curve.MinimumVelocity);
        double ratio = curve.EquivalentCoefficient(fastest, DampingDirection.Rebound) / curve.EquivalentCoefficient(fastest, DampingDirection.Compression);
        if (ratio < LeastRebound)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"Rebound is only {ratio:F2} times compression up to {fastest:F2} m/s, and most dampers have more rebound than compression: is the right direction declared positive?"));
        }
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

    /// <summary>Energy's view of points: <c>ΣFv</c> is a power, and its sign and size tell a damper from a mistake.</summary>
    private static void CheckPower(List<ForceVelocityPoint> points, double gasForce)
    {
        double power = points.Sum(p => (p.Force - gasForce) * p.Velocity);
        if (power <= 0)
            throw new DynoDataException(null, null, "over all points force times velocity is negative, and a damper cannot make energy: force or velocity has the other sign");
        double coefficient = power / points.Sum(p => p.Velocity * p.Velocity);
        if (coefficient is not (>= DynoCycle.SmallestCoefficient and <= DynoCycle.LargestCoefficient))
        {
            throw new DynoDataException(null, null, string.Create(
                CultureInfo.InvariantCulture,
                $"the points dissipate like a damping coefficient of {coefficient:G3} N·s/m; from {DynoCycle.SmallestCoefficient} to {DynoCycle.LargestCoefficient} is accepted: are force and velocity swapped, or is a unit wrong?"));
        }
    }

    /// <summary>
    /// Friction and gas from slow movement, by linear least squares: <c>F = G + K (x − x₀) + Fc sgn v + cc v⁺ + cr v⁻</c>. Extended to
    /// <c>v = 0</c>, half the gap between both directions is the friction and their mean is the gas force.
    /// </summary>
    private static (double Friction, double GasForce, double GasRate) SeparateSlowForces(
        IReadOnlyList<IReadOnlyList<DynoCycle>> slowest, ImmutableArray<string>.Builder warnings)
    {
        var rows = new List<double[]>();
        var forces = new List<double>();
        foreach (var cycle in slowest.SelectMany(cycles => cycles))
        {
            double peak = cycle.Velocity.Max(Math.Abs);
            for (int i = 0; i < cycle.Velocity.Length - 1; i++)
            {
                double v = cycle.Velocity[i];
                if (Math.Abs(v) < SlowShare * peak)
                    continue;
                rows.Add([1, cycle.Displacement[i] - cycle.MidStroke, Math.Sign(v), Math.Max(v, 0), Math.Min(v, 0)]);
                forces.Add(cycle.Force[i]);
            }
        }

        double fastest = slowest.SelectMany(cycles => cycles).Max(c => c.Velocity.Max(Math.Abs));
        if (fastest > SlowVelocity)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"The slowest movement reaches {fastest:F3} m/s; friction and gas force are extended from there to rest and are sure only from runs below {SlowVelocity} m/s."));
        }

        double[] solution = MultipleRegression.QR([.. rows], [.. forces], intercept: false);
        double friction = solution[2];
        if (friction < 0)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture, $"The forces at reversal give a friction of {friction:F1} N, which cannot be; 0 N is taken."));
            friction = 0;
        }

        return (friction, solution[0], solution[1]);
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

    private static double Hysteresis(IReadOnlyList<DynoCycle> cycles, double gasRate)
    {
        double widest = 0;
        foreach (int direction in (ReadOnlySpan<int>)[Compression, Rebound])
        {
            for (int tenth = 2; tenth <= 8; tenth++)
            {
                double speedingUp = MeanForce(cycles, direction, tenth / 10.0, gasRate, speedsUp: true);
                double slowingDown = MeanForce(cycles, direction, tenth / 10.0, gasRate, speedsUp: false);
                if (Math.Abs(speedingUp - slowingDown) > widest)
                    widest = Math.Abs(speedingUp - slowingDown);
            }
        }

        return widest;
    }

    /// <summary>Mean force, gas spring taken out, of the samples within 5 % of the peak around a share of it; NaN if there are none.</summary>
    private static double MeanForce(IReadOnlyList<DynoCycle> cycles, int direction, double share, double gasRate, bool speedsUp)
    {
        var (sum, count) = (0.0, 0);
        foreach (var cycle in cycles)
        {
            double peak = cycle.Samples(direction).Max(i => Math.Abs(cycle.Velocity[i]));
            foreach (int i in cycle.Samples(direction))
            {
                // Before mid-stroke the piston of a crank speeds up.
                double beyondMid = cycle.Displacement[i] - cycle.MidStroke;
                if (Math.Abs(Math.Abs(cycle.Velocity[i]) / peak - share) > 0.05 || (direction * beyondMid < 0) != speedsUp)
                    continue;
                sum += cycle.Force[i] - gasRate * beyondMid;
                count++;
            }
        }

        return count == 0 ? double.NaN : sum / count;
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
