using RollRide.Cli.Terminals;
using RollRide.Damping;
using RollRide.Findings;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Prints what a tuning found: targets, valving, forces for the workshop, and the conclusions.</summary>
internal static class TuningReport
{
    public static void Write(TextWriter output, TuningResult result, WrittenFolder folder)
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
            WriteValving(output, layout);
        }

        var warnings = result.Layouts
            .SelectMany(layout => layout.InLoads.SelectMany(state => RunWarnings.Of(result.Study, state.After).Select(
                warning => $"warning: {layout.Name}, tuned{(state.Load is { } load ? $", load state {load.Name}" : "")}: {warning}")))
            .ToArray();
        if (warnings.Length > 0)
            output.WriteLine();
        foreach (var warning in warnings)
            output.WriteLine(warning);
        StudyReport.WriteEnd(output, TuningConclusions.Of(result), folder);
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

    private static void WriteValving(TextWriter output, LayoutTuning layout)
    {
        var table = new TextTable([$"{layout.Name}: force at", .. Valving.StandardTestVelocities.Select(v => $"{TextTable.Number(v, 3)} m/s"), "bleed [N·s/m]", "knee [m/s]", "knee [N]", "high speed [N·s/m]"]);
        var points = layout.Tuned.Valving.ForcesAt(Valving.StandardTestVelocities);
        Add("Compression [N]", points.Select(p => p.Compression), layout.Tuned.Valving.Compression);
        Add("Rebound [N]", points.Select(p => p.Rebound), layout.Tuned.Valving.Rebound);
        table.Write(output);

        void Add(string label, IEnumerable<double> forces, ValveCharacteristic valve) => table.Add([
            label, .. forces.Select(force => TextTable.Number(force, 0)),
            TextTable.Number(valve.BleedSlope, 0), TextTable.Number(valve.KneeVelocity, 3), TextTable.Number(valve.KneeForce, 0), TextTable.Number(valve.HighSpeedSlope, 0)]);
    }
}
