using System.Globalization;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>
/// A vehicle with one damper layout as it stands under a load: found once, and drawn anew there, so that every study works on it as on any other
/// vehicle at rest. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Springs, tyres, gas and stops are set at the design load and stay as they are. Where the load stands beside the centre plane, or the sides are
/// unlike, body and axle lean, and each side is drawn anew for itself. See docs/theory.md, "Rest under another load".
/// </remarks>
public sealed class LoadedHalfCar
{
    private LoadedHalfCar(LoadState load, AssembledHalfCar car, RestPosition rest, RideHeightChange change) =>
        (Load, Car, Rest, Change, LevelLayout) = (load, car, rest, change, car.Layout);

    /// <summary>The load.</summary>
    public LoadState Load { get; }

    /// <summary>
    /// The vehicle at its rest under the load, with the layout: heights, mounts and linkage where they stand there; spring, stops and travel
    /// counted from there.
    /// </summary>
    public AssembledHalfCar Car { get; }

    /// <summary>Where it stands.</summary>
    public RestPosition Rest { get; }

    /// <summary>How far everything has risen there: for whatever else is drawn at the design position, as the space around the dampers.</summary>
    public RideHeightChange Change { get; }

    /// <summary>The other axle of the vehicle under its part of the load; null where there is none, or it carries what it does at the design load.</summary>
    public LoadedHalfCar? Second { get; private init; }

    /// <summary>
    /// The layout at that height without the lean: the room around the dampers is drawn so, and the travel over which it is looked at counts roll to either
    /// side from there.
    /// </summary>
    public DamperLayout LevelLayout { get; private init; }

    /// <summary>Puts a load on a vehicle whose springs and tyres are set at its design load.</summary>
    /// <param name="vehicle">The vehicle at its design load.</param>
    /// <param name="layout">The damper layout at the design load.</param>
    /// <param name="load">The load.</param>
    /// <exception cref="ArgumentException">
    /// Vehicle and layout do not go together, the loaded body has no mass or inertia, or at its rest mounts coincide or the linkage cannot move.
    /// </exception>
    /// <exception cref="NoRestPositionException">The vehicle cannot stand under the load; the message says why, with the numbers.</exception>
    public static LoadedHalfCar Settle(HalfCar vehicle, DamperLayout layout, LoadState load) =>
        Settle(vehicle, layout, load, DesignSetting.Of(new AssembledHalfCar(vehicle, layout)));

    /// <summary>Puts a load on a vehicle whose springs and tyres have a setting of their own, as those of a vehicle whose parts were exchanged.</summary>
    /// <param name="vehicle">The vehicle, drawn at its design position.</param>
    /// <param name="layout">The damper layout there.</param>
    /// <param name="load">The load.</param>
    /// <param name="setting">What springs and tyres carry at the design position.</param>
    /// <exception cref="ArgumentException">
    /// Vehicle and layout do not go together, the loaded body has no mass or inertia, or at its rest mounts coincide or the linkage cannot move.
    /// </exception>
    /// <exception cref="NoRestPositionException">The vehicle cannot stand under the load; the message says why, with the numbers.</exception>
    public static LoadedHalfCar Settle(HalfCar vehicle, DamperLayout layout, LoadState load, DesignSetting setting)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        ArgumentNullException.ThrowIfNull(layout);
        ArgumentNullException.ThrowIfNull(load);
        ArgumentNullException.ThrowIfNull(setting);
        NoRestPositionException Refused(FormattableString reason) => new(load.Name, layout.Name, reason);
        var body = load.Of(vehicle.Body);
        var isUneven = setting.RightSpringPreload is not null || IsUneven(vehicle, layout, body);
        if (vehicle.SecondAxle is { } second && (isUneven || (load.OtherAxle is { } other && IsUneven(second.Vehicle, second.Layout, other.Of(second.Vehicle.Body)))))
            throw Refused($"it would lean: a load beside the centre plane, or unlike sides under another load than the design's, are modelled for one axle only, not for the whole vehicle");
        var secondUnder = vehicle.SecondAxle is { } at && load.OtherAxle is { } part ? Settle(at.Vehicle, at.Layout.InDamperState(load.DamperState), part) : null;

