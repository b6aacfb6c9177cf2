using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Results;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Cli.Commands;

/// <summary>Prints what a comparison found: the decision, tables with one row per quantity and one column per layout, then the conclusions.</summary>
internal static class ComparisonReport
{
    private static readonly PhaseMetric[] OfRun =
    [
        PhaseMetric.SeatWeightedRms, PhaseMetric.BumpTravelPeak, PhaseMetric.ReboundTravelPeak, PhaseMetric.BumpStopContacts, PhaseMetric.ReboundStopContacts,
        PhaseMetric.TyreLoadMinimum, PhaseMetric.LiftOffTime, PhaseMetric.LoadTransferPeak, PhaseMetric.DamperEnergy, PhaseMetric.RideHeightShift,
    ];

    private static readonly PhaseMetric[] OfPhase =
    [
        PhaseMetric.BodyAccelerationRms, PhaseMetric.BodyAccelerationPeak, PhaseMetric.RollAccelerationRms,
        PhaseMetric.DamperCompressionVelocityPeak, PhaseMetric.DamperReboundVelocityPeak, PhaseMetric.TyreLoadMinimum, PhaseMetric.LoadTransferPeak,
    ];

    /// <summary>Tells what was found: as tables and sentences, or as <c>summary.json</c>.</summary>
    public static void Answer(ParseResult parsed, Option<bool> json, Verdict verdict, bool asksForTuning, WrittenFolder folder)
    {
        var output = parsed.InvocationConfiguration.Output;
        if (parsed.GetValue(json))
            output.Write(folder.Summary);
        else
            Write(output, verdict, asksForTuning, folder);
    }

    private static void Write(TextWriter output, Verdict verdict, bool asksForTuning, WrittenFolder folder)
    {
        var states = verdict.States;
        var study = states[0].Study;
        output.WriteLine($"{study.Provenance.Scenario} — {study.Vehicle.Name}");
        output.WriteLine();
        if (VerdictWords.Decision(verdict, asksForTuning) is { } decision)
        {
            output.WriteLine(decision);
            output.WriteLine();
        }

        foreach (var state in states)
        {
            if (state.Study.Load is not null)
            {
                output.WriteLine(LoadStates.Heading(state.Study));
                output.WriteLine();
            }

            WriteTable(output, state.Result);
            WriteWarnings(output, state.Result);
            if (states.Count > 1)
                WriteConclusions(output, state);
        }

        if (states.Count > 1)
            output.WriteLine("All load states");
        StudyReport.WriteEnd(output, states is [var only] ? SeedConclusions.OfComparison(only.Result, only.Seeds) : LoadConclusions.Of(states), folder);
    }

    private static void WriteConclusions(TextWriter output, ComparisonFindings state)
    {
        output.WriteLine();
        foreach (var sentence in SeedConclusions.OfComparison(state.Result, state.Seeds))
            output.WriteLine(sentence);
        output.WriteLine();
    }

