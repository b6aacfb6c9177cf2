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
        return Tune([LayoutInLoad.Of(vehicle, layout)], layout, task, includeFriction, rollFirst);
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
        private readonly string?[] _damperStates = [.. states.Select(state => state.Load?.DamperState).Distinct()];

        private readonly double[] _weights = rollFirst ? [HeaveAfterRoll, 1] : [task.Heave.Weight, task.Roll.Weight];
        private readonly double[] _towardsMiddle = rollFirst ? [TowardsMiddle, 0] : [TowardsMiddle, TowardsMiddle];
        private readonly TuningTarget[] _targets = [task.Heave, task.Roll];
        private readonly double[] _friction = [.. new[] { task.Heave, task.Roll }.Select(t => includeFriction
            ? layout.Damper.EquivalentCoefficient(t.DamperVelocity, DampingDirection.Both, true) - layout.Damper.Curve.EquivalentCoefficient(t.DamperVelocity)
            : 0)];

        private readonly double _present = ReboundToCompression(layout.Damper, task.Heave.DamperVelocity);

        public TunedLayout Run()
        {
            var range = new ValvingRange(task.Limits, _present);
            var start = PresentTerms();
            double[][] wanted = [.. states.Select(state => Body.Select(mode => Wanted(state.Map, mode)).ToArray())];

            (double Value, double U, double W, double Bleed) best = (double.PositiveInfinity, 0, 0, 0);
            double reach = 0.5, centreU = 0.5, centreW = 0.5;
            for (int round = 0; round < Rounds; round++)
            {
                for (int i = 0; i <= Grid; i++)
                {
                    for (int j = 0; j <= Grid; j++)
                    {
                        double u = centreU + reach * (2.0 * i / Grid - 1), w = centreW + reach * (2.0 * j / Grid - 1);
                        if (u is < 0 or > 1 || w is < 0 or > 1)
                            continue;
                        var (value, bleed) = BestBleed(range, start, wanted, task.Limits.KneeVelocity.AtLog(u), task.Limits.HighSpeedShare.At(w));
                        if (value < best.Value)
                            best = (value, u, w, bleed);
                    }
                }

                if (double.IsInfinity(best.Value))
                    throw new InvalidOperationException("No valving keeps all limits: at every knee velocity the least knee force exceeds the force limit, or locks the suspension.");
                (centreU, centreW, reach) = (best.U, best.W, reach * Zoom);
            }

            return Outcome(range, range.Valving(best.Bleed, task.Limits.KneeVelocity.AtLog(best.U), task.Limits.HighSpeedShare.At(best.W)));
        }

        /// <summary>The coefficient of the valves that hits a target, N·s/m; without bound where none does.</summary>
        private double Wanted(DampingRatioMap map, ModeName mode) =>
            Math.Max((map.Coefficient(mode, _targets[(int)mode].Ratio) ?? double.MaxValue) - _friction[(int)mode], 1);

        /// <summary>The present damper in the terms of the search.</summary>
        private (double Bleed, double Knee, double Share) PresentTerms()
        {
            // Read off the mean curve at the middle of the ranges: a start to stay near to, not a fit.
            double Mean(double v) => (layout.Damper.Curve.Force(v) - layout.Damper.Curve.Force(-v)) / 2;
            double knee = Math.Sqrt(task.Limits.KneeVelocity.Lowest * task.Limits.KneeVelocity.Highest);
            double bleed = Math.Max(Mean(knee) / knee, 1);
            double fast = Math.Max(2 * knee, task.Limits.ForceVelocity);
            double slope = (Mean(fast) - Mean(knee)) / (fast - knee);
            return (bleed, knee, task.Limits.HighSpeedShare.Nearest(slope / bleed));
        }

        private (double Value, double Bleed) BestBleed(
            ValvingRange range, (double Bleed, double Knee, double Share) start, double[][] wanted, double knee, double share)
        {
            // Force per unit of bleed slope, so that one curve serves all slopes.
            var unit = new ValveCharacteristic(1, knee, share);
            var curve = new Valving(unit, unit).ToCurve(Fastest, Fastest);
            var damper = layout.Damper with { Curve = curve, TopMountStiffness = null };
            var ofState = _damperStates.ToDictionary(name => name ?? "", name =>
            {
                var there = damper.In(name).Curve;
                return _targets.Select(t => there.EquivalentCoefficient(t.DamperVelocity)).ToArray();
            });
            double[][] perBleed = [.. states.Select(state => ofState[state.Load?.DamperState ?? ""].Select(coefficient => state.ForceScale * coefficient).ToArray())];
            double locking = OverStates((state, k) => (states[state].Map.LockingCoefficient - _friction[k]) / perBleed[state][k]).Min();
            if (range.BleedSlopes(knee, share) is not { } allowed || allowed.Lowest > locking)
                return (double.PositiveInfinity, 0);
            var slopes = allowed.Highest > locking ? new ValueRange(allowed.Lowest, locking) : allowed;
            double Value(double bleed)
            {
                double sum = TowardsPresent * (Square(Math.Log(bleed / start.Bleed)) + Square(Math.Log(knee / start.Knee)) + Square(share - start.Share));
                for (int k = 0; k < _targets.Length; k++)
                {
                    double worst = 0;
                    for (int state = 0; state < states.Length; state++)
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

        private IEnumerable<double> OverStates(Func<int, int, double> value) =>
            Enumerable.Range(0, states.Length).SelectMany(state => Enumerable.Range(0, _targets.Length).Select(k => value(state, k)));

        private double Fastest => 2 * Math.Max(task.Limits.ForceVelocity, task.Limits.KneeVelocity.Highest);

        private TunedLayout Outcome(ValvingRange range, Valving valving)
        {
            var damper = valving.In(layout.Damper, task.Limits.ForceVelocity);
            var check = new TargetCheck(states, layout, task, includeFriction);
            return new TunedLayout
            {
                Before = layout,
                After = layout.With(side => side with { Damper = damper }),
                Valving = valving,
                HeaveInLoads = check.Heave(damper),
                RollInLoads = check.Roll(damper),
                ReboundToCompressionBefore = _present,
                ReboundToCompression = range.ReboundToCompression,
            };
        }

        private static double Square(double x) => x * x;
    }
}
