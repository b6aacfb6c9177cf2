using System.CommandLine;
using RollRide.DataFiles;
using RollRide.Metrics;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>What compare, simulate and report can do besides on a random road.</summary>
internal sealed class RideOptions
{
    private const int MostSeeds = 10_000;

    /// <summary>Number of seeds; 0 for none.</summary>
    public Option<int> Seeds { get; } = new("--seeds")
    {
        Description = "run over this many random roads of the same kind as well, and give mean and 95 % interval of each figure",
        HelpName = "number",
        CustomParser = result => Number.Parse(result, 2, MostSeeds) is { } value ? (int)value : 0,
    };

    /// <summary>Whether the linear reference is shown.</summary>
    public Option<bool> Linear { get; } = new("--linear")
    {
        Description = "set the root mean squares of the linearised vehicle beside the simulated ones",
    };

    /// <summary>Refuses what was asked for where the road is not random, or there is no ride before the corner.</summary>
    public void RequireRandomRoad(ParseResult parsed, StudyCase study)
    {
        if (parsed.GetValue(Linear) && parsed.GetValue<bool>("--json"))
            throw new DataFileException(new DataFileFault("--linear", null, null, null, "the linear reference is a table on the terminal; --json prints summary.json, which does not hold it: give one of them"));
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

    /// <summary>Runs the seeds asked for; empty if none are.</summary>
    public IReadOnlyList<SeededRuns> Run(ParseResult parsed, StudyCase study, CancellationToken cancellation)
    {
        var seeds = parsed.GetValue(Seeds);
        if (seeds == 0)
            return [];
        using var progress = ProgressLine.Of(parsed, "Random roads run", study.Layouts.Length * seeds);
        return RideStudy.Run(study, seeds, progress, cancellation);
    }

    /// <summary>Prints what the options asked for.</summary>
    public void Write(ParseResult parsed, ComparisonResult result, IReadOnlyList<SeededRuns> seeds, int baseline = 0)
    {
        var output = parsed.InvocationConfiguration.Output;
        if (seeds.Count > 0)
            RideReport.WriteSeeds(output, seeds, baseline);
        if (parsed.GetValue(Linear))
            RideReport.WriteLinear(output, result);
    }
}
