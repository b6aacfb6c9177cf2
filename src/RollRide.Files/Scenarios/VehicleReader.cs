using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Turns the vehicle of a file into the half-car, and says what is not plausible about it.</summary>
internal static class VehicleReader
{
    private const string Path = "vehicle";

    /// <summary>Reads the vehicle; null after a fault.</summary>
    public static HalfCar? Read(ReadingContext context)
    {
        var file = context.File.Vehicle;
        var before = context.Faults.Count;
        CheckSuspension(context, file);
        if (file.Tyres.DualSpacingMm >= file.TrackMm)
            context.Refuse($"{Path}.tyres.dualSpacing_mm", $"the pair is wider than the track ({file.TrackMm} mm); it must be less");
        var hasUnlikeSides = context.HasUnlikeStops || (file.Springs.Left ?? file.Springs.Right) is not null;
        var spring = ReadSpring(context, file.Springs, Side.Left);
        var rightSpring = !hasUnlikeSides ? spring : ReadSpring(context, file.Springs, Side.Right);
        var (bump, rebound) = context.Stops;
        if (spring is null || rightSpring is null || context.Geometry is not { } geometry || context.Faults.Count > before)
            return null;
        var written = WrittenBody(file.Body);
        if (LoadStateReader.DesignBody(context, written) is not { } body)
            return null;
        var vehicle = context.Make(Path, () => new HalfCar
        {
            Name = file.Name,
            Suspension = file.Suspension,
            Track = file.TrackMm * Unit.Millimetre.InSi,
            RollCentreHeight = geometry.RollCentreHeight,
            Linkage = geometry.Linkage,
            Travel = geometry.Travel,
            RollCentreBodyShare = geometry.RollCentreBodyShare,
            Body = body,
            Unsprung = new UnsprungMass
            {
                Mass = file.Unsprung.MassKg,
                CgHeight = file.Unsprung.CgHeightMm * Unit.Millimetre.InSi,
                AxleRollInertia = file.Unsprung.AxleRollInertia,
            },
            Spring = spring,
            BumpStop = bump,
            ReboundStop = rebound,
            RightSide = !hasUnlikeSides ? null : new SuspensionSide(rightSpring, context.RightStops.Bump, context.RightStops.Rebound),
            AntiRollBar = file.AntiRollBar * Unit.NewtonMetrePerDegree.InSi,
            Tyre = new Tyre
            {
                Stiffness = file.Tyres.Stiffness * Unit.NewtonPerMillimetre.InSi,
                Damping = file.Tyres.Damping,
                Width = context.File.Packaging?.Tyre.WidthMm * Unit.Millimetre.InSi,
                DualSpacing = file.Tyres.DualSpacingMm * Unit.Millimetre.InSi,
            },
            SeatOffset = file.SeatOffsetMm * Unit.Millimetre.InSi,
            SeatTowardsSecondAxle = WholeVehicleReader.SeatTowardsSecondAxle(context.File.WholeVehicle),
        });
        if (vehicle is not null)
        {
            vehicle = vehicle with { SecondAxle = WholeVehicleReader.Read(context, vehicle) };
            foreach (var side in vehicle.RightSide is null ? [Side.Left] : (Side[])[Side.Left, Side.Right])
            {
                CheckStop(context, PathOfClearance("bumpStops", file.BumpStops, side), vehicle.On(side).BumpStop, vehicle.Linkage?.Highest, "rise");
                CheckStop(context, PathOfClearance("reboundStops", file.ReboundStops, side), vehicle.On(side).ReboundStop, vehicle.Linkage?.Lowest, "fall");
            }

            VehiclePlausibility.Check(context, Path, vehicle);
            var known = context.Faults.Count;
            if (vehicle.Travel is not null && context.Make($"{Path}.springs", () => vehicle.Envelope) is null && context.Faults.Count == known)
                context.Refuse($"{Path}.travel.combinations", $"the stops limit this travel, so bumpStops and reboundStops are needed that both heave and roll reach; or give all");
        }

        return context.Faults.Count > before ? null : vehicle;
    }

    /// <summary>The body as the file describes it.</summary>
    public static SprungBody WrittenBody(BodyFile file) => new()
    {
        Mass = file.MassKg,
        RollInertia = file.RollInertia,
        CgHeight = file.CgHeightMm * Unit.Millimetre.InSi,
    };

