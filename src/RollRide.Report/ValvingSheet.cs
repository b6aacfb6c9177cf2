using RollRide.Damping;
using RollRide.Numerics;
using RollRide.Plots;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Sweeps;
using static System.FormattableString;

namespace RollRide.Report;

/// <summary>The sheet that goes to the damper workshop: force at the usual test velocities, compression and rebound.</summary>
public static class ValvingSheet
{
    private const string Beyond = "*";

    /// <summary>The sheets, each a file for the workshop.</summary>
    /// <param name="verdict">The verdict: a scaled curve that it asks for has its own sheet.</param>
    /// <param name="tuning">The dampers tuned, beside what they were; null where nothing was tuned.</param>
    /// <param name="robust">How the tuned dampers hold: their tolerance, and those tuned for all states; null where that is not known.</param>
    public static IReadOnlyList<WorkshopSheet> Of(Verdict verdict, TuningResult? tuning, RobustResult? robust = null) =>
        [.. Sheets(verdict, tuning, robust).Select(sheet => new WorkshopSheet(sheet.Name, sheet.Curve, sheet.Tolerance))];

    /// <summary>Writes the table.</summary>
    /// <param name="verdict">The verdict: a scaled curve that it asks for has its own columns.</param>
    /// <param name="tuning">The dampers tuned, beside what they were; null where nothing was tuned.</param>
    /// <param name="robust">How the tuned dampers hold: their tolerance, and those tuned for all states; null where that is not known.</param>
    internal static Html Write(Verdict verdict, TuningResult? tuning, RobustResult? robust = null)
    {
        var study = verdict.States[0].Study;
        var sheets = Sheets(verdict, tuning, robust);
        Damper[] dampers = [.. sheets.Select(sheet => sheet.Of).Distinct()];
        var isExtended = sheets.Any(sheet => Valving.StandardTestVelocities.Any(v => IsBeyond(sheet.Curve, v) || IsBeyond(sheet.Curve, -v)));
        var hasScatter = dampers.Any(damper => damper.ForceTolerance is null && study.ToleranceOf(damper) is not null);
        var hasTolerance = sheets.Exists(sheet => sheet.Tolerance is not null);
        return Html.Of(
            $"""
            <table><caption>Valving sheet: force in N at the usual test velocities in m/s</caption>
            <thead><tr><th scope="col" colspan="2">Damper</th>{(hasTolerance ? Html.Of($"<th scope=\"col\">Tolerance</th>") : default)}{Html.Join(Valving.StandardTestVelocities.Select(v => Html.Of($"<th scope=\"col\">{Invariant($"{v:F2}")}</th>")))}</tr></thead><tbody>
            {Html.Join(sheets.Select(sheet => Html.Of($"{Row(sheet, Html.Of($"<th scope=\"rowgroup\" rowspan=\"2\">{sheet.Name}</th>"), hasTolerance ? Html.Of($"<td rowspan=\"2\">{Tolerance(sheet.Tolerance)}</td>") : default, "compression", 1)}{Row(sheet, default, default, "rebound", -1)}")))}</tbody></table>
            <p class="note">Force of the valves, {Others(dampers)}.{(isExtended ? $" {Beyond} beyond the measured range, extended straight." : "")}{(hasScatter ? Invariant($" Tolerance: {Unit.Percent.Of(AssumedTolerances.Kept):F0} % of the dampers, by the scatter that the scenario's sweep assumes.") : "")}</p>

            """);
    }

    private static List<Sheet> Sheets(Verdict verdict, TuningResult? tuning, RobustResult? robust)
    {
        Sheet Of(string name, Damper damper, ForceVelocityCurve curve) => new(name, damper, curve, verdict.States[0].Study.ToleranceOf(damper));
        var layouts = verdict.States[0].Study.Layouts;
        List<Sheet> sheets = [.. layouts.SelectMany(layout => new[] { layout.Damper, layout.On(Mounting.Side.Right).Damper }).Distinct().Select(damper => Of(damper.Name, damper, damper.Curve))];
        if (verdict is { Nearest: { } nearest, Remedy: { } remedy })
        {
            var damper = layouts[nearest.Index].Damper;
            sheets.Add(Of(Invariant($"{damper.Name} × {remedy.CurveScale:0.00}"), damper, damper.Curve.Scaled(remedy.CurveScale)));
        }

        if (tuning is not null)
        {
            sheets.AddRange(tuning.Layouts.Select((layout, i) => robust is { IsOwn: false }
                ? new Sheet($"tuned, “{layout.Name}”", layout.Tuned.Before.Damper, layout.Tuned.Drawn.Curve, robust.Layouts[i].Robust.ForceTolerance)
                : Of($"tuned, “{layout.Name}”", layout.Tuned.Before.Damper, layout.Tuned.Drawn.Curve)));
        }

        if (robust is { IsOwn: true })
            sheets.AddRange(robust.Layouts.Select(layout => new Sheet($"robust, “{layout.Name}”", layout.Robust.Tuned.Before.Damper, layout.Robust.Tuned.Drawn.Curve, layout.Robust.ForceTolerance)));
        return sheets;
    }

    private static Html Row(Sheet sheet, Html name, Html tolerance, string way, int sign) => Html.Of(
        $"<tr>{name}<td>{way}</td>{tolerance}{Html.Join(Valving.StandardTestVelocities.Select(v => Html.Of($"<td>{PlotText.Number(Math.Abs(sheet.Curve.Force(sign * v)), 0)}{(IsBeyond(sheet.Curve, sign * v) ? Beyond : "")}</td>")))}</tr>\n");

    private static string Tolerance(ForceTolerance? agreed) =>
        agreed is { } tolerance ? Invariant($"± {Unit.Percent.Of(tolerance.Shares.Min()):0.#}{(tolerance.IsOne ? "" : Invariant($" to {Unit.Percent.Of(tolerance.Shares.Max()):0.#}"))} %") : "–";

    private static bool IsBeyond(ForceVelocityCurve curve, double velocity) => velocity > curve.MaximumVelocity || velocity < curve.MinimumVelocity;

    /// <summary>What comes on top of the valves.</summary>
    private static string Others(IEnumerable<Damper> dampers) => $"without {string.Join("; ", dampers.Select(damper => Invariant($"{damper.Friction:0.#} N of friction and {damper.GasForce:0.#} N of gas force ({damper.Name})")))}";

    /// <summary>What is asked of the workshop: forces over velocity, of a damper as it is or changed.</summary>
    private sealed record Sheet(string Name, Damper Of, ForceVelocityCurve Curve, ForceTolerance? Tolerance);
}
