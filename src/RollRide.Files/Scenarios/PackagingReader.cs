using System.Collections.Immutable;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Turns the room around the dampers of a file into a space to search.</summary>
internal static class PackagingReader
{
    /// <summary>What the tyre's room is called.</summary>
    public const string Tyre = "tyre";

    private const string Path = "packaging";

    /// <summary>Reads it; null where it is not given or after a fault.</summary>
    public static PackagingSpace? Read(ReadingContext context)
    {
        if (context.File.Packaging is not { } file || context.Geometry is not { } geometry)
            return null;
        if (context.File.Vehicle.Suspension is { HasAxle: false } suspension)
        {
            context.Refuse(Path, $"dampers are placed on a live axle, and this vehicle has {suspension.Noun}");
            return null;
        }

        double halfTrack = context.File.Vehicle.TrackMm / 2;
        var toTyreLift = geometry.Travel is { Combinations: TravelCombinations.UntilStopsTouchOrTyresLift };
        if (toTyreLift && context.Vehicle is null)
            return null;
        if ((toTyreLift ? context.Vehicle!.Envelope : TravelEnvelope.Of(geometry.Travel, context.Stops.Bump, context.Stops.Rebound, halfTrack * Unit.Millimetre.InSi, context.HasUnlikeStops ? context.RightStops : null)) is not { } travel)
        {
            context.Refuse(Path, $"without vehicle.travel there is nothing to keep clear over; give bump_mm, rebound_mm and roll_deg there, or bump and rebound stops that both heave and roll reach");
            return null;
        }

        if (!context.File.Dampers.TryGetValue(file.Damper, out var damper))
        {
            context.Refuse($"{Path}.damper", $"there is no such damper; known: {string.Join(", ", context.File.Dampers.Keys)}");
            return null;
        }

        if (damper.ClosedLengthMm is not { } closed || damper.ExtendedLengthMm is not { } extended)
        {
            context.Refuse($"{Path}.damper", $"to be placed, damper “{file.Damper}” needs closedLength_mm and extendedLength_mm");
            return null;
        }

        var (envelope, mounts) = (file.Envelope, file.Mounts);
        var before = context.Faults.Count;
        foreach (var (key, length) in (ReadOnlySpan<(string, double)>)[("upperLength_mm", envelope.UpperLengthMm), ("lowerLength_mm", envelope.LowerLengthMm)])
        {
            if (length > closed)
                context.Warn($"{Path}.envelope.{key}", $"this part is longer than the closed damper ({closed:0.###} mm)");
        }

        CheckFaces(context, file);
        if (mounts.BodyEndHeightMm <= mounts.AxleEndHeightMm)
            context.Refuse($"{Path}.mounts.bodyEndHeight_mm", $"the body end must lie above the axle end ({mounts.AxleEndHeightMm} mm)");
        if (closed >= extended || context.Faults.Count > before)
            return null;
        return context.Make(Path, () => new PackagingSpace
        {
            RollCentreHeight = geometry.RollCentreHeight,
            Travel = travel,
            Damper = new DamperEnvelope
            {
                UpperDiameter = envelope.UpperDiameterMm * Unit.Millimetre.InSi,
                UpperLength = envelope.UpperLengthMm * Unit.Millimetre.InSi,
                LowerDiameter = envelope.LowerDiameterMm * Unit.Millimetre.InSi,
                LowerLength = envelope.LowerLengthMm * Unit.Millimetre.InSi,
                UpperBush = envelope.UpperBushMm * Unit.Millimetre.InSi,
                LowerBush = envelope.LowerBushMm * Unit.Millimetre.InSi,
                ClosedLength = closed * Unit.Millimetre.InSi,
                ExtendedLength = extended * Unit.Millimetre.InSi,
            },
            Mounts = new DamperMounts
            {
                AxleEndHeight = mounts.AxleEndHeightMm * Unit.Millimetre.InSi,
                BodyEndHeight = mounts.BodyEndHeightMm * Unit.Millimetre.InSi,
                AxleEndForward = mounts.AxleEndForwardMm * Unit.Millimetre.InSi,
                BodyEndForward = mounts.BodyEndForwardMm * Unit.Millimetre.InSi,
                BodyEndOutboard = mounts.BodyEndOutboardMm * Unit.Millimetre.InSi,
            },
            Rail = file.FrameRail is { } rail ? ToKeepOut("frame rail", rail, movesWithAxle: false) : null,
            KeepOuts = KeepOuts(context, file, halfTrack),
            ClearanceBetweenDampers = file.BetweenDampersMm * Unit.Millimetre.InSi,
            SearchTo = halfTrack * Unit.Millimetre.InSi,
        });
    }

    /// <summary>Each rectangle's faces must be in order.</summary>
    private static void CheckFaces(ReadingContext context, PackagingFile file)
    {
        IEnumerable<(string, KeepOutFile)> Named(string key, IReadOnlyDictionary<string, KeepOutFile>? rooms) =>
            (rooms ?? new Dictionary<string, KeepOutFile>()).Select(entry => (ReadingContext.PathOfEntry($"{Path}.{key}", entry.Key), entry.Value));

        IEnumerable<(string, KeepOutFile)> rooms = [.. Named("onAxle", file.OnAxle), .. Named("onBody", file.OnBody)];
        foreach (var (path, room) in file.FrameRail is { } rail ? rooms.Prepend(($"{Path}.frameRail", rail)) : rooms)
        {
            if (room.OuterMm < room.InnerMm)
                context.Refuse($"{path}.outer_mm", $"the outer face lies inboard of the inner face ({room.InnerMm} mm); it must not be less");
            if (room.TopMm < room.BottomMm)
                context.Refuse($"{path}.top_mm", $"the top lies below the bottom ({room.BottomMm} mm); it must not be less");
        }
    }

    private static ImmutableArray<KeepOut> KeepOuts(ReadingContext context, PackagingFile file, double halfTrack)
    {
        var tyre = file.Tyre;
        double allowance = tyre.GrowthMm + tyre.ChainMm;
        double halfWidth = (tyre.WidthMm / 2) + ((context.File.Vehicle.Tyres.DualSpacingMm ?? 0) / 2) + allowance;
        var tyreRoom = new KeepOutFile
        {
            InnerMm = halfTrack - halfWidth,
            OuterMm = halfTrack + halfWidth,
            BottomMm = tyre.CentreHeightMm - tyre.RadiusMm - allowance,
            TopMm = tyre.CentreHeightMm + tyre.RadiusMm + allowance,
            ClearanceMm = tyre.ClearanceMm,
        };
        return
        [
            ToKeepOut(Tyre, tyreRoom, movesWithAxle: true),
            .. (file.OnAxle ?? new Dictionary<string, KeepOutFile>()).Select(entry => ToKeepOut(entry.Key, entry.Value, movesWithAxle: true)),
            .. (file.OnBody ?? new Dictionary<string, KeepOutFile>()).Select(entry => ToKeepOut(entry.Key, entry.Value, movesWithAxle: false)),
        ];
    }

    private static KeepOut ToKeepOut(string name, KeepOutFile file, bool movesWithAxle) => new()
    {
        Name = name,
        MovesWithAxle = movesWithAxle,
        Inner = file.InnerMm * Unit.Millimetre.InSi,
        Outer = file.OuterMm * Unit.Millimetre.InSi,
        Bottom = file.BottomMm * Unit.Millimetre.InSi,
        Top = file.TopMm * Unit.Millimetre.InSi,
        Clearance = file.ClearanceMm * Unit.Millimetre.InSi,
    };
}
