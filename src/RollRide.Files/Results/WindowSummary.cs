using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes the setting windows of a case: <c>window.json</c> and <c>window.csv</c>.</summary>
public static class WindowSummary
{
    /// <summary>What stands in the place of a load state's name where a row holds for all of them.</summary>
    public const string EveryLoadState = "every load state";

    /// <summary>Writes verdicts and remedies, and of several load states the settings that serve all.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">The windows in each load state, or those of the vehicle as written alone.</param>
    /// <param name="warnings">The warnings of the scenario.</param>
    public static void Write(TextWriter output, IReadOnlyList<SettingWindowResult> states, IEnumerable<string> warnings)
    {
        ArgumentNullException.ThrowIfNull(states);
        Summary.WriteJson(output, LoadStates.Joined(warnings, [.. states.Select(result => (result.Study, Found(result)))], states.Count > 1 ? OfCommon(CommonWindow.Of(states)) : null));
    }

    /// <summary>
    /// Writes the windows of vertical dampers over their position, one row per position; the mount's stiffness is empty where it is rigid. Of
    /// several load states the rows of what serves all follow, where the same layouts share a mount in all of them; there no stiffness is given.
    /// </summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">The windows in each load state, or those of the vehicle as written alone.</param>
    public static void WriteByPosition(TextWriter output, IReadOnlyList<SettingWindowResult> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        using var table = new CsvTableWriter(output,
            [.. LoadStates.Columns(states[0].Study), "lowerBinding", "upperBinding", "position_mm", "lowerCoefficient_N_s_per_m", "upperCoefficient_N_s_per_m", "open", "topMountStiffness_N_per_mm"]);
        void Add(IEnumerable<string> load, UprightWindows upright)
        {
            foreach (var (position, window) in upright.ByPosition)
            {
                table.WriteRow(
                    [.. load, Key(window.Lower), Key(window.Upper)],
                    [Unit.Millimetre.Of(position), Finite(window.Lower.Coefficient) ?? double.NaN, window.Upper.Coefficient, window.IsOpen ? 1 : 0, Unit.NewtonPerMillimetre.Of(upright.MountStiffness) ?? double.NaN]);
            }
        }

        foreach (var result in states)
        {
            foreach (var upright in result.Upright)
                Add(LoadStates.Fields(result.Study), upright);
        }

        if (states.Count < 2)
            return;
        foreach (var upright in CommonWindow.OfUpright(states))
            Add([EveryLoadState], upright);
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
        ["words"] = WindowWords.Of(verdict),
    };

    private static JsonObject Found(SettingWindowResult result)
    {
        var targets = result.Targets;
        return new JsonObject
        {
            ["conclusions"] = Summary.Texts(WindowConclusions.Of(result)),
            ["targets"] = new JsonObject
            {
                ["rollDampingRatioMinimum"] = targets.RollMinimum,
                ["heaveDampingRatioMinimum"] = targets.HeaveMinimum,
                ["heaveDampingRatioMaximum"] = targets.HeaveMaximum,
                ["hopDampingRatioMinimum"] = targets.HopMinimum,
                ["trampDampingRatioMinimum"] = targets.TrampMinimum,
                ["damperVelocity_m_per_s"] = targets.Velocity,
            },
            ["closingPosition_mm"] = result.Upright is [var only] ? Unit.Millimetre.Of(only.ClosingPosition) : null,
            ["uprightDampers"] = new JsonArray([.. result.Upright.Select(upright => (JsonNode)new JsonObject
            {
                ["topMountStiffness_N_per_mm"] = Unit.NewtonPerMillimetre.Of(upright.MountStiffness),
                ["closingPosition_mm"] = Unit.Millimetre.Of(upright.ClosingPosition),
                ["layouts"] = Summary.Texts(upright.Layouts.Select(i => result.Layouts[i].Name)),
            })]),
            ["layouts"] = new JsonArray([.. result.Layouts.Select(layout => (JsonNode)OfLayout(layout, result.Study))]),
        };
    }

