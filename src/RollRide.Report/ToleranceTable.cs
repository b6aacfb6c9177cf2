using RollRide.Numerics;
using RollRide.Plots;
using RollRide.Sweeps;

namespace RollRide.Report;

/// <summary>How far each valving may stray before a target is lost: one row per valving.</summary>
internal static class ToleranceTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="result">The valvings.</param>
    public static Html Write(RobustResult result) => Html.Of(
        $"""
        <div class="wide"><table>
        <thead><tr><th scope="col">Valving</th><th scope="col">Loses a target with less force by, %</th><th scope="col">with more force by, %</th><th scope="col">Tolerance for the drawing</th>{(result.Task is null ? default : Html.Of($"<th scope=\"col\">Vehicles that miss a target</th>"))}<th scope="col">Ride over the {result.Tuning.Task.TradeOff.RidePhase}{(result.Layouts[0].Robust.Heave.InStates.Length > 1 ? ", worst state" : "")}, m/s²</th></tr></thead>
        <tbody>
        {Html.Join(result.Valvings.Select(Row))}</tbody></table></div>

        """);

    private static Html Row((string Name, RobustValving Valving) of)
    {
        var valving = of.Valving;
        var missing = valving.Samples == 0 ? default : Html.Of($"<td>{valving.Missing} of {valving.Samples}</td>");
        return Html.Of($"<tr><th scope=\"row\">{of.Name}</th><td>{Margin(valving.Softer)}</td><td>{Margin(valving.Harder)}</td><td>{(valving.Tolerance > 0 ? $"± {PlotText.Number(Unit.Percent.Of(valving.Tolerance), 0)} %" : "none")}</td>{missing}<td>{(valving.Ride is { } ride ? PlotText.Number(ride, 2) : "–")}</td></tr>\n");
    }

    private static string Margin(double share) => !double.IsFinite(share) ? "no damper reaches it" : share < 0 ? $"lost already, {PlotText.Number(Unit.Percent.Of(-share), 1)}" : PlotText.Number(Unit.Percent.Of(share), 1);
}
