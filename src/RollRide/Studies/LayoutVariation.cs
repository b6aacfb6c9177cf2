using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>The same vehicle with one thing changed, everything else left where it is.</summary>
internal static class LayoutVariation
{
    /// <summary>
    /// Where a vertical element of the same effect would stand: <c>T Rr/Rh</c>, m from the centre. An element of heave ratio
    /// <c>Rh</c> and coefficient <c>c</c> acts as a vertical one of <c>c Rh²</c> there.
    /// </summary>
    public static double PositionOf(IFitting fitting, double halfTrack) => halfTrack * fitting.RollRatio / fitting.HeaveRatio;

    /// <summary>Whether an element's lateral position is its own to choose: not where each wheel moves its own element.</summary>
    public static bool CanMove(HalfCar vehicle, IFitting fitting) =>
        !vehicle.Suspension.GuidesEachWheel && fitting is FixedRatioFitting or LiveAxleMountFitting;

    /// <summary>The element moved sideways, m, positive outward: both mounts by the same amount, or the roll ratio scaled to match.</summary>
    public static IFitting Shifted(IFitting fitting, double outward) => fitting switch
    {
        LiveAxleMountFitting mounts => new LiveAxleMountFitting(
            mounts.AxleEnd with { Y = mounts.AxleEnd.Y + outward },
            mounts.BodyEnd with { Y = mounts.BodyEnd.Y + outward },
            mounts.RollCentreHeight,
            mounts.HalfTrack),
        FixedRatioFitting ratios => new FixedRatioFitting(
            ratios.HeaveRatio, ratios.RollRatio + (ratios.HeaveRatio * outward / ratios.HalfTrack), ratios.HalfTrack),
        _ => throw new ArgumentException("An element of an independent wheel cannot be moved sideways on its own.", nameof(fitting)),
    };

    /// <summary>The dampers moved sideways. A car that leans stands as it did: what a moved gas force turns it further by is left out.</summary>
    public static AssembledHalfCar WithDampersShifted(AssembledHalfCar car, double outward) =>
        new(car.Vehicle, car.Layout.With(side => side with { Fitting = Shifted(side.Fitting, outward) }), car.Leans ? car.Standing : null);

    /// <summary>The springs moved sideways.</summary>
    public static AssembledHalfCar WithSpringsShifted(AssembledHalfCar car, double outward) =>
        new(car.Vehicle.With(side => side with { Spring = side.Spring with { Fitting = Shifted(side.Spring.Fitting, outward) } }), car.Layout);

    /// <summary>Another anti-roll bar, N·m/rad.</summary>
    public static AssembledHalfCar WithBar(AssembledHalfCar car, double stiffness) =>
        new(car.Vehicle with { AntiRollBar = stiffness }, car.Layout);

    /// <summary>Wheels further out or in, m from the centre, every other position fixed in millimetres; the roll centre of a linkage follows.</summary>
    /// <exception cref="ArgumentException">No such vehicle stands: its linkage cannot move, or its springs cannot carry the body.</exception>
    public static AssembledHalfCar WithHalfTrack(AssembledHalfCar car, double halfTrack)
    {
        var vehicle = car.Vehicle;
        var linkage = vehicle.Linkage?.WithHalfTrack(halfTrack);
        IFitting Keep(IFitting fitting) => fitting switch
        {
            LiveAxleMountFitting mounts => new LiveAxleMountFitting(mounts.AxleEnd, mounts.BodyEnd, mounts.RollCentreHeight, halfTrack),
            LinkageMountFitting mounts => new LinkageMountFitting(linkage ?? mounts.Linkage.WithHalfTrack(halfTrack), mounts.Part, mounts.LinkageEnd, mounts.BodyEnd),
            ArmMountFitting arm => new ArmMountFitting(arm.Pivot, arm.OuterJoint, arm.LowerMount, arm.UpperMount, halfTrack),

            // A ratio of an independent wheel is the wheel's own; on a live axle the arm stays.
            FixedRatioFitting ratios when vehicle.Suspension.GuidesEachWheel => new FixedRatioFitting(ratios.HeaveRatio, ratios.RollRatio, halfTrack),
            FixedRatioFitting ratios => new FixedRatioFitting(ratios.HeaveRatio, ratios.RollRatio * ratios.HalfTrack / halfTrack, halfTrack),
            _ => throw new ArgumentException($"A fitting of the kind {fitting.GetType().Name} cannot be kept while the track changes."),
        };

        TravelStop? KeepStop(TravelStop? stop) => stop is null ? null : stop with { Fitting = Keep(stop.Fitting) };
        return new AssembledHalfCar(
            (vehicle with
            {
                Track = 2 * halfTrack,
                Linkage = linkage,
                RollCentreHeight = linkage?.WheelAt(0).RollCentreHeight ?? vehicle.RollCentreHeight,
            }).With(side => new SuspensionSide(side.Spring with { Fitting = Keep(side.Spring.Fitting) }, KeepStop(side.BumpStop), KeepStop(side.ReboundStop))),
            car.Layout.With(side => side with { Fitting = Keep(side.Fitting) }));
    }
}
