using System.Text.Json.Nodes;

namespace RollRide.Tests.Studies;

/// <summary>The short scenario in two load states: as built, and with 270 kg more on springs of 62 and tyres of 290 N/mm.</summary>
internal static class LoadedShort
{
    public const double Added = 270;

    public static JsonObject Of(JsonObject scenario) => Plain(scenario).With("loadStates", JsonNode.Parse(
        """
        { "as built": {}, "laden": { "payload": [ { "mass_kg": 270, "height_mm": 1000 } ] } }
        """));

    /// <summary>The same vehicle without load states.</summary>
    public static JsonObject Plain(JsonObject scenario) => scenario
        .With("vehicle.springs.rate_N_per_mm", 62)
        .With("vehicle.tyres.stiffness_N_per_mm", 290);

    public static JsonObject Pair() => Of(ShortScenario.Pair());
}