        // What the tyres carry over the travel follows from the springs as they were set, whatever stands on them.
        vehicle = vehicle with { StandingTyres = vehicle.StandingTyres };
        var loaded = vehicle with { Body = body, SecondAxle = vehicle.SecondAxle is null ? null : SecondUnder(load, vehicle.SecondAxle, secondUnder) };
        var springForce = vehicle.Spring.Characteristic.AtRideHeight(setting.SpringPreload);
        try
        {
            if (isUneven)
                return Leaning(vehicle, layout, load, body, setting, Refused);

            // What the tyres carry does not depend on the suspension, nor does the suspension's travel on the tyres.
            var unsprung = (setting.TyreLoad - loaded.StaticTyreLoad) / vehicle.Tyre.Stiffness;
            var travel = RestTravel.Find(loaded, layout, springForce, Refused);
            var change = new RideHeightChange(unsprung - travel, unsprung, 0);
            RefuseDamper(layout.On(Side.Left), layout.Fitting.At(travel, 0, Side.Left).Compression, Refused);
            RefuseHeight("the body's centre of gravity", loaded.Body.CgHeight + change.Body, Refused);
            RefuseHeight("the centre of the unsprung mass", vehicle.Unsprung.CgHeight + change.Unsprung, Refused);
            AssembledHalfCar car;
            if (change == default)
                car = new AssembledHalfCar(loaded, layout);
            else
            {
                HalfCar vehicleThere;
                (vehicleThere, var layoutThere, change) = Redrawn(loaded, layout, springForce, springForce, change);
                car = new AssembledHalfCar(vehicleThere, layoutThere);
            }

            RefuseUnstable(car, Refused);
            return new LoadedHalfCar(load, car, RestPosition.Of(layout, change, car, vehicle), change) { Second = secondUnder };
        }
        catch (UnreachableTravelException e)
        {
            throw new NoRestPositionException(load.Name, layout.Name, $"its linkage ends before the suspension carries the load. {e.Message.TrimEnd('.')}", e);
        }
    }

    private static bool IsUneven(HalfCar design, DamperLayout layout, SprungBody loaded) =>
        loaded.CgOffset != 0 || !design.IsLevelAtDesign || design.RightSide is not null || layout.RightSide is not null;

    /// <summary>The second axle as it stands under its part of the load.</summary>
    private static SecondAxle SecondUnder(LoadState load, SecondAxle second, LoadedHalfCar? settled) => second with
    {
        Vehicle = settled?.Car.Vehicle ?? second.Vehicle,
        Layout = settled?.Car.Layout ?? second.Layout.InDamperState(load.DamperState),
        Chassis = load.PitchInertia is { } inertia ? second.Chassis with { PitchInertia = inertia } : second.Chassis,
    };

    /// <summary>A vehicle that may lean.</summary>
    private static LoadedHalfCar Leaning(
        HalfCar design, DamperLayout layout, LoadState load, SprungBody body, DesignSetting setting, Func<FormattableString, NoRestPositionException> refused)
    {
        var drawn = LeaningRest.Find(design, layout, body, setting, refused);
        var change = drawn.Change;
        RefuseHeight("the body's centre of gravity", body.CgHeight + change.Body, refused);
        RefuseHeight("the centre of the unsprung mass", design.Unsprung.CgHeight + change.Unsprung, refused);
        var roll = drawn.UnsprungRoll - drawn.BodyRoll;
        foreach (var side in (ReadOnlySpan<Side>)[Side.Left, Side.Right])
        {
            var name = side == Side.Left ? "left" : "right";
            var damper = layout.On(side);
            RefuseDamper(damper, damper.Fitting.At(change.Travel, roll, side).Compression, reason => refused($"on the {name} {reason.ToString(CultureInfo.InvariantCulture)}"));
        }

        var car = drawn.Turned(layout);
        if (car.Standing.TyreLoads.Min() <= 0)
            throw refused($"the load stands so far to one side that a tyre on the other has no load: {string.Join(", ", car.Standing.TyreLoads.Select(force => FormattableString.Invariant($"{force:F0} N")))} from left to right");
        RefuseUnstable(car, refused);
        return new LoadedHalfCar(load, car, RestPosition.Of(layout, change, car, design), change) { LevelLayout = layout.With(RedrawnSides.AtHeight(Side.Left, change).Of) };
    }

    private static void RefuseDamper(DamperSide layout, double compression, Func<FormattableString, NoRestPositionException> refused)
    {
        void Refuse(double? stroke, int way, string end)
        {
            var missing = (way * compression) - stroke;
            if (!(missing >= 0))
                return;
            throw (layout.Fitting as IMountedElement)?.Length is { } length
                ? refused($"the damper's mounts would be {Unit.Millimetre.Show(length - compression):F1} apart, and it is {Unit.Millimetre.Show(length - (way * stroke!.Value)):F1} long when {end}")
                : refused($"the damper would be {Unit.Millimetre.Show(missing.Value):F1} past the point where it is {end}");
        }

        Refuse(layout.CompressionTravel, 1, "closed");
        Refuse(layout.ReboundTravel, -1, "fully extended");
    }

    /// <summary>Refuses what would be below the road.</summary>
    internal static void RefuseHeight(string what, double height, Func<FormattableString, NoRestPositionException> refused)
    {
        if (height <= 0)
            throw refused($"{what} would be {Unit.Millimetre.Show(-height):F0} below the road");
    }

    /// <summary>Vehicle and layout with everything where it stands at another height, and how far the roll centre has risen with it.</summary>
    internal static (HalfCar Vehicle, DamperLayout Layout, RideHeightChange Change) Redrawn(
        HalfCar vehicle, DamperLayout layout, PiecewiseLinear leftSpring, PiecewiseLinear rightSpring, RideHeightChange change)
    {
        var linkage = vehicle.Linkage?.Redrawn(change);
        change = change with { RollCentre = RollCentreRise(vehicle, linkage, change) };
        RedrawnSides atLeft = RedrawnSides.AtHeight(Side.Left, change), atRight = RedrawnSides.AtHeight(Side.Right, change);
        var left = atLeft.Of(vehicle.On(Side.Left), leftSpring);
        return (
            vehicle with
            {
                Body = vehicle.Body with { CgHeight = vehicle.Body.CgHeight + change.Body },
                Unsprung = vehicle.Unsprung with { CgHeight = vehicle.Unsprung.CgHeight + change.Unsprung },
                RollCentreHeight = vehicle.RollCentreHeight + change.RollCentre,
                Linkage = linkage,
                Travel = vehicle.Travel?.From(change.Travel),
                StandingTyres = vehicle.StandingTyres?.From(change.Travel, 0),
                Spring = left.Spring,
                BumpStop = left.BumpStop,
                ReboundStop = left.ReboundStop,
                RightSide = vehicle.RightSide is null && rightSpring == leftSpring ? null : atRight.Of(vehicle.On(Side.Right), rightSpring),
            },
            layout.With(atLeft.Of),
            change);
    }

    /// <summary>The roll centre follows axle and body, or is constructed anew where a linkage is known.</summary>
    private static double RollCentreRise(HalfCar design, WheelLinkage? redrawn, RideHeightChange change)
    {
        if (redrawn is not null)
            return redrawn.WheelAt(0).RollCentreHeight - design.RollCentreHeight;
        var bodyShare = design.RollCentreBodyShare ?? design.Suspension.RollCentreBodyShare;
        return ((1 - bodyShare) * change.Unsprung) + (bodyShare * change.Body);
    }

    private static void RefuseUnstable(AssembledHalfCar car, Func<FormattableString, NoRestPositionException> refused)
    {
        if (StaticEquilibrium.TryFind(car, 0, out _))
            return;
        var linear = LinearHalfCar.AtRest(car);
        var heaveStiffness = linear.Stiffness[HalfCarState.BodyHeave, HalfCarState.BodyHeave];
        throw heaveStiffness > 0
            ? refused($"the body falls over: its weight above the roll centre takes {Unit.NewtonMetrePerDegree.Of(linear.GravityMoment):F0} N·m per degree of roll (m g h), more than springs, bar and tyres give back")
            : refused($"nothing holds the body at that height: the suspension's rate there is {Unit.NewtonPerMillimetre.Show(heaveStiffness):G4}");
    }
}
