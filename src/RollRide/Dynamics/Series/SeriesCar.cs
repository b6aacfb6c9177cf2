using RollRide.Cornering;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics.Series;

/// <summary>
/// A run whose equations are linear between the kinks of its force laws, but for the sine of the body's roll and square-law
/// stops, and whose inputs have Taylor series in closed form: the constants of the equations. Immutable.
/// </summary>
internal sealed class SeriesCar
{
    // Variants of a vehicle share their manoeuvre: the segments of the one asked for last, by whichever thread.
    private static Known? s_known;

    /// <summary>Number of stops, and of tyre contacts, that there is room for.</summary>
    public const int Slots = 4;

    private SeriesCar(AssembledHalfCar car, Manoeuvre manoeuvre, SeriesSegment[] segments, StraightPieces damper)
    {
        var vehicle = car.Vehicle;
        Car = car;
        Manoeuvre = manoeuvre;
        Segments = segments;
        Damper = damper;
        Spring = car.SpringForce.Pieces();
        SpringRatio = vehicle.Spring.Fitting.HeaveRatio;
        SpringArm = ArmOf(vehicle.Spring.Fitting);
        DamperRatio = car.Layout.Fitting.HeaveRatio;
        DamperArm = ArmOf(car.Layout.Fitting);
        Stops = [.. StopsOf(vehicle.BumpStop, 1), .. StopsOf(vehicle.ReboundStop, -1)];
        HalfTrack = vehicle.HalfTrack;
        AntiRollBar = vehicle.AntiRollBar;
        SeatOffset = vehicle.SeatOffset;
        SpringPreload = car.SpringPreload;
        TyreStiffness = vehicle.Tyre.Stiffness;
        TyreDamping = vehicle.Tyre.Damping;
        StaticTyreLoad = vehicle.StaticTyreLoad;
        BodyMobility = 1 / vehicle.Body.Mass;
        BodyRollMobility = 1 / vehicle.BodyRollInertia;
        UnsprungMobility = 1 / vehicle.Unsprung.Mass;
        UnsprungRollMobility = 1 / vehicle.UnsprungRollInertia;
        BodyLateral = vehicle.Body.Mass * vehicle.RollArm;
        UnsprungLateral = vehicle.UnsprungLateralMoment;
        GravityMoment = BodyLateral * vehicle.Gravity;
        Contacts = car.ContactPositions is [var left, var right] ? [left, null, null, right] : [.. car.ContactPositions];
    }

    /// <summary>The vehicle and its layout.</summary>
    public AssembledHalfCar Car { get; }

    /// <summary>The manoeuvre.</summary>
    public Manoeuvre Manoeuvre { get; }

    /// <summary>The inputs, segment after segment.</summary>
    public SeriesSegment[] Segments { get; }

    /// <summary>Damper force, N, over velocity, m/s.</summary>
    public StraightPieces Damper { get; }

    /// <summary>Spring force, N, over compression from ride height, m.</summary>
    public StraightPieces Spring { get; }

    /// <summary>Heave ratio of the spring.</summary>
    public double SpringRatio { get; }

    /// <summary>Roll arm of the left spring, m.</summary>
    public double SpringArm { get; }

    /// <summary>Heave ratio of the damper.</summary>
    public double DamperRatio { get; }

    /// <summary>Roll arm of the left damper, m.</summary>
    public double DamperArm { get; }

    /// <summary>Half the track, m.</summary>
    public double HalfTrack { get; }

    /// <summary>Roll stiffness of the anti-roll bar, N·m/rad.</summary>
    public double AntiRollBar { get; }

    /// <summary>Lateral position of the seat, m.</summary>
    public double SeatOffset { get; }

    /// <summary>Force of one spring at ride height, N.</summary>
    public double SpringPreload { get; }

    /// <summary>Stiffness kt of one tyre, N/m.</summary>
    public double TyreStiffness { get; }

    /// <summary>Damping ct of one tyre, N·s/m.</summary>
    public double TyreDamping { get; }

    /// <summary>Static load of one tyre, N.</summary>
    public double StaticTyreLoad { get; }

    /// <summary>1/ms, 1/kg.</summary>
    public double BodyMobility { get; }

    /// <summary>1/(Is + ms h²), 1/(kg·m²).</summary>
    public double BodyRollMobility { get; }

    /// <summary>1/mu, 1/kg.</summary>
    public double UnsprungMobility { get; }

