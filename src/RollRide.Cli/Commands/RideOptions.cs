using System.Collections.Immutable;
using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Metrics;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>What compare, simulate and report can do besides on a random road.</summary>
internal sealed class RideOptions
{
    // The interval narrows with the square root: a tenth of it takes a hundred times as many roads, and no mean needs more than this.
    private const int MostSeeds = 10_000;

    /// <summary>Number of seeds; 0 for none.</summary>
    public Option<int> Seeds { get; } = new("--seeds")
    {
        Description = "run over this many random roads of the same kind as well, and give mean and 95 % interval of each metric",
        HelpName = "number",
        CustomParser = result => Number.Parse(result, 2, MostSeeds) is { } value ? (int)value : 0,
    };

    /// <summary>Whether the linear reference is shown.</summary>
    public Option<bool> Linear { get; } = new("--linear")
    {
        Description = "also give the RMS values of the linearised vehicle, beside the simulated ones, in a table and in linear.csv",
    };

    /// <summary>Refuses what was asked for where the road is not random, or there is no ride before the corner.</summary>
    public void RequireRandomRoad(ParseResult parsed, StudyCase study)
    {
        var seeds = parsed.GetValue(Seeds);
        if (seeds == 0 && !parsed.GetValue(Linear))
            return;
        var option = seeds > 0 ? "--seeds" : "--linear";
        if (study.Manoeuvre.Road.Unevenness is null)
        {
            throw new DataFileException(new DataFileFault(
                study.Provenance.File, null, "manoeuvre.road.random", null, $"{option} needs a random road; this scenario has none"));
        }

        if (RideRecorder.MeasuredSpan(study.Manoeuvre) is null)
        {
            throw new DataFileException(new DataFileFault(
                study.Provenance.File, null, "manoeuvre.cornering", null, FormattableString.Invariant(
                    $"{option} needs a ride before the corner: the corner begins at {study.Manoeuvre.Cornering.StartTime:F2} s, and the ride is measured from {RideRecorder.StartTime(study.Manoeuvre.Road, study.Manoeuvre.Duration):F2} s")));
        }
    }

    /// <summary>Finds what was asked for.</summary>
    public ComparisonFindings Run(ParseResult parsed, ComparisonResult result, CancellationToken cancellation) => new(result)
    {
        Seeds = RunSeeds(parsed, result.Study, cancellation),
        Linear = parsed.GetValue(Linear) ? LinearReference.Of(result, cancellation) : [],
    };

    /// <summary>Prints what the options asked for.</summary>
    public static void Write(ParseResult parsed, IEnumerable<ComparisonFindings> states, int baseline = 0)
    {
        var output = parsed.InvocationConfiguration.Output;
        foreach (var state in states)
        {
            if (state.Study.Load is not null && (state.Seeds.Count > 0 || state.Linear.Count > 0))
            {
                output.WriteLine();
                output.WriteLine(LoadStates.Heading(state.Study));
            }

            if (state.Seeds.Count > 0)
                RideReport.WriteSeeds(output, state.Seeds, baseline);
            if (state.Linear.Count > 0)
                RideReport.WriteLinear(output, state);
        }
    }

    private ImmutableArray<SeededRuns> RunSeeds(ParseResult parsed, StudyCase study, CancellationToken cancellation)
    {
        var seeds = parsed.GetValue(Seeds);
        if (seeds == 0)
            return [];
        using var progress = ProgressLine.Of(parsed, "Random roads run", study.Layouts.Length * seeds);
        return RideStudy.Run(study, seeds, progress, cancellation);
    }
}