    private static void WriteTable(TextWriter output, ComparisonResult result)
    {
        var study = result.Study;
        var table = new TextTable(["", "unit", .. result.Layouts.Select(layout => layout.Name)]);
        foreach (var metric in LayoutMetric.Ratios(result.Layouts.Select(layout => layout.Car.Layout)))
            AddRow(table, metric, result);
        table.AddGap();
        foreach (var name in Enum.GetValues<ModeName>())
        {
            AddRow(table, LayoutMetric.NaturalFrequency(name), result);
            AddRow(table, LayoutMetric.DampingRatio(name, study.Analysis), result);
        }

        if (study.Targets is { } targets)
            table.Add([Invariant($"Setting window at {targets.Velocity:0.###} m/s"), "", .. result.Layouts.Select(layout => Verdict(layout.Window!))]);
        if (result.Layouts[0].OnVehicle is not null)
            AddVehicle(table, result);
        if (result.Layouts[0].Metrics.RollResponse is not null)
        {
            table.AddGap();
            foreach (var metric in RollMetric.OfCorner.Where(metric => result.Layouts.Any(layout => metric.Of(layout.Metrics) is not null)))
                table.Add([metric.Label, metric.Unit.Symbol, .. result.Layouts.Select(layout => SettlingWords.InPlaceOf(metric, study, layout.Metrics) ?? TextTable.Number(metric.Shown(layout.Metrics), metric.Decimals))]);
            if (result.Layouts.Any(layout => layout.Metrics.BothTurns is not null))
                AddTurns(table, result);
            var largest = RollMetric.RollAngleLargestInManoeuvre;
            AddRow(table, largest.Label, largest.Unit.Symbol, largest.Decimals, result, layout => largest.Shown(layout.Metrics));
            AddRow(table, PhaseMetric.RollAngleLargestTime.Label, "s", PhaseMetric.RollAngleLargestTime.Decimals, result, layout => PhaseMetric.RollAngleLargestTime.Shown(layout.Metrics.Whole));
        }

        for (var i = 0; i < study.Manoeuvre.Phases.Length; i++)
            AddPhase(table, result, study.Manoeuvre.Phases[i].Name, OfPhase, layout => layout.Metrics.Phases[i]);
        PhaseMetric[] ofPairs = result.Layouts.Any(layout => layout.Metrics.OneTyreLiftOffTime > 0) ? [PhaseMetric.LiftOffTimeOneTyre] : [];
        PhaseMetric[] ofVehicle = result.Study.Vehicle.SecondAxle is null ? [] : [PhaseMetric.PitchPeak, PhaseMetric.FrameTwistPeak, PhaseMetric.OtherAxleTyreLoadMinimum];
        AddPhase(table, result, "whole run", [.. OfRun, .. ofPairs, .. ofVehicle], layout => layout.Metrics.Whole);
        if (result.Layouts.Any(layout => layout.Mirrored is not null))
            AddMirrored(table, result);
        if (result.Layouts[0].Ride is { } ride && RideRecorder.MeasuredSpan(study.Manoeuvre) is { } span)
        {
            table.AddGap();
            table.Add(Invariant($"[ride, {Unit.Kilometre.Show(ride.Distance):F2} of random road{(study.Manoeuvre.Road.HasEvents ? " with its obstacles" : "")}{(result.Layouts[0].Metrics.RollResponse is null ? "" : " before the corner")}, {span.Start:0.##} to {span.End:0.##} s]"));
            foreach (var metric in RideMetric.All)
                AddRow(table, metric.Label, metric.Unit.Symbol, metric.Decimals, result, layout => metric.Shown(layout.Ride!));
        }

        table.Write(output);
    }

    /// <summary>What the layouts are on the whole vehicle; the modes above are those of the axle alone.</summary>
    private static void AddVehicle(TextTable table, ComparisonResult result)
    {
        var reference = LayoutOnVehicle.ReferenceOf(result.Layouts.Select(layout => layout.OnVehicle!));
        table.AddGap();
        table.Add($"[on the whole vehicle; the modes above are those of this axle alone]");
        var rollsAsOne = result.Layouts.All(layout => !layout.OnVehicle!.Modes.RollsInParts);
        if (rollsAsOne)
        {
            AddRow(table, "Roll, damping ratio", "", 3, result, layout => layout.OnVehicle!.Modes.Roll.DampingRatio);
            AddRow(table, "  of it from this axle's dampers", "%", 0, result, layout => 100 * layout.OnVehicle!.Modes.Roll.DampingShares?.Own);
            AddRow(table, "  of it from the other axle's", "%", 0, result, layout => 100 * layout.OnVehicle!.Modes.Roll.DampingShares?.Second);
            AddRow(table, "Loss made up by the other axle", "%", 0, result, layout => 100 * layout.OnVehicle!.MadeUpAgainst(reference));
        }

        AddRow(table, "Bounce, damping ratio", "", 3, result, layout => layout.OnVehicle!.Modes[VehicleModeName.Bounce]!.DampingRatio);
        AddRow(table, "Pitch, damping ratio", "", 3, result, layout => layout.OnVehicle!.Modes[VehicleModeName.Pitch]!.DampingRatio);
        if (result.Study.Targets is not null && rollsAsOne)
            table.Add(["Setting window", "", .. result.Layouts.Select(layout => layout.OnVehicle!.Window is { } window ? Verdict(window) : "–")]);
        if (result.Layouts.Any(layout => layout.OnVehicle!.Transfer is not null))
        {
            AddRow(table, "Front's share of load transfer, steady", "%", 1, result, layout => 100 * layout.OnVehicle!.Transfer?.Steady);
            AddRow(table, "  largest deviation while roll settles", "%", 1, result, layout => 100 * layout.OnVehicle!.Transfer?.LargestDeviation);
        }
    }

