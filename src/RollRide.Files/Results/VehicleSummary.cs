using System.Text.Json.Nodes;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>What a layout is on the whole vehicle, for result files.</summary>
internal static class VehicleSummary
{
    /// <summary>What compare and modes say of a layout on the vehicle.</summary>
    /// <param name="layout">The layout.</param>
    /// <param name="all">All layouts, of which the one with the most roll damping on the axle alone is what losses count against.</param>
    public static JsonObject Of(LayoutOnVehicle layout, IEnumerable<LayoutOnVehicle> all)
    {
        var reference = LayoutOnVehicle.ReferenceOf(all);
        var found = new JsonObject
        {
            ["rollDampingRatio"] = layout.Modes.Roll.DampingRatio,
            ["rollDampingRatioAxleAlone"] = layout.Alone.Roll.DampingRatio,
            ["lossMadeUpByOtherAxle"] = layout.MadeUpAgainst(reference),
            ["endsRollNearlyOnTheirOwn"] = layout.Modes.RollsInParts,
            ["modes"] = new JsonArray([.. layout.Modes.All.Select(mode => (JsonNode)OfMode(mode))]),
            ["settingWindow"] = layout.Window is { } window ? WindowSummary.OfVerdict(window) : null,
        };
        if (layout.Transfer is { } transfer)
        {
            found["frontShareOfLoadTransferSteady"] = transfer.Steady;
            found["frontShareOfLoadTransferLargestDeviation"] = transfer.LargestDeviation;
            found["frontShareOfLoadTransferLargestDeviationTime_s"] = transfer.LargestDeviationTime;
        }

        return found;
    }

    /// <summary>The roll mode over the stiffness of the frame.</summary>
    /// <param name="frames">The modes with each frame.</param>
    public static JsonArray OfFrames(FrameSweep frames) => new([.. frames.Points.Select(point => (JsonNode)new JsonObject
    {
        ["torsionalStiffness_N_m_per_deg"] = Unit.NewtonMetrePerDegree.Of(point.Stiffness),
        ["rollDampingRatio"] = point.Modes.Roll.DampingRatio,
        ["rollNaturalFrequency_Hz"] = point.Modes.Roll.NaturalFrequency,
        ["twistNaturalFrequency_Hz"] = point.Modes[VehicleModeName.Twist]?.NaturalFrequency,
        ["endsRollNearlyOnTheirOwn"] = point.Modes.RollsInParts,
    }),
    new JsonObject { ["rigid"] = true, ["rollDampingRatio"] = frames.Rigid.Roll.DampingRatio, ["rollNaturalFrequency_Hz"] = frames.Rigid.Roll.NaturalFrequency }]);

    private static JsonObject OfMode(VehicleMode mode) => new()
    {
        ["name"] = VehicleModeNames.Key(mode.Name),
        ["naturalFrequency_Hz"] = mode.NaturalFrequency,
        ["dampedFrequency_Hz"] = mode.DampedFrequency,
        ["dampingRatio"] = mode.DampingRatio,
        ["overdamped"] = mode.IsOverdamped,
        ["participation"] = new JsonObject(mode.Participation.OrderBy(share => share.Key).Select(share => KeyValuePair.Create(VehicleModeNames.Key(share.Key), (JsonNode?)share.Value))),
        ["dampingShares"] = mode.DampingShares is not { } shares ? null : new JsonObject
        {
            ["studiedAxleLeft"] = shares.OwnLeft,
            ["studiedAxleRight"] = shares.OwnRight,
            ["otherAxleLeft"] = shares.SecondLeft,
            ["otherAxleRight"] = shares.SecondRight,
            ["tyresAndFrame"] = shares.Rest,
        },
    };
}
