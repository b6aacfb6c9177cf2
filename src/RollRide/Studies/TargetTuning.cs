using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>
/// Finds the valving that gives a layout its target damping ratios, each at its own damper velocity, through the equivalent
/// coefficient and the eigenvalues.
/// </summary>
/// <remarks>
/// What is minimised, with <c>d = (ζ − ζ_target)/tolerance</c> for heave and roll:
/// <c>Σ w (max(0, |d| − 1)² + ε d²) + λ·(distance from the present valving)²</c>. First the bands are sought, then their middles, then, where
/// many valvings do, the one nearest to the present damper. With load states each target counts with the largest of its values over them: a
/// target is to hold in every state, so its worst state is the one that matters, and a good one must not make up for it as in a sum.
/// </remarks>
public static class TargetTuning
{
    private const double TowardsMiddle = 1e-2;

    // So small that it moves a ratio by less than a millionth of its tolerance.
    private const double TowardsPresent = 1e-8;

    // With roll first: so small that an ever larger miss in heave moves roll out of its band by no more than the search's rounding.
    private const double HeaveAfterRoll = 1e-6;

    // A limit binds if moving it takes away at least this share of the miss.
    private const double Relief = 0.1;

    // Each round looks at a grid of knee velocity and share, and the next at the best cell's neighbourhood; the bleed slope is
    // solved for at every grid point. The last grid is 1e-5 of the range wide.
    private const int Grid = 24, Rounds = 7, Scan = 12;
    private const double Zoom = 0.25;

    // Up to so many states all are looked at in every trial.
    private const int FewStates = 16, LooksForExtremes = 1000;