    private static string Verdict(WindowVerdict verdict) => verdict.Standing switch
    {
        WindowStanding.Inside => "inside",
        WindowStanding.TooSoft => "too soft",
        WindowStanding.TooHard => "too hard",
        _ => "closed",
    };

    private static void WriteWarnings(TextWriter output, ComparisonResult result)
    {
        foreach (var layout in result.Layouts)
        {
            foreach (var warning in RunWarnings.Of(result.Study, layout))
                output.WriteLine($"warning: {layout.Name}: {warning}");
        }
    }

    private static void AddPhase(TextTable table, ComparisonResult result, string title, IReadOnlyList<PhaseMetric> metrics, Func<LayoutResult, PhaseMetrics> phase)
    {
        table.AddGap();
        table.Add($"[{title}]");
        foreach (var metric in metrics)
            AddRow(table, metric.Label, metric.Unit.Symbol, metric.Decimals, result, layout => metric.Shown(phase(layout)));
    }

    /// <summary>Both turns of the corner from rest, the worse of which each figure above is of; with sides that are the same both are.</summary>
    private static void AddTurns(TextTable table, ComparisonResult result)
    {
        table.Add("  (with sides that differ: the worse of both turns, for each figure by itself; angles and times of the turn that rolls further)");
        foreach (var metric in RollMetric.OfEachTurn)
        {
            foreach (var mirrored in (bool[])[false, true])
                AddRow(table, $"  {(mirrored ? "mirrored" : "as written")}: {char.ToLowerInvariant(metric.Label[0])}{metric.Label[1..]}", metric.Unit.Symbol, metric.Decimals, result, layout => metric.Shown(layout.Metrics.OfTurn(mirrored)));
        }
    }

    /// <summary>What differs when left and right are exchanged: of layouts whose sides are the same, the manoeuvre as driven.</summary>
    private static void AddMirrored(TextTable table, ComparisonResult result)
    {
        table.AddGap();
        table.Add("[whole run, manoeuvre mirrored]");
        foreach (var metric in (PhaseMetric[])[PhaseMetric.SeatWeightedRms, PhaseMetric.RollAngleLargest, PhaseMetric.TyreLoadMinimum, PhaseMetric.LiftOffTime, PhaseMetric.LoadTransferPeak])
            AddRow(table, metric.Label, metric.Unit.Symbol, metric.Decimals, result, layout => metric.Shown((layout.Mirrored ?? layout.Metrics).Whole));
    }

    private static void AddRow(TextTable table, LayoutMetric metric, ComparisonResult result) =>
        table.Add([metric.Label, metric.Unit.Symbol, .. result.Layouts.Select(metric.Text)]);

    private static void AddRow(TextTable table, string label, string unit, int decimals, ComparisonResult result, Func<LayoutResult, double?> value) =>
        table.Add([label, unit, .. result.Layouts.Select(layout => TextTable.Number(value(layout), decimals))]);
}
