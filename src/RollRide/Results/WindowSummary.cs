using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes the setting windows of a case: <c>window.json</c> and <c>window.csv</c>.</summary>
public static class WindowSummary
{
    /// <summary>Writes verdicts and remedies.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="result">The windows.</param>
    /// <param name="warnings">The warnings of the scenario.</param>
    public static void Write(TextWriter output, SettingWindowResult result, IEnumerable<string> warnings)
    {
        ArgumentNullException.ThrowIfNull(result);
        var summary = Summary.Traced(result.Study);
        summary["warnings"] = Summary.Texts(warnings);
        summary["conclusions"] = Summary.Texts(WindowConclusions.Of(result));
        var targets = result.Targets;
        summary["targets"] = new JsonObject
        {
            ["rollDampingRatioMinimum"] = targets.RollMinimum,
            ["heaveDampingRatioMinimum"] = targets.HeaveMinimum,
            ["heaveDampingRatioMaximum"] = targets.HeaveMaximum,
            ["hopDampingRatioMinimum"] = targets.HopMinimum,
            ["trampDampingRatioMinimum"] = targets.TrampMinimum,
            ["damperVelocity_m_per_s"] = targets.Velocity,
        };
        summary["closingPosition_mm"] = result.Upright is [var only] ? only.ClosingPosition * 1e3 : null;
        summary["uprightDampers"] = new JsonArray([.. result.Upright.Select(upright => (JsonNode)new JsonObject
        {
            ["topMountStiffness_N_per_mm"] = upright.MountStiffness / 1e3,
            ["closingPosition_mm"] = upright.ClosingPosition * 1e3,
            ["layouts"] = Summary.Texts(upright.Layouts.Select(i => result.Layouts[i].Name)),
        })]);
        summary["layouts"] = new JsonArray([.. result.Layouts.Select(layout => (JsonNode)OfLayout(layout))]);
        Summary.WriteJson(output, summary);
    }

    /// <summary>Writes the windows of vertical dampers over their position, one row a position; the mount's stiffness is empty where it is rigid.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="result">The windows.</param>
    public static void WriteByPosition(TextWriter output, SettingWindowResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        using var table = new CsvTableWriter(output,
            ["lowerBinding", "upperBinding", "position_mm", "lowerCoefficient_N_s_per_m", "upperCoefficient_N_s_per_m", "open", "topMountStiffness_N_per_mm"]);
        foreach (var (upright, (position, window)) in result.Upright.SelectMany(upright => upright.ByPosition.Select(at => (upright, at))))
        {
            table.WriteRow(
                [Key(window.Lower), Key(window.Upper)],
                [position * 1e3, Finite(window.Lower.Coefficient) ?? double.NaN, window.Upper.Coefficient, window.IsOpen ? 1 : 0, upright.MountStiffness / 1e3 ?? double.NaN]);
        }
    }

    /// <summary>What compare shows of a window, for <c>summary.json</c>.</summary>
    internal static JsonObject OfVerdict(WindowVerdict verdict) => new()
    {
        ["open"] = verdict.Window.IsOpen,
        ["standing"] = verdict.Standing switch
        {
            WindowStanding.Inside => "inside",
            WindowStanding.TooSoft => "tooSoft",
            WindowStanding.TooHard => "tooHard",
            _ => "closed",
        },
        ["coefficient_N_s_per_m"] = verdict.Coefficient,
        ["lower"] = OfEdge(verdict.Window.Lower, verdict.LowerScale),
        ["upper"] = OfEdge(verdict.Window.Upper, verdict.UpperScale),
        ["laterIntervalIgnored"] = verdict.Window.HasLaterInterval,
        ["words"] = verdict.Words,
    };

    private static JsonObject OfLayout(LayoutWindow layout)
    {
        var node = new JsonObject { ["name"] = layout.Name, ["position_mm"] = layout.Position * 1e3, ["closingPosition_mm"] = layout.ClosingPosition * 1e3 };
        node["window"] = OfVerdict(layout.Verdict);
        node["modes"] = new JsonArray([.. layout.Modes.All.Select(mode => (JsonNode)new JsonObject
        {
            ["name"] = ModeNames.Key(mode.Name),
            ["naturalFrequency_Hz"] = mode.NaturalFrequency,
            ["dampingRatio"] = mode.DampingRatio,
        })]);
        node["remedies"] = new JsonArray([.. layout.Remedies.Select(remedy => (JsonNode)OfRemedy(remedy))]);
        return node;
    }

    private static JsonObject OfRemedy(WindowRemedy remedy)
    {
        var (key, scale) = remedy.Kind switch
        {
            RemedyKind.DamperPosition => ("damperPosition_mm", 1e3),
            RemedyKind.SpringPosition => ("springPosition_mm", 1e3),
            RemedyKind.AntiRollBar => ("antiRollBar_N_m_per_deg", Math.PI / 180),
            RemedyKind.Track => ("track_mm", 1e3),
            _ => ("compressionShareOfMean", 1.0),
        };
        var node = new JsonObject { ["change"] = key, ["present"] = remedy.Present * scale, ["needed"] = remedy.Needed * scale, ["sentence"] = remedy.Sentence };
        if (remedy.Mounts is { } mounts)
        {
            node["axleEnd_mm"] = OfPoint(mounts.AxleEnd);
            node["bodyEnd_mm"] = OfPoint(mounts.BodyEnd);
        }

        return node;
    }

    // A mount is given to a thousandth of a millimetre: what rounding adds beyond is no part of it.
    private static JsonArray OfPoint(Point3 point) => [.. new[] { point.X, point.Y, point.Z }.Select(metres => (JsonNode)Math.Round(metres * 1e3, 3))];

    private static JsonObject OfEdge(WindowEdge edge, double scale) => new()
    {
        ["coefficient_N_s_per_m"] = Finite(edge.Coefficient),
        ["scaleOnCurve"] = Finite(scale),
        ["binding"] = edge.Binding is { } target ? DampingTargetNames.Words(target) : null,
    };

    private static string Key(WindowEdge edge) => edge.Binding is { } target ? DampingTargetNames.Words(target) : "none";

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