    /// <summary>Tunes one layout of a vehicle as it is.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="layout">The layout with its present damper.</param>
    /// <param name="task">Targets and limits.</param>
    /// <param name="includeFriction">Whether friction counts in the damping ratios.</param>
    /// <param name="rollFirst">
    /// Whether roll goes before heave whatever the weights: of the valvings with roll in its band, the one with the best heave.
    /// </param>
    /// <exception cref="StudyException">The body does not swing about rest, or no valving keeps the limits.</exception>
    public static TunedLayout Tune(HalfCar vehicle, DamperLayout layout, TuningTask task, bool includeFriction = false, bool rollFirst = false)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(task);
        return Tune([LayoutInLoad.Of(vehicle, layout, task.Heave.DamperVelocity)], layout, task, includeFriction, rollFirst);
    }

    /// <summary>Tunes one layout of a case for all its load states at once: one valving for all of them.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout with its present damper.</param>
    /// <param name="task">Targets and limits.</param>
    /// <exception cref="StudyException">The body does not swing about rest or the vehicle cannot stand in a load state, or no valving keeps the limits.</exception>
    public static TunedLayout Tune(StudyCase study, DamperLayout layout, TuningTask task)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(task);
        return Tune(LayoutInLoad.AllOf(study, layout), layout, task, study.Analysis.IncludeFriction);
    }

    /// <summary>Tunes one layout for many vehicles, each in all of its states: the worst of all counts, or the number of vehicles that miss.</summary>
    /// <param name="states">All states of all vehicles.</param>
    /// <param name="vehicles">For each of them the number of its vehicle, from 0.</param>
    /// <param name="layout">The layout with its present damper.</param>
    /// <param name="task">Targets and limits.</param>
    /// <param name="includeFriction">Whether friction counts in the damping ratios.</param>
    /// <param name="goal">What is made least.</param>
    /// <exception cref="StudyException">No valving keeps the limits.</exception>
    internal static TunedLayout Tune(
        ImmutableArray<LayoutInLoad> states, ImmutableArray<int> vehicles, DamperLayout layout, TuningTask task, bool includeFriction, RobustGoal goal)
    {
        try
        {
            var search = new Search(states, layout, task, includeFriction, rollFirst: false);
            return goal == RobustGoal.MissShare && search.RunForFewestMisses(vehicles) is { } found ? found : search.Run();
        }
        catch (InvalidOperationException e)
        {
            throw new StudyException(layout.Name, e);
        }
    }

    /// <summary>Tunes one layout whose load states are known already.</summary>
    internal static TunedLayout Tune(
        ImmutableArray<LayoutInLoad> states, DamperLayout layout, TuningTask task, bool includeFriction, bool rollFirst = false)
    {
        try
        {
            var tuned = new Search(states, layout, task, includeFriction, rollFirst).Run();
            if (tuned.MeetsBoth || rollFirst)
                return tuned;
            return tuned with
            {
                BindingLimits =
                [
                    .. from relaxation in LimitRelaxation.Of(tuned.Valving, task.Limits)
                       let other = new Search(states, layout, task with { Limits = relaxation.Limits }, includeFriction, rollFirst: false).Run()
                       where Miss(other) < (1 - Relief) * Miss(tuned)
                       select new BindingLimit(relaxation.Key, relaxation.IsHighest, relaxation.Value, relaxation.Relaxed, other.Heave.Reached, other.Roll.Reached),
                ],
            };
        }
        catch (Exception e) when (e is UnnamedModesException or InvalidOperationException)
        {
            throw new StudyException(layout.Name, e);
        }
    }

    /// <summary>
    /// The smallest force with which a damper can meet a target's lower edge, N, as the larger of both directions: that of a
    /// valve with constant force, <c>F = (π/4) c V</c>. Null if no damper in this place reaches it.
    /// </summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="mode">Heave or roll.</param>
    /// <param name="target">The target.</param>
    /// <param name="reboundToCompression">Rebound over compression.</param>
    public static double? SmallestForce(AssembledHalfCar car, ModeName mode, TuningTarget target, double reboundToCompression)
    {
        ArgumentNullException.ThrowIfNull(target);
        var map = new DampingRatioMap(LinearHalfCar.AtRest(car));
        double larger = 2 * Math.Max(1, reboundToCompression) / (1 + reboundToCompression);
        return map.Coefficient(mode, Math.Max(target.Ratio - target.Tolerance, 0.01 * target.Ratio)) is { } c
            ? larger * Math.PI / 4 * c * target.DamperVelocity
            : null;
    }

    /// <summary>Rebound over compression of a damper's valves at a velocity amplitude, as energy sees them.</summary>
    internal static double ReboundToCompression(Damper damper, double velocity) =>
        damper.Curve.EquivalentCoefficient(velocity, DampingDirection.Rebound)
        / damper.Curve.EquivalentCoefficient(velocity, DampingDirection.Compression);

    /// <summary>How far outside its bands a layout is, weighted.</summary>
    private static double Miss(TunedLayout tuned) => new[] { tuned.Heave, tuned.Roll }.Sum(outcome =>
        outcome.Target.Weight * OutsideBand(outcome.Target.Deviation(outcome.Reached)));

    private static double OutsideBand(double deviation) => Math.Pow(Math.Max(0, Math.Abs(deviation) - 1), 2);

    private sealed class Search(ImmutableArray<LayoutInLoad> states, DamperLayout layout, TuningTask task, bool includeFriction, bool rollFirst)
    {
        private static readonly ModeName[] Body = [ModeName.Heave, ModeName.Roll];

        // States of load that share a state of the damper share its coefficients, up to the scale of its forces.
        private readonly int[] _representative = [.. states.Select(state => Array.FindIndex([.. states], other => other.StateOfSides == state.StateOfSides))];

        private readonly double[] _weights = rollFirst ? [HeaveAfterRoll, 1] : [task.Heave.Weight, task.Roll.Weight];
        private readonly double[] _towardsMiddle = rollFirst ? [TowardsMiddle, 0] : [TowardsMiddle, TowardsMiddle];
        private readonly TuningTarget[] _targets = [task.Heave, task.Roll];
        private readonly double[] _friction = [.. new[] { task.Heave, task.Roll }.Select(t => includeFriction
            ? layout.Damper.EquivalentCoefficient(t.DamperVelocity, DampingDirection.Both, true) - layout.Damper.Curve.EquivalentCoefficient(t.DamperVelocity)
            : 0)];

        // For each target the states of which one may be the worst: of hundreds of vehicles, a few.
        private readonly int[][] _extremes = [.. Body.Select(mode => Extremes(states, mode))];

        private readonly double _present = ReboundToCompression(layout.Damper.AsWritten, task.Heave.DamperVelocity);

        public TunedLayout Run()
        {
            double[][] wanted = [.. states.Select(state => Body.Select(mode => Wanted(state.Map, mode)).ToArray())];
            return Run((start, curve) => BestBleed(start, wanted, curve)).Valving;
        }

        /// <summary>The valving with which the fewest vehicles miss a target in any of their states; null where all miss with every valving.</summary>
        public TunedLayout? RunForFewestMisses(ImmutableArray<int> vehicles)
        {
            var edges = states.Select(state => Body.Select(mode => Edges(state, mode)).ToArray()).ToArray();
            var (value, found) = Run((_, curve) => FewestMisses(curve, edges, vehicles));
            return value < vehicles.Distinct().Count() ? found : null;
        }

        /// <summary>Searches knee velocity and high-speed share on ever finer grids; the bleed slope is found for each place.</summary>
        private (double Value, TunedLayout Valving) Run(Func<(double Bleed, double Knee, double Share), UnitCurve, (double Value, double Bleed)> bestBleed)
        {
            var range = new ValvingRange(task.Limits, _present);
            var start = PresentTerms();
            (double Value, double U, double W, double Bleed) best = (double.PositiveInfinity, 0, 0, 0);
            double reach = 0.5, centreU = 0.5, centreW = 0.5;
            for (int round = 0; round < Rounds; round++)
            {
                var (fromU, fromW, within) = (centreU, centreW, reach);
                (double U, double W) Place(int at) => (fromU + within * (2.0 * (at / (Grid + 1)) / Grid - 1), fromW + within * (2.0 * (at % (Grid + 1)) / Grid - 1));
                var found = new (double Value, double Bleed)[(Grid + 1) * (Grid + 1)];
                Parallel.For(0, found.Length, at =>
                {
                    var (u, w) = Place(at);
                    found[at] = u is < 0 or > 1 || w is < 0 or > 1 || CurveAt(range, task.Limits.KneeVelocity.AtLog(u), task.Limits.HighSpeedShare.At(w)) is not { } curve
                        ? (double.PositiveInfinity, 0)
                        : bestBleed(start, curve);
                });
                for (int at = 0; at < found.Length; at++)
                {
                    if (found[at].Value < best.Value)
                        best = (found[at].Value, Place(at).U, Place(at).W, found[at].Bleed);
                }

                if (double.IsInfinity(best.Value))
                    throw new InvalidOperationException("No valving keeps all limits: at every knee velocity the least knee force exceeds the force limit, or locks the suspension.");
                (centreU, centreW, reach) = (best.U, best.W, reach * Zoom);
            }

            return (best.Value, Outcome(range, range.Valving(best.Bleed, task.Limits.KneeVelocity.AtLog(best.U), task.Limits.HighSpeedShare.At(best.W))));
        }

        /// <summary>The coefficient of the valves that hits a target, N·s/m; without bound where none does.</summary>
        private double Wanted(DampingRatioMap map, ModeName mode) =>
            Math.Max((map.Coefficient(mode, _targets[(int)mode].Ratio) ?? double.MaxValue) - _friction[(int)mode], 1);

        /// <summary>The present damper in the terms of the search.</summary>
        private (double Bleed, double Knee, double Share) PresentTerms()
        {
            // Read off the mean curve at the middle of the ranges: a start to stay near to, not a fit.
            var present = layout.Damper.AsWritten.Curve;
            double Mean(double v) => (present.Force(v) - present.Force(-v)) / 2;
            double knee = Math.Sqrt(task.Limits.KneeVelocity.Lowest * task.Limits.KneeVelocity.Highest);
            double bleed = Math.Max(Mean(knee) / knee, 1);
            double fast = Math.Max(2 * knee, task.Limits.ForceVelocity);
            double slope = (Mean(fast) - Mean(knee)) / (fast - knee);
            return (bleed, knee, task.Limits.HighSpeedShare.Nearest(slope / bleed));
        }

        /// <summary>A valving's curve for one knee velocity and share, per unit of bleed slope; null where the limits leave no bleed slope.</summary>
        private UnitCurve? CurveAt(ValvingRange range, double knee, double share)
        {
            // Force per unit of bleed slope, so that one curve serves all slopes.
            var unit = new ValveCharacteristic(1, knee, share);
            var curve = new Valving(unit, unit).ToCurve(Fastest, Fastest);
            var damper = layout.Damper with { Curve = curve, TopMountStiffness = null };
            var perBleed = new double[states.Length][];
            for (int state = 0; state < states.Length; state++)
            {
                // Per unit of the forces as drawn; what was made softer or harder is so in proportion.
                if (_representative[state] is var first && first == state)
                    perBleed[state] = [.. _targets.Select(t => states[state].In(damper).Curve.EquivalentCoefficient(t.DamperVelocity))];
                else
                    perBleed[state] = [.. perBleed[first].Select(coefficient => coefficient * states[state].ForceScale / states[first].ForceScale)];
            }

            double locking = OverStates((state, k) => (states[state].Map.LockingCoefficient - _friction[k]) / perBleed[state][k]).Min();
            if (range.BleedSlopes(knee, share) is not { } allowed || allowed.Lowest > locking)
                return null;
            return new UnitCurve(knee, share, allowed.Highest > locking ? new ValueRange(allowed.Lowest, locking) : allowed, perBleed);
        }

        private (double Value, double Bleed) BestBleed((double Bleed, double Knee, double Share) start, double[][] wanted, UnitCurve unit)
        {
            var (knee, share, slopes, perBleed) = unit;
            double Value(double bleed)
            {
                double sum = TowardsPresent * (Square(Math.Log(bleed / start.Bleed)) + Square(Math.Log(knee / start.Knee)) + Square(share - start.Share));
                for (int k = 0; k < _targets.Length; k++)
                {
                    double worst = 0;
                    foreach (int state in _extremes[k])
                    {
                        double d = _targets[k].Deviation(states[state].Map.Ratio(Body[k], bleed * perBleed[state][k] + _friction[k]));
                        worst = Math.Max(worst, OutsideBand(d) + _towardsMiddle[k] * Square(d));
                    }

                    sum += _weights[k] * worst;
                }

                return sum;
            }

            // Below the lowest of the exact solutions all ratios are too low, above the highest all too high: the best lies between.
            double lowest = slopes.Nearest(OverStates((state, k) => wanted[state][k] / perBleed[state][k]).Min());
            double highest = slopes.Nearest(OverStates((state, k) => wanted[state][k] / perBleed[state][k]).Max());
            var (low, high) = (Math.Log(lowest), Math.Log(highest));
            if (high - low < 1e-9)
                return (Value(lowest), lowest);

            // A ratio may level off towards locking, so the deepest of possible dips is looked for first.
            double At(int i) => EvenSteps.At(low, high, i, Scan);
            int deepest = Enumerable.Range(0, Scan + 1).MinBy(i => Value(Math.Exp(At(i))));
            var (log, negative) = DenseSearch.Maximum(x => -Value(Math.Exp(x)), At(Math.Max(deepest - 1, 0)), At(Math.Min(deepest + 1, Scan)));
            return (-negative, Math.Exp(log));
        }

        /// <summary>The coefficients of the valves with which one state keeps a target's band, N·s/m.</summary>
        private (double Lowest, double Highest) Edges(LayoutInLoad state, ModeName mode)
        {
            var window = StateWindow.Of(state, mode, _targets[(int)mode]);
            return (window.Lowest - _friction[(int)mode], window.Highest - _friction[(int)mode]);
        }

        /// <summary>
        /// The bleed slope with which the fewest vehicles miss. Each vehicle passes over one interval of slopes, in which all its states keep both bands: the place
        /// that most intervals share is found from their ends, and the middle of the widest such place is taken.
        /// </summary>
        private static (double Value, double Bleed) FewestMisses(UnitCurve unit, (double Lowest, double Highest)[][] edges, ImmutableArray<int> vehicles)
        {
            int count = vehicles[^1] + 1;
            var from = Enumerable.Repeat(unit.Slopes.Lowest, count).ToArray();
            var to = Enumerable.Repeat(unit.Slopes.Highest, count).ToArray();
            for (int state = 0; state < vehicles.Length; state++)
            {
                for (int k = 0; k < edges[state].Length; k++)
                {
                    from[vehicles[state]] = Math.Max(from[vehicles[state]], edges[state][k].Lowest / unit.PerBleed[state][k]);
                    to[vehicles[state]] = Math.Min(to[vehicles[state]], edges[state][k].Highest / unit.PerBleed[state][k]);
                }
            }

            int[] passing = [.. Enumerable.Range(0, count).Where(vehicle => from[vehicle] <= to[vehicle])];
            (int Passing, double Width, double Bleed) best = (0, 0, unit.Slopes.Lowest);
            foreach (double low in passing.Select(vehicle => from[vehicle]).Distinct())
            {
                int[] here = [.. passing.Where(vehicle => from[vehicle] <= low && to[vehicle] >= low)];
                double width = Math.Log(here.Min(vehicle => to[vehicle]) / low);
                if (here.Length > best.Passing || (here.Length == best.Passing && width > best.Width))
                    best = (here.Length, width, low * Math.Exp(width / 2));
            }

            // A wider place is worth less than a single vehicle.
            return (count - best.Passing - best.Width / (1 + best.Width) / 2, best.Bleed);
        }

        /// <summary>
        /// The states that have the highest or the lowest ratio at any coefficient of dampers in the same state: no other can be farthest from a target. They are
        /// looked for at coefficients so near to each other that what is missed between them is less than the table's own error.
        /// </summary>
        private static int[] Extremes(ImmutableArray<LayoutInLoad> states, ModeName mode)
        {
            if (states.Length <= FewStates)
                return [.. Enumerable.Range(0, states.Length)];
            var extremes = new SortedSet<int>();
            foreach (var alike in Enumerable.Range(0, states.Length).GroupBy(state => states[state].StateOfSides))
            {
                foreach (double log in EvenSteps.Of(Math.Log(DampingRatioMap.LowestCoefficient), Math.Log(DampingRatioMap.HighestCoefficient), LooksForExtremes))
                {
                    var ratios = alike.Select(state => (State: state, Ratio: states[state].Map.Ratio(mode, states[state].ForceScale * Math.Exp(log)))).ToList();
                    extremes.Add(ratios.MinBy(at => at.Ratio).State);
                    extremes.Add(ratios.MaxBy(at => at.Ratio).State);
                }
            }

            return [.. extremes];
        }

        private IEnumerable<double> OverStates(Func<int, int, double> value) =>
            Enumerable.Range(0, states.Length).SelectMany(state => Enumerable.Range(0, _targets.Length).Select(k => value(state, k)));

        private double Fastest => 2 * Math.Max(task.Limits.ForceVelocity, task.Limits.KneeVelocity.Highest);

        private TunedLayout Outcome(ValvingRange range, Valving valving)
        {
            var damper = valving.In(layout.Damper.AsWritten, task.Limits.ForceVelocity);
            var check = new TargetCheck(states, layout, task, includeFriction);
            return new TunedLayout
            {
                Before = layout,
                After = layout.Fitted(damper),
                Valving = valving,
                HeaveInLoads = check.Heave(damper),
                RollInLoads = check.Roll(damper),
                ReboundToCompressionBefore = _present,
                ReboundToCompression = range.ReboundToCompression,
            };
        }

        private static double Square(double x) => x * x;

        /// <summary>Valvings of one knee velocity and share: the bleed slopes allowed, and the coefficients per unit of it in each state and for each target.</summary>
        private sealed record UnitCurve(double Knee, double Share, ValueRange Slopes, double[][] PerBleed);
    }
}
