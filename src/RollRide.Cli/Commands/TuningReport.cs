using RollRide.Cli.Terminals;
using RollRide.Damping;
using RollRide.Findings;
using RollRide.Results;
using RollRide.Studies;
using RollRide.Sweeps;

namespace RollRide.Cli.Commands;

/// <summary>Prints what a tuning found: targets, valving, forces for the workshop, and the conclusions.</summary>
internal static class TuningReport
{
    public static void Write(TextWriter output, TuningResult result, RobustResult robust, WrittenFolder folder)
    {
        output.WriteLine($"{result.Study.Provenance.Scenario} — {result.Study.Vehicle.Name}");
        output.WriteLine();
        var states = result.Study.InEachLoad;
        for (var k = 0; k < states.Length; k++)
        {
            if (k > 0)
                output.WriteLine();
            if (states[k].Load is not null)
                output.WriteLine(LoadStates.Heading(states[k]));
            WriteTargets(output, result, k);
        }

        foreach (var layout in result.Layouts)
        {
            output.WriteLine();
            WriteValving(output, layout.Name, layout.Tuned.Valving);
        }

        foreach (var layout in robust.IsOwn ? robust.Layouts : [])
        {
            output.WriteLine();
            WriteValving(output, $"{layout.Name}, robust", layout.Robust.Tuned.Valving);
        }

        output.WriteLine();
        WriteMargins(output, robust);

        var warnings = result.Layouts
            .SelectMany(layout => layout.InLoads.SelectMany(state => RunWarnings.Of(result.Study, state.After).Select(
                warning => $"warning: {layout.Name}, tuned{(state.Load is { } load ? $", load state {load.Name}" : "")}: {warning}")))
            .ToArray();
        if (warnings.Length > 0)
            output.WriteLine();
        foreach (var warning in warnings)
            output.WriteLine(warning);
        StudyReport.WriteEnd(output, [.. TuningConclusions.Of(result), .. RobustConclusions.Of(robust)], folder);
    }

    private static void WriteTargets(TextWriter output, TuningResult result, int state)
    {
        var table = new TextTable("Damping ratio", "at [m/s]", "wanted", "before", "tuned", "met", "coefficient [N·s/m]", "wanted [N·s/m]");
        foreach (var layout in result.Layouts)
        {
            Add($"{layout.Name}, heave", layout.InLoads[state].Heave);
            Add($"{layout.Name}, roll", layout.InLoads[state].Roll);
        }

        table.Write(output);

        void Add(string label, TargetOutcome outcome) => table.Add(
            label,
            TextTable.Number(outcome.Target.DamperVelocity, 3),
            $"{TextTable.Number(outcome.Target.Ratio, 2)} ± {TextTable.Number(outcome.Target.Tolerance, 3)}",
            TextTable.Number(outcome.Before, 3),
            TextTable.Number(outcome.Reached, 3),
            outcome.IsMet ? "yes" : "no",
            TextTable.Number(outcome.Coefficient, 0),
            outcome.CoefficientWanted is { } wanted ? TextTable.Number(wanted, 0) : "none does");
    }

    /// <summary>How far the forces may stray from the drawing, and how many vehicles miss.</summary>
    private static void WriteMargins(TextWriter output, RobustResult result)
    {
        var sampled = result.Task is not null;
        var table = new TextTable(["Holds", "softer by up to [%]", "harder by up to [%]", "drawing ± [%]", .. sampled ? (string[])["vehicles missing"] : []]);
        foreach (var (label, valving) in result.Valvings)
        {
            table.Add([
                label, Margin(valving.Softer), Margin(valving.Harder), valving.Tolerance > 0 ? TextTable.Number(100 * valving.Tolerance, 0) : "none",
                .. sampled ? (string[])[FormattableString.Invariant($"{valving.Missing} of {valving.Samples}")] : []]);
        }

        table.Write(output);

        static string Margin(double share) => double.IsFinite(share) ? TextTable.Number(100 * share, 1) : "none does";
    }

    private static void WriteValving(TextWriter output, string name, Valving valving)
    {
        var table = new TextTable([$"{name}: force at", .. Valving.StandardTestVelocities.Select(v => $"{TextTable.Number(v, 3)} m/s"), "bleed [N·s/m]", "knee [m/s]", "knee [N]", "high speed [N·s/m]"]);
        var points = valving.ForcesAt(Valving.StandardTestVelocities);
        Add("Compression [N]", points.Select(p => p.Compression), valving.Compression);
        Add("Rebound [N]", points.Select(p => p.Rebound), valving.Rebound);
        table.Write(output);

        void Add(string label, IEnumerable<double> forces, ValveCharacteristic valve) => table.Add([
            label, .. forces.Select(force => TextTable.Number(force, 0)),
            TextTable.Number(valve.BleedSlope, 0), TextTable.Number(valve.KneeVelocity, 3), TextTable.Number(valve.KneeForce, 0), TextTable.Number(valve.HighSpeedSlope, 0)]);
    }
}
