using RollRide.Findings;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>What would let each layout meet the targets: one row per remedy, one column per layout.</summary>
internal static class RemedyTable
{
    /// <summary>Writes the table.</summary>
    /// <param name="windows">The setting windows.</param>
    /// <param name="styles">The styles of the layouts.</param>
    public static Html Write(SettingWindowResult windows, LayoutStyles styles)
    {
        var layouts = windows.Layouts;
        var kinds = Enum.GetValues<RemedyKind>().Where(kind => layouts.Any(layout => Of(layout, kind) is not null));
        return Html.Of(
            $"""
            <div class="wide"><table{LayoutColumns.Width(layouts.Length)}>
            <thead><tr><th scope="col">Change, everything else as it is</th>{LayoutColumns.Headings(styles, [.. layouts.Select(layout => layout.Name)], _ => null)}</tr></thead>
            <tbody>
            {Row("Factor on the damper curve", layouts, RemedyCells.Setting)}{Html.Join(kinds.Select(kind => Row(RemedyCells.Name(kind), layouts, layout => Of(layout, kind) is { } remedy ? RemedyCells.Cell(remedy) : "not needed")))}
            </tbody></table></div>

            """);
    }

    private static WindowRemedy? Of(LayoutWindow layout, RemedyKind kind) => layout.Remedies.FirstOrDefault(remedy => remedy.Kind == kind);

    private static Html Row(string label, IEnumerable<LayoutWindow> layouts, Func<LayoutWindow, string> cell) => Html.Of(
        $"<tr><th scope=\"row\">{label}</th>{Html.Join(layouts.Select(layout => Html.Of($"<td data-layout=\"{layout.Name}\">{cell(layout)}</td>")))}</tr>\n");
}