    /// <summary>Reads the stops of one side; null in the place of one that is not given or after a fault.</summary>
    public static (TravelStop? Bump, TravelStop? Rebound) ReadStops(ReadingContext context, Side side) => (
        ReadStop(context, $"{Path}.bumpStops", context.File.Vehicle.BumpStops, side),
        ReadStop(context, $"{Path}.reboundStops", context.File.Vehicle.ReboundStops, side));

    private static string PathOfClearance(string stops, StopFile? file, Side side) =>
        (side == Side.Left ? file?.Left : file?.Right)?.ClearanceMm is null ? $"{Path}.{stops}.clearance_mm" : $"{Path}.{stops}.{NameOf(side)}.clearance_mm";

    /// <summary>A stop must be met before the linkage comes to its end.</summary>
    private static void CheckStop(ReadingContext context, string path, TravelStop? stop, TravelLimit? end, string way)
    {
        if (stop is null || end is null)
            return;
        var (travel, most) = (stop.Clearance / stop.Fitting.HeaveRatio, Math.Abs(end.Travel));
        if (travel >= most)
            context.Refuse(path, $"the wheel must {way} by {Unit.Millimetre.Show(travel):F1} until the stop touches, but at {Unit.Millimetre.Show(most):F1} {end.Reason}");
    }

    private static void CheckSuspension(ReadingContext context, VehicleFile file)
    {
        const string Inertia = $"{Path}.unsprung.axleRollInertia_kg_m2";
        if (file.Suspension.RefusalOf(file.Unsprung.AxleRollInertia) is { } refusal)
            context.Refuse(Inertia, $"{(file.Unsprung.AxleRollInertia is null ? "this key is missing" : "leave this key out")}: {refusal}");
    }

    /// <summary>Reads the spring of one side: as given for both, with what this side has of its own.</summary>
    private static Spring? ReadSpring(ReadingContext context, SpringFile file, Side side)
    {
        var (both, own) = (file, OwnOf(file, side));
        var placementPath = PathOfSpring(both, side, spring => spring.Placement, "placement");
        var placement = own?.Placement ?? file.Placement;
        if (placement.Placed is not null && context.File.Vehicle.Travel is { Combinations: TravelCombinations.UntilStopsTouchOrTyresLift })
        {
            context.Refuse($"{placementPath}.placed", $"a place is sought over the travel that tyres and springs leave, so a spring itself cannot be placed; give mounts or motionRatios, or untilStopsTouch under vehicle.travel.combinations");
            return null;
        }

        var fitting = PlacementReader.Read(context, placementPath, placement);
        var path = $"{Path}.springs";
        if (own is not null && (own.Rate ?? own.TableFromFreeLength ?? (object?)own.TableFromRideHeight) is not null)
        {
            file = file with { Rate = own.Rate, TableFromFreeLength = own.TableFromFreeLength, TableFromRideHeight = own.TableFromRideHeight };
            path = $"{path}.{NameOf(side)}";
        }
        else if ((file.Rate ?? file.TableFromFreeLength ?? (object?)file.TableFromRideHeight) is null)
        {
            RefuseMissing(context, file, side);
            return null;
        }

        SpringCharacteristic? characteristic = null;
        if (file.Rate is { } rate)
            characteristic = new LinearSpring(rate * Unit.NewtonPerMillimetre.InSi);
        else if (file.TableFromFreeLength is { } free)
            characteristic = ReadTable(context, $"{path}.tableFromFreeLength", free) is { } curve ? new FreeLengthSpringTable(curve) : null;
        else if (file.TableFromRideHeight is { } ride)
            characteristic = ReadRideHeightTable(context, $"{path}.tableFromRideHeight", ride);
        if (characteristic is null)
            return null;
        var before = context.Faults.Count;
        var friction = SpringFrictionReader.Read(context, PathOfSpring(both, side, spring => spring.Friction, "friction"), own?.Friction ?? file.Friction, characteristic);
        if (context.Faults.Count > before)
            return null;
        if (fitting is { HeaveRatio: <= 0 })
        {
            context.Refuse(placementPath, $"the spring's heave ratio is {fitting.HeaveRatio:G4}; it must be greater than 0 to carry the body");
            return null;
        }

        return fitting is null ? null : new Spring(characteristic, fitting) { PreloadChange = own?.PreloadChange ?? 0, Friction = friction };
    }

    /// <summary>A spring without rate and table: of one side where the other has its own, or of both.</summary>
    private static void RefuseMissing(ReadingContext context, SpringFile file, Side side)
    {
        const string Forms = "rate_N_per_mm, tableFromFreeLength, tableFromRideHeight";
        if ((file.Left ?? file.Right) is null)
            context.Refuse($"{Path}.springs", $"exactly one of {Forms} is expected; found: none is here");
        else
            context.Refuse($"{Path}.springs.{NameOf(side)}", $"the {NameOf(side)} spring has neither rate nor table: give one of {Forms} here, or for both sides in {Path}.springs");
    }

