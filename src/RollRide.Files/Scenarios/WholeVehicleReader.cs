using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Turns the other axle of a file, and what joins it to the one that is studied, into a record.</summary>
internal static class WholeVehicleReader
{
    private const string Path = "wholeVehicle", Other = $"{Path}.otherAxle";

    // kg of wheels, hubs and what else moves with them for each kg of axle load; common practice, no source.
    private const double UnsprungShare = 0.08;

    // Radius of gyration of an axle in roll over its half-track: most of its mass stands at its ends; common practice, no source.
    private const double AxleGyration = 0.75;

    // Of what a single-track section may differ from the ends, relative: rounding of its numbers.
    private const double Rounding = 2e-3;

    /// <summary>Reads the other axle; null where there is none or after a fault.</summary>
    /// <param name="context">The file.</param>
    /// <param name="studied">The axle that is studied, by itself.</param>
    public static SecondAxle? Read(ReadingContext context, HalfCar studied)
    {
        if (context.File.WholeVehicle is not { } file)
            return null;
        var before = context.Faults.Count;
        if (file.Rigid == false)
            context.Refuse($"{Path}.rigid", $"leave this key out where the frame twists, and give torsionalStiffness_N_m_per_deg");
        var chassis = context.Make(Path, () => new Chassis
        {
            Wheelbase = file.WheelbaseMm * Unit.Millimetre.InSi,
            TorsionalStiffness = file.TorsionalStiffness * Unit.NewtonMetrePerDegree.InSi,
            TorsionalDamping = file.TorsionalDamping * Unit.NewtonMetrePerDegree.InSi,
            PitchInertia = file.PitchInertia,
        });
        if (file is { Rigid: true, TorsionalDamping: not null })
            context.Refuse($"{Path}.torsionalDamping_N_m_s_per_deg", $"a rigid frame has no torsional damping; leave this key out");
        var (vehicle, layout) = file.OtherAxle.Estimate is { } estimate
            ? Checked(context, file.OtherAxle, Estimated(context, estimate, studied))
            : Written(context, file.OtherAxle);
        RefuseLean(context, "vehicle", context.File.Vehicle.Springs);
        RefuseLean(context, $"{Other}.vehicle", file.OtherAxle.Vehicle?.Springs);
        if (chassis is null || vehicle is null || layout is null || context.Faults.Count > before)
            return null;
        chassis = chassis with { PitchInertia = OtherAxleLoad.DesignPitchInertia(context, vehicle.Body) };
        CheckWheelbase(context, chassis, studied, vehicle);
        CheckPitch(context, chassis, studied, vehicle);
        return new SecondAxle
        {
            Vehicle = vehicle,
            Layout = layout,
            Place = file.StudiedAxle == Axle.Rear ? Axle.Front : Axle.Rear,
            Chassis = chassis,
            IsEstimated = file.OtherAxle.Estimate is not null,
        };
    }

    /// <summary>How far the seat stands from the studied axle towards the other one, m.</summary>
    public static double SeatTowardsSecondAxle(WholeVehicleFile? file) => file?.SeatBehindFrontAxleMm is not { } behind ? 0
        : (file.StudiedAxle == Axle.Front ? behind : file.WheelbaseMm - behind) * Unit.Millimetre.InSi;

    /// <summary>Whether mass and axle distances of a single-track section are those of the two axles.</summary>
    public static void CheckSingleTrack(ReadingContext context, string path, SingleTrackFile file)
    {
        if (context.Vehicle is not { SecondAxle: { } second } studied)
            return;
        var (own, other) = (studied.Body.Mass + studied.Unsprung.Mass, second.Vehicle.Body.Mass + second.Vehicle.Unsprung.Mass);
        var (front, rear) = second.StudiedPlace == Axle.Front ? (own, other) : (other, own);
        var wheelbase = Unit.Millimetre.Of(second.Chassis.Wheelbase);
        foreach (var (key, value, expected, unit) in new[]
        {
            ("mass_kg", file.MassKg, front + rear, "kg"),
            ("cgToFrontAxle_mm", file.CgToFrontAxleMm, wheelbase * rear / (front + rear), "mm"),
            ("cgToRearAxle_mm", file.CgToRearAxleMm, wheelbase * front / (front + rear), "mm"),
        })
        {
            if (Math.Abs(value - expected) > Rounding * expected)
                context.Refuse($"{path}.{key}", $"the two axles of wholeVehicle make it {expected:F1} {unit}; the two must agree");
        }
    }

