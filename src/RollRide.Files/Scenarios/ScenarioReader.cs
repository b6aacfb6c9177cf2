using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Reads scenario files.</summary>
public static class ScenarioReader
{
    // A row is some 40 numbers of 10 characters: these are about 0.4 GB and 4 GB a layout.
    private const double GigabytesARow = 4e-7;
    private const int ManyRows = 1_000_000;
    private const int MostRows = 10_000_000;

    /// <summary>Reads a scenario with every file that it names, and checks it.</summary>
    /// <param name="path">The scenario file.</param>
    /// <param name="isRecorded">Whether its runs will be recorded over time: then more samples than a file should hold are refused, and many are warned of.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <remarks>
    /// Two rounds: first every key of the scenario by itself (known, there, of the right kind and within its limits), then, once
    /// these are right, what they say together and the files they name. Each round reports all its faults at once. What a tuning says
    /// together is <see cref="Scenario.TuningFaults"/>: it stops the command that tunes, and no other.
    /// </remarks>
    /// <exception cref="DataFileException">Something is wrong; all faults found, each with file, line, key and what is accepted.</exception>
    public static Scenario Read(string path, bool isRecorded = true, CancellationToken cancellation = default) =>
        Read(new ReadingContext(BoundDocument.Read<ScenarioFile>(path, cancellation)) { IsRecorded = isRecorded, Cancellation = cancellation });

    /// <summary>
    /// Reads a scenario to find out where its dampers fit: a layout that packaging leaves no place is set aside, see
    /// <see cref="PlacementCase.Unplaced"/>, and its tuning is not looked at.
    /// </summary>
    /// <param name="path">The scenario file.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">Something is wrong; all faults found, each with file, line, key and what is accepted.</exception>
    public static Scenario ReadForPlacement(string path, CancellationToken cancellation = default) =>
        Read(new ReadingContext(BoundDocument.Read<ScenarioFile>(path, cancellation)) { IsRecorded = false, SetsUnplacedAside = true, Cancellation = cancellation });

    /// <summary>The JSON Schema of a scenario file, with which an editor completes and checks keys.</summary>
    public static string Schema() => JsonSchemaWriter.WriteText(typeof(ScenarioFile), "RollRide scenario");

    internal static Scenario Read(ReadingContext context)
    {
        var file = context.File;

        var vehicle = context.Vehicle;
        var layouts = LayoutReader.Read(context);
        var manoeuvre = ManoeuvreReader.DependsOnVehicle(file)
            ? ManoeuvreReader.Read(context)
            : context.Common.Get(context, file.Manoeuvre, () => ManoeuvreReader.Read(context));
        var targets = TargetsReader.Read(context);
        CheckSettings(context);
        var loads = context.Loads;
        if (file.Sweep?.LoadStates is not null)
            context.Refuse("sweep.loadStates", $"load states belong to the whole scenario now: put them at the top level, under the key loadStates, where a state sets mass_kg, rollInertia_kg_m2 and cgHeight_mm of the body, or adds payload. Under a load the body now sinks");
        var space = context.Packaging;
        if (vehicle is not null)
        {
            for (var i = 0; i < layouts.Length; i++)
            {
                if (layouts[i] is { } layout && context.ChecksStanding)
                    StandingCheck.Check(context, i, vehicle, layout);
            }
        }

        if (space is not null)
            PlaceReader.WarnOfWhatIsInTheWay(context, space, layouts);

        context.Faults.ThrowIfAny();
        var study = new StudyCase
        {
            Provenance = new Provenance(file.Name, context.FileName, context.Sha256(), Provenance.ProgramVersion) { Author = file.Author, Date = file.Date },
            Vehicle = vehicle!,
            Layouts = [.. layouts.OfType<DamperLayout>()],
            Placement = space is null ? null : new PlacementCase(space, context.Dampers[file.Packaging!.Damper]!) { Unplaced = [.. context.Unplaced] },
            Manoeuvre = manoeuvre!,
            Solver = new IntegratorOptions
            {
                RelativeTolerance = file.Solver.RelativeTolerance,
                AbsoluteTolerance = file.Solver.AbsoluteTolerance,
                MaximumStep = file.Solver.MaximumStepMs * Unit.Millisecond.InSi,
            },
            Analysis = new AnalysisSettings(
                file.Analysis.ReferenceDamperVelocity,
                [.. Ascending.Once([.. file.Analysis.DamperVelocities])],
                file.Analysis.IncludeFriction),
            Loads = loads,
            Targets = targets,
            AssumedTolerances = AssumedTolerances.Of(file.Sweep, layouts.OfType<DamperLayout>()),
            HistoryRate = file.Output.RateHz,
        };
        if (context.ChecksLoads)
        {
            LoadStateReader.Check(context, study);
            context.Faults.ThrowIfAny();
            PlaceReader.WarnOfLoads(context, study);
        }

        TuningTask? tuning = null;
        var tuningFaults = context.SetsUnplacedAside || !context.ReadsTuning ? [] : context.Apart(() => tuning = TuningReader.Read(context, study));
        return new Scenario(study, file.Output, [.. context.Warnings])
        {
            Tuning = tuning,
            AsksForTuning = file.Tuning is not null,
            TuningFaults = tuningFaults,
        };
    }

    private static void CheckSettings(ReadingContext context)
    {
        var velocities = context.File.Analysis.DamperVelocities;
        for (var i = 1; i < velocities.Count; i++)
        {
            if (velocities.Take(i).Contains(velocities[i]))
                context.Refuse($"analysis.damperVelocities_m_per_s[{i}]", $"this velocity is in the list twice; give it once");
        }

        if (!context.IsRecorded)
            return;
        var rows = context.File.Manoeuvre.Duration * context.File.Output.RateHz;
        if (rows > MostRows)
            context.Refuse("output.rate_Hz", $"over {context.File.Manoeuvre.Duration} s this makes {rows:F0} rows per layout; at most {MostRows} are accepted, some {MostRows * GigabytesARow:F0} GB of text: lower the rate, shorten the run, or leave the time history out");
        else if (rows > ManyRows)
            context.Warn("output.rate_Hz", $"over {context.File.Manoeuvre.Duration} s this makes {rows:F0} rows per layout, some {rows * GigabytesARow:F1} GB of text; a lower rate, or no time history, does not change the metrics");
    }
}