    private static SpringSideFile? OwnOf(SpringFile file, Side side) => side == Side.Left ? file.Left : file.Right;

    private static string NameOf(Side side) => side == Side.Left ? "left" : "right";

    /// <summary>Path of what the spring of one side has: its own, or that for both sides.</summary>
    /// <param name="file">The springs.</param>
    /// <param name="side">The side.</param>
    /// <param name="own">What a side may have of its own.</param>
    /// <param name="key">Its key.</param>
    public static string PathOfSpring(SpringFile file, Side side, Func<SpringSideFile, object?> own, string key) =>
        OwnOf(file, side) is { } its && own(its) is not null ? $"{Path}.springs.{NameOf(side)}.{key}" : $"{Path}.springs.{key}";

    private static RideHeightSpringTable? ReadRideHeightTable(ReadingContext context, string path, SpringTableFile file)
    {
        var curve = ReadTable(context, path, file);
        if (curve is null)
            return null;
        if (file.CompressionMm.Zip(file.Force).Contains((0, 0)))
            return new RideHeightSpringTable(curve);
        context.Refuse($"{path}.force_N", $"the force is its change from ride height, so one point of the table must be 0 N at 0 mm; total forces belong in tableFromFreeLength");
        return null;
    }

    private static PiecewiseLinear? ReadTable(ReadingContext context, string path, SpringTableFile file)
    {
        if (!context.SameLength(path, "compression_mm", file.CompressionMm, "force_N", file.Force))
            return null;
        var before = context.Faults.Count;
        for (var i = 1; i < file.Force.Count; i++)
        {
            if (file.CompressionMm[i] <= file.CompressionMm[i - 1])
                context.Refuse($"{path}.compression_mm[{i}]", $"it does not come after {file.CompressionMm[i - 1]} mm; compressions must ascend, each given once");
            if (file.Force[i] < file.Force[i - 1])
                context.Refuse($"{path}.force_N[{i}]", $"the force falls from {file.Force[i - 1]} N; a spring's force must not fall as it is compressed");
        }

        if (context.Faults.Count > before)
            return null;
        return context.Make($"{path}.compression_mm", () => PiecewiseLinear.Through([.. file.CompressionMm.Select(x => x * Unit.Millimetre.InSi)], file.Force));
    }

    /// <summary>Reads the stop of one side: as given for both, with what this side has of its own.</summary>
    private static TravelStop? ReadStop(ReadingContext context, string path, StopFile? file, Side side)
    {
        if (file is null)
            return null;
        var own = side == Side.Left ? file.Left : file.Right;
        if (own is not null)
        {
            file = file with
            {
                ClearanceMm = own.ClearanceMm ?? file.ClearanceMm,
                Force = own.Force ?? file.Force,
                AtCompressionMm = own.AtCompressionMm ?? file.AtCompressionMm,
                Exponent = own.Exponent ?? file.Exponent,
                Placement = own.Placement ?? file.Placement,
            };
            if (own.Placement is not null)
                path = $"{path}.{NameOf(side)}";
        }

        var halfTrack = context.File.Vehicle.TrackMm / 2 * Unit.Millimetre.InSi;
        if (file.Placement?.Placed is not null && context.File.Vehicle.Travel is null or { Combinations: not TravelCombinations.All })
        {
            context.Refuse($"{path}.placement.placed", $"a place is sought over the travel that the stops leave, so a stop itself cannot be placed; give mounts or motionRatios");
            return null;
        }

        var fitting = file.Placement is { } placement
            ? PlacementReader.Read(context, $"{path}.placement", placement)
            : new FixedRatioFitting(1, 1, halfTrack);
        if (fitting is { HeaveRatio: <= 0 })
        {
            context.Refuse($"{path}.placement", $"the stop's heave ratio is {fitting.HeaveRatio:G4}; it must be greater than 0: with 0 the stop would never touch");
            return null;
        }

        return fitting is null
            ? null
            : context.Make(path, () => new TravelStop
            {
                Clearance = file.ClearanceMm * Unit.Millimetre.InSi,
                Stiffness = file.Force / Math.Pow(file.AtCompressionMm * Unit.Millimetre.InSi, file.Exponent),
                Exponent = file.Exponent,
                Fitting = fitting,
            });
    }
}