    /// <summary>Two axles are modelled standing level only.</summary>
    private static void RefuseLean(ReadingContext context, string path, SpringFile? springs)
    {
        foreach (var (name, side) in new[] { ("left", springs?.Left), ("right", springs?.Right) })
        {
            if (side is { PreloadChange: not 0 })
                context.Refuse($"{path}.springs.{name}.preloadChange_N", $"the vehicle would lean, and leaning is modelled for one axle only: leave this key out, or take {Path} out");
        }
    }

    private static (HalfCar? Vehicle, DamperLayout? Layout) Written(ReadingContext context, OtherAxleFile file)
    {
        if (file.Vehicle!.SeatOffsetMm != 0)
            context.Refuse($"{Other}.vehicle.seatOffset_mm", $"the seat belongs to the vehicle: put its lateral position under vehicle, and where it stands lengthwise under wholeVehicle.seatBehindFrontAxle_mm");
        return context.OfOtherAxle(
            context.File with { Vehicle = file.Vehicle!, Layouts = file.Layout is null ? [] : [file.Layout], WholeVehicle = null, Packaging = null, DesignLoad = null, LoadStates = new Dictionary<string, LoadStateFile>() },
            path => Moved(Moved(path, "vehicle", $"{Other}.vehicle"), "layouts[0]", $"{Other}.layout"),
            other =>
            {
                var vehicle = other.Vehicle is { } written && OtherAxleLoad.Design(context, written.Body) is { } body ? written with { Body = body } : null;
                var layout = file.Layout is null ? Undamped(other) : LayoutReader.ReadFirst(other);
                if (vehicle is not null && layout is not null)
                    StandingCheck.Check(other, 0, vehicle, layout, isOtherAxle: true);
                return (vehicle, layout);
            });

        static string Moved(string path, string from, string to) => path.StartsWith(from, StringComparison.Ordinal) && (path.Length == from.Length || path[from.Length] == '.')
            ? to + path[from.Length..]
            : path;
    }

    /// <summary>An estimate must stand and swing as an axle that is written out, and what is written beside it would be lost.</summary>
    private static (HalfCar? Vehicle, DamperLayout? Layout) Checked(ReadingContext context, OtherAxleFile file, (HalfCar? Vehicle, DamperLayout? Layout) estimated)
    {
        const string Estimate = $"{Other}.estimate";
        if (file.Layout is not null)
            context.Refuse($"{Other}.layout", $"the estimate has dampers already, from its dampingRatio; leave this key out, or give vehicle instead of estimate");
        if (estimated is not ({ } vehicle, { } layout))
            return estimated;
        OtherAxleLoad.CheckEstimate(context, vehicle.Body);
        context.OfOtherAxle(context.File, KeyOf, other =>
        {
            StandingCheck.Check(other, 0, vehicle, layout, isOtherAxle: true);
            return vehicle;
        });
        return estimated;

        static string KeyOf(string path) => path switch
        {
            "vehicle.antiRollBar_N_m_per_deg" => $"{Estimate}.rollStiffness_N_m_per_deg",
            "layouts[0]" or "layouts[0].damper" => $"{Estimate}.dampingRatio",
            _ => Estimate,
        };
    }

    private static DamperLayout Undamped(ReadingContext other) => new()
    {
        Name = "no dampers",
        Fitting = new FixedRatioFitting(1, 1, other.File.Vehicle.TrackMm / 2 * Unit.Millimetre.InSi),
        Damper = new Damper("none", ForceVelocityCurve.Linear(0)),
    };

