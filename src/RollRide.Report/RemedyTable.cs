using RollRide.Findings;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>What would let each layout meet the targets: one row per remedy, one column per layout.</summary>
internal static class RemedyTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="states">The setting windows in each load state; of several the table is of the windows that they share.</param>
    /// <param name="styles">The styles of the layouts.</param>
    public static Html Write(IReadOnlyList<SettingWindowResult> states, LayoutStyles styles)
    {
        var layouts = states[0].Layouts;
        WindowVerdict[] verdicts = states.Count > 1 ? [.. CommonWindow.Of(states).Select(common => common.Verdict)] : [.. layouts.Select(layout => layout.Verdict)];
        var kinds = Enum.GetValues<RemedyKind>().Where(kind => layouts.Any(layout => Of(layout, kind) is not null));
        return Html.Of(
            $"""
            <div class="wide"><table{LayoutColumns.Width(layouts.Length)}>
            <thead><tr><th scope="col">Change, everything else as it is</th>{LayoutColumns.Headings(styles, [.. layouts.Select(layout => layout.Name)], _ => null)}</tr></thead>
            <tbody>
            {Row("Factor on the damper curve", layouts, layout => RemedyCells.Setting(verdicts[layouts.IndexOf(layout)]))}{Html.Join(kinds.Select(kind => Row(RemedyCells.Name(kind), layouts, layout => Of(layout, kind) is { } remedy ? RemedyCells.Cell(remedy) : "not needed")))}
            </tbody></table></div>

            """);
    }

    private static WindowRemedy? Of(LayoutWindow layout, RemedyKind kind) => layout.Remedies.FirstOrDefault(remedy => remedy.Kind == kind);

    private static Html Row(string label, IEnumerable<LayoutWindow> layouts, Func<LayoutWindow, string> cell) => Html.Of(
        $"<tr><th scope=\"row\">{label}</th>{Html.Join(layouts.Select(layout => Html.Of($"<td data-layout=\"{layout.Name}\">{cell(layout)}</td>")))}</tr>\n");
}
