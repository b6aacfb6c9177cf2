using System.Text.Json.Nodes;
using RollRide.Mounting;
using RollRide.Packaging;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Live.Answers;

/// <summary>What stands around the dampers, as it is drawn: the left side at the design load.</summary>
internal static class SceneAnswer
{
    /// <summary>The scene of a case.</summary>
    /// <param name="study">The case.</param>
    /// <param name="bands">Where the damper to be placed fits; null where the scenario gives no room, or they were not asked for.</param>
    public static JsonObject Of(StudyCase study, IEnumerable<Band>? bands)
    {
        var vehicle = study.Vehicle;
        return new JsonObject
        {
            ["track_mm"] = Drawing.Millimetres(vehicle.Track),
            ["halfTrack_mm"] = Drawing.Millimetres(vehicle.HalfTrack),
            ["rollCentreHeight_mm"] = Drawing.Millimetres(vehicle.RollCentreHeight),
            ["cgHeight_mm"] = Drawing.Millimetres(vehicle.Body.CgHeight),
            ["hubHeight_mm"] = Drawing.Millimetres(vehicle.Unsprung.CgHeight),
            ["hasAxle"] = vehicle.Suspension.HasAxle,
            ["tyres"] = Tyres(vehicle),
            ["keepOuts"] = study.Placement is { Space: { } space } ? new JsonArray([.. space.AllKeepOuts.Select(keepOut => (JsonNode)OfKeepOut(space, keepOut))]) : new JsonArray(),
            ["bands"] = bands is null ? null : new JsonArray([.. bands.Select(band => (JsonNode)new JsonArray(Drawing.Millimetres(band.Inner), Drawing.Millimetres(band.Outer)))]),
        };
    }

    /// <summary>The left tyres, each from the road to twice the height of the hub: a sketch, as in every figure; where packaging gives the tyre's room, that is among the keep-outs.</summary>
    private static JsonArray Tyres(HalfCar vehicle)
    {
        var half = TyreOutline.Width(vehicle) / 2;
        return [.. vehicle.ContactPositions.Where(y => y > 0).Select(y => Drawing.Rectangle(y - half, y + half, 0, 2 * vehicle.Unsprung.CgHeight))];
    }

    private static JsonObject OfKeepOut(PackagingSpace space, KeepOut keepOut) => new()
    {
        ["name"] = keepOut.Name,
        ["on"] = keepOut.MovesWithAxle ? "axle" : "body",
        ["polygon"] = Drawing.Outline(RearViewOutline.Of(space, keepOut, 0, 0)),
    };

    /// <summary>The outline of a damper at a place, where packaging gives its tubes: in the rear view at ride height.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout as written.</param>
    public static JsonObject? Damper(StudyCase study, DamperLayout layout)
    {
        if (study.Placement is not { Space: { } space })
            return null;
        JsonArray? Side(Side side) => layout.On(side) is { Fitting: LiveAxleMountFitting fitting } one && space.Around(one) is { } around
            ? [.. RearViewOutline.Damper(around, fitting.AxleEnd.Y, 0, 0).Select(part => Drawing.Outline(part))]
            : null;
        return new JsonObject { ["left"] = Side(Mounting.Side.Left), ["right"] = Side(Mounting.Side.Right) };
    }
}