    /// <summary>
    /// An axle of the load, roll stiffness and damping given: springs of the ride frequency at the wheels, a bar for what they lack in roll (or
    /// springs further inboard, where they give more than is asked for), dampers of the damping ratio in heave, and one tyre a side like those of the studied axle.
    /// </summary>
    private static (HalfCar? Vehicle, DamperLayout? Layout) Estimated(ReadingContext context, EstimatedAxleFile file, HalfCar studied)
    {
        const string Estimate = $"{Other}.estimate";
        var unsprung = file.UnsprungMassKg ?? (UnsprungShare * file.AxleLoadKg);
        var mass = file.AxleLoadKg - unsprung;
        if (mass <= 0)
        {
            context.Refuse($"{Estimate}.unsprungMass_kg", $"the axle carries {file.AxleLoadKg} kg, so nothing would be left of the body; it must be less");
            return (null, null);
        }

        var halfTrack = (file.TrackMm * Unit.Millimetre.InSi ?? studied.Track) / 2;
        var omega = 2 * Math.PI * file.RideFrequencyHz;
        var rate = mass * omega * omega / 2;
        var (wanted, springs) = (file.RollStiffness * Unit.NewtonMetrePerDegree.InSi, 2 * rate * halfTrack * halfTrack);
        var rollRatio = Math.Min(1, Math.Sqrt(wanted / springs));
        var coefficient = file.DampingRatio * mass * omega;
        var fitting = new FixedRatioFitting(1, 1, halfTrack);
        var vehicle = context.Make(Estimate, () => new HalfCar
        {
            Name = "estimated axle",
            Suspension = file.Suspension,
            Track = 2 * halfTrack,
            RollCentreHeight = file.RollCentreHeightMm * Unit.Millimetre.InSi,
            Body = studied.Body with { Mass = mass, RollInertia = studied.Body.RollInertia * mass / studied.Body.Mass },
            Unsprung = new UnsprungMass
            {
                Mass = unsprung,
                CgHeight = studied.Unsprung.CgHeight,
                AxleRollInertia = file.Suspension.RefusalOf(null) is null ? null : unsprung * AxleGyration * AxleGyration * halfTrack * halfTrack,
            },
            Spring = new Spring(new LinearSpring(rate), new FixedRatioFitting(1, rollRatio, halfTrack)),
            AntiRollBar = Math.Max(0, wanted - springs),
            Tyre = studied.Tyre with { DualSpacing = null },
        });
        return (vehicle, new DamperLayout { Name = "estimated dampers", Fitting = fitting, Damper = new Damper("estimated", ForceVelocityCurve.Linear(coefficient)) });
    }

    private static void CheckWheelbase(ReadingContext context, Chassis chassis, HalfCar studied, HalfCar other)
    {
        // A wheel is about as large as its centre stands high.
        var least = studied.Unsprung.CgHeight + other.Unsprung.CgHeight;
        if (chassis.Wheelbase <= least)
            context.Refuse($"{Path}.wheelbase_mm", $"the wheels of both axles would overlap: their centres stand {Unit.Millimetre.Show(studied.Unsprung.CgHeight):F0} and {Unit.Millimetre.Show(other.Unsprung.CgHeight):F0} above the road, so it must be more than {Unit.Millimetre.Show(least):F0}");
        else if (chassis.Wheelbase is < 1.5 or > 8)
            context.Warn($"{Path}.wheelbase_mm", $"road vehicles have 1500 to 8000 mm");
    }

    private static void CheckPitch(ReadingContext context, Chassis chassis, HalfCar studied, HalfCar other)
    {
        if (chassis.PitchInertia is not { } inertia)
            return;
        var mass = studied.Body.Mass + other.Body.Mass;
        var index = inertia * mass / (studied.Body.Mass * other.Body.Mass * chassis.Wheelbase * chassis.Wheelbase);
        if (index is < 0.5 or > 1.6)
            context.Warn($"{Path}.pitchInertia_kg_m2", $"the dynamic index Iy/(m a b) is {index:F2}; road vehicles have 0.7 to 1.3");
    }
}
