using System.Globalization;
using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Prints the setting windows: a row a quantity, a column a layout, then the conclusions.</summary>
internal static class WindowReport
{
    public static void Write(TextWriter output, SettingWindowResult result, WrittenFolder folder)
    {
        var study = result.Study;
        var targets = result.Targets;
        output.WriteLine($"{study.Provenance.Scenario} — {study.Vehicle.Name}");
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Targets at {targets.Velocity:0.###} m/s damper velocity: {string.Join(", ", targets.All.Select(target => string.Create(CultureInfo.InvariantCulture, $"{DampingTargetNames.Words(target)} {targets.Limit(target):0.###}")))}."));
        output.WriteLine();
        var table = new TextTable(["", "unit", .. result.Layouts.Select(layout => layout.Name)]);
        void Add(string label, string unit, Func<LayoutWindow, string> value) => table.Add([label, unit, .. result.Layouts.Select(value)]);
        static string Number(double? value, int decimals) =>
            value is not { } number ? "–" : double.IsInfinity(number) ? "none" : number.ToString($"F{decimals}", CultureInfo.InvariantCulture);

        Add("Position as an upright damper", "mm", layout => Number(layout.Position * 1e3, 0));
        Add("Position at which it closes", "mm", layout => Number(layout.ClosingPosition * 1e3, 0));
        table.AddGap();
        Add("Least coefficient", "kN·s/m", layout => Number(layout.Verdict.Window.Lower.Coefficient / 1e3, 2));
        Add("  bound by", "", layout => Edge(layout.Verdict.Window.Lower, "nothing"));
        Add("Greatest coefficient", "kN·s/m", layout => Number(layout.Verdict.Window.Upper.Coefficient / 1e3, 2));
        Add("  bound by", "", layout => Edge(layout.Verdict.Window.Upper, "locked suspension"));
        Add("Present coefficient", "kN·s/m", layout => Number(layout.Verdict.Coefficient / 1e3, 2));
        Add("Scale on the curve, least", "", layout => Number(layout.Verdict.LowerScale, 2));
        Add("Scale on the curve, greatest", "", layout => Number(layout.Verdict.UpperScale, 2));
        table.AddGap();
        foreach (var name in Enum.GetValues<ModeName>())
            Add($"{name}, present damping ratio", "", layout => Number(layout.Modes[name].DampingRatio, 3));
        table.AddGap();
        Add("Window", "", layout => layout.Verdict.Window.IsOpen ? "open" : "closed");
        Add("Present setting", "", layout => layout.Verdict.Standing switch
        {
            WindowStanding.Inside => "inside",
            WindowStanding.TooSoft => "too soft",
            WindowStanding.TooHard => "too hard",
            _ => "–",
        });
        table.Write(output);
        StudyReport.WriteEnd(output, WindowConclusions.Of(result), folder);
    }

    private static string Edge(WindowEdge edge, string none) => edge.Binding is { } target ? DampingTargetNames.Words(target) : none;
}
