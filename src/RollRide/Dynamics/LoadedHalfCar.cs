using MathNet.Numerics.RootFinding;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>
/// A vehicle with one damper layout as it stands under a load: found once, and drawn anew there, so that every study works on it as on any other
/// vehicle at rest. Immutable and thread-safe.
/// </summary>
/// <remarks>
/// Springs, tyres, gas and stops are set at the design load and stay as they are. The load is on the centre plane, so nothing leans. See
/// docs/theory.md, "Rest under another load".
/// </remarks>
public sealed class LoadedHalfCar
{
    // The suspension is moved in these steps, m, until it carries the load: what happens within one of them is no vehicle's doing.
    private const double Step = 1e-3;

    // No suspension moves farther, m.
    private const double Furthest = 2;

    // The travel at rest is known to this, m: rounding of a travel of some centimetres.
    private const double Accuracy = 1e-15;

    // Forces that differ by this share are the same.
    private const double Rounding = 1e-13;

    private LoadedHalfCar(LoadState load, AssembledHalfCar car, RestPosition rest, RideHeightChange change) =>
        (Load, Car, Rest, Change) = (load, car, rest, change);

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
        NoRestPositionException Refused(FormattableString reason, Exception? cause = null) => new(load.Name, layout.Name, reason, cause);
        var body = load.Of(vehicle.Body);
        var loaded = vehicle with { Body = body };
        var springForce = vehicle.Spring.Characteristic.AtRideHeight(setting.SpringPreload);
        try
        {
            // What the tyres carry does not depend on the suspension, nor does the suspension's travel on the tyres.
            var unsprung = (setting.TyreLoad - loaded.StaticTyreLoad) / vehicle.Tyre.Stiffness;
            var travel = TravelUnder(body.Mass * vehicle.Gravity / 2, heave => HeaveForce.Of(vehicle, layout, springForce, heave), Refused);
            var rest = At(loaded, layout, springForce, travel, unsprung);
            RefuseDamper(rest.Side, Refused);
            RefuseHeight("the body's centre of gravity", body.CgHeight + rest.BodyHeave, Refused);
            RefuseHeight("the centre of the unsprung mass", vehicle.Unsprung.CgHeight + rest.UnsprungHeave, Refused);
            var (car, change) = Redrawn(loaded, layout, springForce, rest);
            RefuseUnstable(car, Refused);
            return new LoadedHalfCar(load, car, rest, change);
        }
        catch (UnreachableTravelException e)
        {
            throw Refused($"its linkage ends before the suspension carries the load. {e.Message.TrimEnd('.')}", e);
        }
    }

    /// <summary>The travel at which one side carries a weight: followed from the design position as the weight grows or falls.</summary>
    private static double TravelUnder(double weight, Func<double, double> carried, Func<FormattableString, Exception?, NoRestPositionException> refused)
    {
        var before = carried(0);
        var missing = weight - before;
        if (Math.Abs(missing) <= Rounding * weight)
            return 0;
        var way = Math.Sign(missing);
        for (var i = 1; i * Step <= Furthest; i++)
        {
            var (from, to) = (way * (i - 1) * Step, way * i * Step);
            var after = carried(to);
            if (way * (after - weight) >= 0)
                return Brent.FindRoot(heave => carried(heave) - weight, Math.Min(from, to), Math.Max(from, to), Accuracy);
            if (way * (after - before) < -Rounding * weight)
                throw refused($"on the way there, at {from * 1e3:F0} mm of wheel travel, the suspension carries {before:F0} N a side and gives way under more; the load asks for {weight:F0} N", null);
            before = after;
        }

        throw refused($"even after {way * Furthest * 1e3:F0} mm of wheel travel the suspension carries {before:F0} N a side; the load asks for {weight:F0} N", null);
    }

    private static RestPosition At(HalfCar vehicle, DamperLayout layout, PiecewiseLinear springForce, double travel, double unsprung)
    {
        ElementAtRest Element(IFitting fitting, Func<double, double> force)
        {
            var motion = fitting.At(travel, 0, Side.Left);
            return new ElementAtRest(motion.Compression, force(motion.Compression), motion.HeaveRatio, motion.RollArm / vehicle.HalfTrack);
        }

        StopAtRest? Stop(TravelStop? stop, int way)
        {
            if (stop is null)
                return null;
            var penetration = (way * stop.Fitting.At(travel, 0, Side.Left).Compression) - stop.Clearance;
            return new StopAtRest(Math.Max(0, -penetration), Math.Max(0, penetration), stop.Force(penetration));
        }

        var damper = Element(layout.Fitting, _ => layout.Damper.GasForce);
        return new RestPosition
        {
            BodyHeave = unsprung - travel,
            UnsprungHeave = unsprung,
            Side = new SideAtRest(
                Element(vehicle.Spring.Fitting, springForce.Value),
                damper,
                (layout.Fitting as IMountedElement)?.Length - damper.Compression,
                layout.CompressionTravel - damper.Compression,
                layout.ReboundTravel + damper.Compression,
                Stop(vehicle.BumpStop, 1),
                Stop(vehicle.ReboundStop, -1),
                vehicle.StaticTyreLoad * vehicle.ContactPositions.Count / 2),
        };
    }

    private static void RefuseDamper(SideAtRest side, Func<FormattableString, Exception?, NoRestPositionException> refused)
    {
        void Refuse(double? left, int way, string end)
        {
            if (!(left <= 0))
                return;
            throw side.DamperLength is { } length
                ? refused($"the damper's mounts would be {length * 1e3:F1} mm apart, and it is {(length - (way * left.Value)) * 1e3:F1} mm long when {end}", null)
                : refused($"the damper would be {-left.Value * 1e3:F1} mm past the point where it is {end}", null);
        }

        Refuse(side.LeftToClosed, 1, "closed");
        Refuse(side.LeftToExtended, -1, "fully extended");
    }

    private static void RefuseHeight(string what, double height, Func<FormattableString, Exception?, NoRestPositionException> refused)
    {
        if (height <= 0)
            throw refused($"{what} would be {-height * 1e3:F0} mm below the road", null);
    }

    /// <summary>The roll centre follows axle and body, or is constructed anew where a linkage is known.</summary>
    private static double RollCentreRise(HalfCar design, WheelLinkage? redrawn, RestPosition rest)
    {
        if (redrawn is not null)
            return redrawn.WheelAt(0).RollCentreHeight - design.RollCentreHeight;
        var bodyShare = design.RollCentreBodyShare ?? (design.Suspension == SuspensionKind.Independent ? 1 : 0);
        return ((1 - bodyShare) * rest.UnsprungHeave) + (bodyShare * rest.BodyHeave);
    }

    /// <summary>The car with everything where it stands at rest.</summary>
    private static (AssembledHalfCar Car, RideHeightChange Change) Redrawn(HalfCar vehicle, DamperLayout layout, PiecewiseLinear springForce, RestPosition rest)
    {
        if (rest is { BodyHeave: 0, UnsprungHeave: 0 })
            return (new AssembledHalfCar(vehicle, layout), default);
        var linkage = vehicle.Linkage?.Redrawn(new RideHeightChange(rest.BodyHeave, rest.UnsprungHeave, 0));
        var change = new RideHeightChange(rest.BodyHeave, rest.UnsprungHeave, RollCentreRise(vehicle, linkage, rest));
        TravelStop? Stop(TravelStop? stop, StopAtRest? atRest) => stop is null
            ? null
            : stop with { Clearance = atRest!.Clearance - atRest.Compression, Fitting = stop.Fitting.Redrawn(change) };
        var spring = vehicle.Spring;
        var car = new AssembledHalfCar(
            vehicle with
            {
                Body = vehicle.Body with { CgHeight = vehicle.Body.CgHeight + rest.BodyHeave },
                Unsprung = vehicle.Unsprung with { CgHeight = vehicle.Unsprung.CgHeight + rest.UnsprungHeave },
                RollCentreHeight = vehicle.RollCentreHeight + change.RollCentre,
                Linkage = linkage,
                Travel = vehicle.Travel?.From(rest.Travel),
                Spring = new Spring(spring.Characteristic.Redrawn(springForce, rest.Side.Spring.Compression), spring.Fitting.Redrawn(change)),
                BumpStop = Stop(vehicle.BumpStop, rest.Side.BumpStop),
                ReboundStop = Stop(vehicle.ReboundStop, rest.Side.ReboundStop),
            },
            layout with
            {
                Fitting = layout.Fitting.Redrawn(change),
                CompressionTravel = rest.Side.LeftToClosed,
                ReboundTravel = rest.Side.LeftToExtended,
            });
        return (car, change);
    }

    private static void RefuseUnstable(AssembledHalfCar car, Func<FormattableString, Exception?, NoRestPositionException> refused)
    {
        if (StaticEquilibrium.TryFind(car, 0, out _))
            return;
        var linear = LinearHalfCar.AtRest(car);
        var heaveStiffness = linear.Stiffness[HalfCarState.BodyHeave, HalfCarState.BodyHeave];
        throw heaveStiffness > 0
            ? refused($"the body falls over: its weight above the roll centre takes {linear.GravityMoment * Math.PI / 180:F0} N·m per degree of roll (m g h), more than springs, bar and tyres give back", null)
            : refused($"nothing holds the body at that height: the suspension's rate there is {heaveStiffness / 1e3:G4} N/mm", null);
    }
}