    private static JsonObject OfCommon(IReadOnlyList<CommonWindow> windows)
    {
        static JsonObject OfLayout(CommonWindow common)
        {
            var window = OfVerdict(common.Verdict);
            window["lower"]!["loadState"] = common.LowerLoad;
            window["upper"]!["loadState"] = common.UpperLoad;
            window["missing_N_s_per_m"] = common.Missing is { } missing ? Finite(missing) : null;
            return new JsonObject { ["name"] = common.Name, ["window"] = window };
        }

        return new JsonObject
        {
            ["conclusions"] = Summary.Texts(windows.Select(WindowWords.Of)),
            ["common"] = new JsonArray([.. windows.Select(window => (JsonNode)OfLayout(window))]),
        };
    }

    private static JsonObject OfLayout(LayoutWindow layout, StudyCase study)
    {
        var node = new JsonObject { ["name"] = layout.Name, ["position_mm"] = Unit.Millimetre.Of(layout.Position), ["closingPosition_mm"] = Unit.Millimetre.Of(layout.ClosingPosition) };
        node["window"] = OfVerdict(layout.Verdict);
        if (layout.OnVehicle is { } vehicle)
            node["onVehicle"] = new JsonObject { ["closingPosition_mm"] = Unit.Millimetre.Of(layout.ClosingPositionOnVehicle), ["window"] = OfVerdict(vehicle), ["rollDampingRatio"] = vehicle.Modes.Roll.DampingRatio };
        node["modes"] = new JsonArray([.. layout.Verdict.Modes.All.Select(mode => (JsonNode)new JsonObject
        {
            ["name"] = ModeNames.Key(mode.Name),
            ["naturalFrequency_Hz"] = mode.NaturalFrequency,
            ["dampingRatio"] = mode.DampingRatio,
        })]);
        node["remedies"] = new JsonArray([.. layout.Remedies.Select(remedy => (JsonNode)OfRemedy(remedy, study))]);
        return node;
    }

    private static JsonObject OfRemedy(WindowRemedy remedy, StudyCase study)
    {
        var (name, unit) = remedy.Kind switch
        {
            RemedyKind.DamperPosition => ("damperPosition", Unit.Millimetre),
            RemedyKind.SpringPosition => ("springPosition", Unit.Millimetre),
            RemedyKind.AntiRollBar => ("antiRollBar", Unit.NewtonMetrePerDegree),
            RemedyKind.Track => ("track", Unit.Millimetre),
            _ => ("compressionShareOfMean", Unit.One),
        };
        var node = new JsonObject { ["change"] = unit.KeyOf(name), ["present"] = unit.Of(remedy.Present), ["needed"] = unit.Of(remedy.Needed), ["sentence"] = RemedyWords.Of(remedy, study) };
        if (remedy.Mounts is { } mounts)
        {
            node["axleEnd_mm"] = OfPoint(mounts.AxleEnd);
            node["bodyEnd_mm"] = OfPoint(mounts.BodyEnd);
        }

        return node;
    }

    // A mount is given to a thousandth of a millimetre: what rounding adds beyond is no part of it.
    private static JsonArray OfPoint(Point3 point) => [.. new[] { point.X, point.Y, point.Z }.Select(metres => (JsonNode)Math.Round(Unit.Millimetre.Of(metres), 3))];

    private static JsonObject OfEdge(WindowEdge edge, double scale) => new()
    {
        ["coefficient_N_s_per_m"] = Finite(edge.Coefficient),
        ["scaleOnCurve"] = Finite(scale),
        ["binding"] = edge.Binding is { } target ? DampingTargetNames.Words(target) : null,
    };

    private static string Key(WindowEdge edge) => edge.Binding is { } target ? DampingTargetNames.Words(target) : "none";

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
