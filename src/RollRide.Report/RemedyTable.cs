using System.Collections.Immutable;
using RollRide.Findings;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>What would let each layout meet the targets: one row per remedy, one column per layout.</summary>
internal static class RemedyTable
{
    private static readonly RemedyKind[] Tried = [RemedyKind.DamperPosition, RemedyKind.SpringPosition, RemedyKind.AntiRollBar, RemedyKind.Track];

    /// <summary>Writes the table.</summary>
    /// <param name="input">What the report is written from.</param>
    /// <param name="states">The setting windows in each load state; of several the table is of the windows that they share.</param>
    public static Html Write(ReportInput input, IReadOnlyList<SettingWindowResult> states)
    {
        var (windows, alone) = (Windows([.. states.Select(state => state.JudgedAs(input.Verdict))]), states[0].Study.Vehicle.SecondAxle is null ? null : Windows(states));
        Column[] columns = [.. input.Verdict.Layouts.Select((layout, i) => new Column(layout, windows[i], alone?[i], states[0].Layouts[i].Remedies, input.Changes[i]))];
        RemedyKind[] kinds = [.. Tried.Where(kind => columns.Any(column => Of(column, kind) is not null || column.Changes.Any(change => change.Kind == kind)))];
        return Html.Of(
            $"""
            <div class="wide"><table{LayoutColumns.Width(columns.Length)}>
            <thead><tr><th scope="col">Change, everything else as it is</th>{LayoutColumns.Headings(input.Styles, [.. columns.Select(column => column.Layout.Name)], _ => null)}</tr></thead>
            <tbody>
            {Row("Factor on the damper curve", columns, column => RemedyCells.Setting(column.Window, column.Alone, column.Changes))}{Html.Join(kinds.Select(kind => Row(RemedyCells.Name(kind), columns, column => RemedyCells.Cell(kind, column.Layout, column.Changes))))}{(kinds.Length > 0 ? Row(RemedyCells.Name(RemedyKind.CompressionShare), columns, Split) : default)}
            </tbody></table></div>

            """);
    }

    private static WindowVerdict[] Windows(IReadOnlyList<SettingWindowResult> states) =>
        states.Count > 1 ? [.. CommonWindow.Of(states).Select(common => common.Verdict)] : [.. states[0].Layouts.Select(layout => layout.Verdict)];

    private static string Split(Column column) =>
        RemedyCells.Split(Of(column, RemedyKind.CompressionShare), column.Layout, column.Changes);

    private static WindowRemedy? Of(Column column, RemedyKind kind) => column.Remedies.FirstOrDefault(remedy => remedy.Kind == kind);

    private static Html Row(string label, IEnumerable<Column> columns, Func<Column, string> cell) => Html.Of(
        $"<tr class=\"text\"><th scope=\"row\">{label}</th>{Html.Join(columns.Select(column => Html.Of($"<td data-layout=\"{column.Layout.Name}\">{cell(column)}</td>")))}</tr>\n");

    private sealed record Column(LayoutVerdict Layout, WindowVerdict Window, WindowVerdict? Alone, ImmutableArray<WindowRemedy> Remedies, ImmutableArray<TriedChange> Changes);
}
