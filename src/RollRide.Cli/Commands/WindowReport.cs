using System.Globalization;
using RollRide.Cli.Terminals;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Prints the setting windows: one row per quantity, one column per layout, then the conclusions.</summary>
internal static class WindowReport
{
    public static void Write(TextWriter output, IReadOnlyList<SettingWindowResult> states, WrittenFolder folder)
    {
        var study = states[0].Study;
        var targets = states[0].Targets;
        output.WriteLine($"{study.Provenance.Scenario} — {study.Vehicle.Name}");
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Targets at {targets.Velocity:0.###} m/s damper velocity: {string.Join(", ", targets.All.Select(target => string.Create(CultureInfo.InvariantCulture, $"{DampingTargetNames.Words(target)} {targets.Limit(target):0.###}")))}."));
        StudyReport.WriteStates(output, states, result => result.Study, result => WriteTable(output, result), states.Count > 1 ? WindowConclusions.OnWindows : WindowConclusions.Of);
        if (states.Count > 1)
            WriteCommon(output, CommonWindow.Of(states), WindowConclusions.OnRemedies(states.MaxBy(state => state.Study.Load!.Of(study.Vehicle.Body).Mass)!));
        StudyReport.WriteEnd(output, folder);
    }

    private static void WriteTable(TextWriter output, SettingWindowResult result)
    {
        var table = new TextTable(["", "unit", .. result.Layouts.Select(layout => layout.Name)]);
        void Add(string label, string unit, Func<LayoutWindow, string> value) => table.Add([label, unit, .. result.Layouts.Select(value)]);

        Add("Equivalent upright position", "mm", layout => Number(Unit.Millimetre.Of(layout.Position), 0));
        Add("Window closes at", "mm", layout => Number(Unit.Millimetre.Of(layout.ClosingPosition), 0));
        table.AddGap();
        AddEdges<LayoutWindow>(Add, layout => layout.Verdict, layout => Edge(layout.Verdict.Window.Lower, "nothing"), layout => Edge(layout.Verdict.Window.Upper, "locked suspension"));
        table.AddGap();
        foreach (var name in Enum.GetValues<ModeName>())
            Add($"{name}, present damping ratio", "", layout => Number(layout.Verdict.Modes[name].DampingRatio, 3));
        table.AddGap();
        AddStanding<LayoutWindow>(Add, layout => layout.Verdict);
        if (result.Layouts.All(layout => layout is { OnVehicle: not null, RollsInParts: false }))
        {
            table.AddGap();
            table.Add("[on the whole vehicle: its roll, and bounce or pitch, whichever is damped more]");
            Add("Window closes at", "mm", layout => Number(Unit.Millimetre.Of(layout.ClosingPositionOnVehicle), 0));
            AddEdges<LayoutWindow>(Add, layout => layout.OnVehicle!, layout => Edge(layout.OnVehicle!.Window.Lower, "nothing"), layout => Edge(layout.OnVehicle!.Window.Upper, "locked suspension"));
            Add("Roll, present damping ratio", "", layout => Number(layout.OnVehicle!.Modes.Roll.DampingRatio, 3));
            AddStanding<LayoutWindow>(Add, layout => layout.OnVehicle!);
        }

        table.Write(output);
    }

    private static void WriteCommon(TextWriter output, IReadOnlyList<CommonWindow> windows, IReadOnlyList<string> remedies)
    {
        output.WriteLine();
        output.WriteLine("Every load state");
        var table = new TextTable(["", "unit", .. windows.Select(window => window.Name)]);
        void Add(string label, string unit, Func<CommonWindow, string> value) => table.Add([label, unit, .. windows.Select(value)]);

        AddEdges<CommonWindow>(
            Add, window => window.Verdict,
            window => $"{Edge(window.Verdict.Window.Lower, "nothing")}, {window.LowerLoad}",
            window => $"{Edge(window.Verdict.Window.Upper, "locked suspension")}, {window.UpperLoad}");
        Add("Missing", "kN·s/m", window => Number(window.Missing is { } missing && double.IsFinite(missing) ? Unit.KilonewtonSecondPerMetre.Of(missing) : null, 2));
        table.AddGap();
        AddStanding<CommonWindow>(Add, window => window.Verdict);
        table.Write(output);
        StudyReport.WriteConclusions(output, [.. windows.Select(WindowWords.Of), .. remedies]);
    }

    private static void AddEdges<T>(Action<string, string, Func<T, string>> add, Func<T, WindowVerdict> verdict, Func<T, string> lowerBinding, Func<T, string> upperBinding)
    {
        add("Least coefficient", "kN·s/m", column => Number(Unit.KilonewtonSecondPerMetre.Of(verdict(column).Window.Lower.Coefficient), 2));
        add("  bound by", "", lowerBinding);
        add("Greatest coefficient", "kN·s/m", column => Number(Unit.KilonewtonSecondPerMetre.Of(verdict(column).Window.Upper.Coefficient), 2));
        add("  bound by", "", upperBinding);
        add("Present coefficient", "kN·s/m", column => Number(Unit.KilonewtonSecondPerMetre.Of(verdict(column).Coefficient), 2));
        add("Factor on the curve, least", "", column => Number(WindowWords.LeastScale(verdict(column)), 2));
        add("Factor on the curve, greatest", "", column => Number(WindowWords.GreatestScale(verdict(column)), 2));
    }

    private static void AddStanding<T>(Action<string, string, Func<T, string>> add, Func<T, WindowVerdict> verdict)
    {
        add("Window", "", column => verdict(column).Window.IsOpen ? "open" : "closed");
        add("Present setting", "", column => verdict(column).Standing switch
        {
            WindowStanding.Inside => "inside",
            WindowStanding.TooSoft => "too soft",
            WindowStanding.TooHard => "too hard",
            _ => "–",
        });
    }

    private static string Number(double? value, int decimals) =>
        value is not { } number ? "–" : double.IsInfinity(number) ? "none" : number.ToString($"F{decimals}", CultureInfo.InvariantCulture);

    private static string Edge(WindowEdge edge, string none) => edge.Binding is { } target ? DampingTargetNames.Words(target) : none;
}
