using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>One layout with its dampers moved sideways step by step, everything else left as it is.</summary>
public static class PositionSweep
{
    // Closer to an arm's pivot the damper hardly moves, and no bracket is built there.
    private const double InnermostOnArm = 0.3;

    // Positions closer than this give the same picture, m.
    private const double AsGoodAs = 1e-3;

    /// <summary>Whether the dampers of a layout can be moved sideways on their own: they must have a place, not only an independent wheel's ratio.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout.</param>
    public static bool Applies(StudyCase study, DamperLayout layout)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(layout);
        return layout.Fitting is LiveAxleMountFitting or ArmMountFitting
            || (layout.Fitting is FixedRatioFitting { HeaveRatio: > 0 } && !study.Vehicle.Suspension.GuidesEachWheel);
    }

    /// <summary>Where the lower end of the left damper stands, m from the centre plane; of given ratios, where an upright damper of their effect would.</summary>
    /// <param name="fitting">Where the left damper sits.</param>
    /// <exception cref="ArgumentException">The fitting has no such place.</exception>
    public static double PositionOf(IFitting fitting) => fitting switch
    {
        LiveAxleMountFitting mounts => mounts.AxleEnd.Y,
        ArmMountFitting arm => arm.LowerMount.Y,
        FixedRatioFitting ratios => ratios.HalfTrack * ratios.RollRatio / ratios.HeaveRatio,
        _ => throw new ArgumentException($"A fitting of the kind {fitting?.GetType().Name} has no place of its own.", nameof(fitting)),
    };

    /// <summary>
    /// Runs the layout at evenly spaced positions, on a live axle from the centre and on an arm along the arm, out to where the tyre begins
    /// or the outermost layout sits, and at the positions of all layouts of the case.
    /// </summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout, to which <see cref="Applies"/>.</param>
    /// <param name="positions">Number of evenly spaced positions, at least 2. Those of the layouts come to them, or instead of one that is as good as theirs.</param>
    /// <param name="spool">Opens what takes body roll over time where the run is long; null where it is held in memory, however long.</param>
    /// <param name="progress">Is told the number of positions finished.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <returns>The positions in ascending order. Those at which the layout cannot be run are left out, and named in the result.</returns>
    public static PositionSweepResult Run(StudyCase study, DamperLayout layout, int positions, Func<IHistorySpool>? spool = null, IProgress<int>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(layout);
        if (!Applies(study, layout))
            throw new ArgumentException($"The dampers of the layout “{layout.Name}” have no place of their own.", nameof(layout));
        Require.AtLeast(2, positions, "", nameof(positions));
        var at = Places(study, layout, positions);
        var results = new RecordedLayout?[at.Length];
        var faults = new string?[at.Length];
        var done = 0;
        Parallel.For(0, at.Length, new ParallelOptions { CancellationToken = cancellation }, i =>
        {
            try
            {
                var outward = at[i] - PositionOf(layout.Fitting);
                var moved = layout.With(side => new DamperSide(Moved(side.Fitting, outward), side.Damper));
                results[i] = Comparison.RecordLayout(study, moved, [Channel.BodyRoll], spool, cancellation: cancellation);
            }
            catch (Exception e) when (e is StudyException or ArgumentException)
            {
                faults[i] = FormattableString.Invariant($"At {Unit.Millimetre.Show(at[i]):F0}: {e.Message}");
            }

            progress?.Report(Interlocked.Increment(ref done));
        });
        return new PositionSweepResult(
            layout,
            PositionOf(layout.Fitting),
            [.. at.Zip(results).Where(pair => pair.Second is not null).Select(pair => new PositionResult(pair.First, pair.Second!))],
            [.. faults.OfType<string>()]);
    }

    /// <summary>How many positions a sweep runs.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout, to which <see cref="Applies"/>.</param>
    /// <param name="positions">Number of evenly spaced positions, at least 2.</param>
    public static int Count(StudyCase study, DamperLayout layout, int positions) => Places(study, layout, positions).Length;

    private static double[] Places(StudyCase study, DamperLayout layout, int positions)
    {
        var face = TyreOutline.InnerFace(study.Vehicle);
        var (inner, outer) = layout.Fitting is ArmMountFitting arm
            ? (arm.Pivot.Y + (InnermostOnArm * (arm.OuterJoint.Y - arm.Pivot.Y)), Math.Min(face, arm.OuterJoint.Y))
            : (0, face);
        double[] own = [.. study.Layouts.Append(layout).Where(other => Applies(study, other)).Select(other => PositionOf(other.Fitting)).Distinct()];
        var even = EvenSteps.Of(inner, Math.Max(outer, own.Max()), positions - 1);
        return [.. even.Where(place => own.All(other => Math.Abs(other - place) > AsGoodAs)).Concat(own.Where(place => place >= inner)).Order()];
    }

    /// <summary>The element moved outward, its lean kept: both ends move by the same amount, on an arm along the arm.</summary>
    private static IFitting Moved(IFitting fitting, double outward)
    {
        if (fitting is not ArmMountFitting arm)
            return LayoutVariation.Shifted(fitting, outward);
        var rise = outward * (arm.OuterJoint.Z - arm.Pivot.Z) / (arm.OuterJoint.Y - arm.Pivot.Y);
        return new ArmMountFitting(
            arm.Pivot,
            arm.OuterJoint,
            new RearViewPoint(arm.LowerMount.Y + outward, arm.LowerMount.Z + rise),
            new RearViewPoint(arm.UpperMount.Y + outward, arm.UpperMount.Z + rise),
            arm.HalfTrack);
    }
}

/// <summary>What a layout does when its dampers are moved sideways.</summary>
/// <param name="Layout">The layout as it was given.</param>
/// <param name="OwnPosition">Where its dampers were given, m from the centre plane.</param>
/// <param name="Positions">The positions that could be run, in ascending order.</param>
/// <param name="Faults">One sentence for each position that could not be run.</param>
public sealed record PositionSweepResult(DamperLayout Layout, double OwnPosition, ImmutableArray<PositionResult> Positions, ImmutableArray<string> Faults);

/// <summary>One position of a sweep.</summary>
/// <param name="Position">Distance of the left damper's lower end from the centre plane, m.</param>
/// <param name="Result">What the layout does there.</param>
public sealed record PositionResult(double Position, RecordedLayout Result);