    /// <summary>1/Iu, 1/(kg·m²).</summary>
    public double UnsprungRollMobility { get; }

    /// <summary>ms h, kg·m.</summary>
    public double BodyLateral { get; }

    /// <summary>ms hrc + mu hu, kg·m.</summary>
    public double UnsprungLateral { get; }

    /// <summary>ms g h, N·m.</summary>
    public double GravityMoment { get; }

    /// <summary>The stops: those of bump, left and right, then those of rebound; null where there is none.</summary>
    public SeriesStop?[] Stops { get; }

    /// <summary>Lateral positions of the tyre contacts, left to right, m; with single tyres the inner two are null.</summary>
    public double?[] Contacts { get; }

    /// <summary>The run in this form; null if it has none: then it must be integrated step by step from its derivatives.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="manoeuvre">Road and cornering.</param>
    public static SeriesCar? TryCreate(AssembledHalfCar car, Manoeuvre manoeuvre)
    {
        var (vehicle, damper) = (car.Vehicle, car.Layout.Damper);
        var isStraight = damper is { Friction: 0, TopMountStiffness: null }
            && vehicle.Spring.Fitting.IsConstant
            && car.Layout.Fitting.IsConstant
            && vehicle.BumpStop?.Fitting is null or { IsConstant: true }
            && vehicle.ReboundStop?.Fitting is null or { IsConstant: true }
            && vehicle.BumpStop is null or { Exponent: 1 or 2 }
            && vehicle.ReboundStop is null or { Exponent: 1 or 2 };
        return isStraight && damper.Curve.StraightPieces() is { } pieces && Segmented(manoeuvre) is { Length: > 0 } segments
            ? new SeriesCar(car, manoeuvre, segments, pieces)
            : null;
    }

    /// <summary>The inputs, segment after segment; empty if they have no series.</summary>
    private static SeriesSegment[] Segmented(Manoeuvre manoeuvre)
    {
        if (s_known is { } known && ReferenceEquals(known.Manoeuvre, manoeuvre))
            return known.Segments;
        var segments = NewSegments(manoeuvre);
        if (segments.Length > 0)
            s_known = new Known(manoeuvre, segments);
        return segments;
    }

    private static SeriesSegment[] NewSegments(Manoeuvre manoeuvre)
    {
        if (manoeuvre.Road.Unevenness is not null || manoeuvre.Cornering is not GivenLateralAcceleration cornering)
            return [];
        var segments = new List<SeriesSegment>();
        var start = 0.0;
        foreach (var end in Integrator.SegmentEnds(0, manoeuvre.Duration, manoeuvre.Breakpoints))
        {
            var middle = 0.5 * (start + end);
            var left = SeriesInput.TryCreate(manoeuvre.Road.Left, manoeuvre.Road.Speed, middle);
            var right = SeriesInput.TryCreate(manoeuvre.Road.Right, manoeuvre.Road.Speed, middle);
            var lateral = SeriesInput.TryCreate(cornering.Signal, 1, middle);
            if (left is null || right is null || lateral is null)
                return [];
            segments.Add(new SeriesSegment(end, left, right, lateral));
            start = end;
        }

        return [.. segments];
    }

    private static SeriesStop?[] StopsOf(TravelStop? stop, int direction)
    {
        if (stop is null)
            return [null, null];
        var (ratio, arm) = (direction * stop.Fitting.HeaveRatio, direction * ArmOf(stop.Fitting));
        return [new SeriesStop(stop, ratio, arm), new SeriesStop(stop, ratio, -arm)];
    }

    private sealed class Known(Manoeuvre manoeuvre, SeriesSegment[] segments)
    {
        public Manoeuvre Manoeuvre { get; } = manoeuvre;

        public SeriesSegment[] Segments { get; } = segments;
    }

    private static double ArmOf(IFitting fitting) => fitting.At(0, 0, Side.Left).RollArm;
}

/// <summary>A stop as the series sees it: it is closed by <c>ratio q + arm r</c> and pushes back the same way.</summary>
/// <param name="Stop">The stop.</param>
/// <param name="Ratio">Closing over relative heave.</param>
/// <param name="Arm">Closing over relative roll, m.</param>
internal sealed record SeriesStop(TravelStop Stop, double Ratio, double Arm)
{
    /// <summary>Whether its force goes with the square of the penetration.</summary>
    public bool IsSquare => Stop.Exponent == 2;
}
