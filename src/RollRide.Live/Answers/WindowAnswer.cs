using System.Text.Json.Nodes;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Live.Answers;

/// <summary>The setting windows of a case as the page draws them; coefficients in N·s/m, null where there is no end.</summary>
internal static class WindowAnswer
{
    /// <summary>Adds the windows to an answer.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="result">The windows.</param>
    public static void Add(JsonObject answer, SettingWindowResult result)
    {
        answer["velocity_m_per_s"] = result.Targets.Velocity;
        answer["layouts"] = new JsonArray([.. result.Layouts.Select(layout => (JsonNode)OfLayout(layout))]);
        answer["upright"] = new JsonArray([.. result.Upright.Select(upright => (JsonNode)OfUpright(upright, result))]);
        answer["sentences"] = new JsonArray([.. WindowConclusions.Of(result).Select(sentence => JsonValue.Create(sentence))]);
    }

    private static JsonObject OfLayout(LayoutWindow layout)
    {
        var json = OfWindow(layout.Verdict.Window);
        json["name"] = layout.Name;
        json["position_mm"] = Rounded(layout.Position);
        json["closing_mm"] = Rounded(layout.ClosingPosition);
        json["present"] = layout.Verdict.Coefficient;
        json["standing"] = layout.Verdict.Standing switch
        {
            WindowStanding.Inside => "inside",
            WindowStanding.TooSoft => "tooSoft",
            WindowStanding.TooHard => "tooHard",
            _ => "closed",
        };
        json["binds"] = WindowWords.Of(layout.Verdict);
        return json;
    }

    private static JsonObject OfUpright(UprightWindows upright, SettingWindowResult result) => new()
    {
        ["layouts"] = new JsonArray([.. upright.Layouts.Select(i => JsonValue.Create(result.Layouts[i].Name))]),
        ["topMountStiffness_N_per_mm"] = Unit.NewtonPerMillimetre.Of(upright.MountStiffness),
        ["closing_mm"] = Rounded(upright.ClosingPosition),
        ["byPosition"] = new JsonArray([.. upright.ByPosition.Select(at =>
        {
            var json = OfWindow(at.Window);
            json["position_mm"] = Drawing.Millimetres(at.Position);
            return (JsonNode)json;
        })]),
    };

    private static JsonObject OfWindow(SettingWindow window) => new()
    {
        ["isOpen"] = window.IsOpen,
        ["from"] = Finite(window.Lower.Coefficient),
        ["to"] = Finite(window.Upper.Coefficient),
    };

    private static double? Rounded(double? metres) => metres is { } length ? Drawing.Millimetres(length) : null;

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
