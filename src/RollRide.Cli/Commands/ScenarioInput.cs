using System.CommandLine;
using System.CommandLine.Parsing;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Cli.Commands;

/// <summary>The arguments that most commands share, and how they are read.</summary>
internal static class ScenarioInput
{
    /// <summary>The scenario file.</summary>
    public static Argument<string> Scenario()
    {
        var argument = new Argument<string>("scenario") { Description = "the scenario file, such as scenarios/bump-then-corner.json" };
        argument.Validators.Add(RefuseBlank);
        return argument;
    }

    /// <summary>The output folder.</summary>
    public static Option<string> Out()
    {
        var option = new FolderOption("--out", "-o")
        {
            Description = "folder for the results; files of the same names are replaced, others stay: give each scenario its own",
            DefaultValueFactory = _ => "results",
            HelpName = "folder",
        };
        option.Validators.Add(RefuseBlank);
        return option;
    }

    /// <summary>The layouts to run.</summary>
    public static Option<string[]> Layouts()
    {
        var option = new Option<string[]>("--layouts", "-l")
        {
            Description = "only these layouts, in this order; repeat the option or separate names by commas",
            HelpName = "names",
        };
        option.Validators.Add(RefuseBlank);
        return option;
    }

    /// <summary>The layout to run.</summary>
    public static Option<string> Layout()
    {
        var option = new Option<string>("--layout", "-l")
        {
            Description = "the layout; the first of the scenario if left out",
            HelpName = "name",
        };
        option.Validators.Add(RefuseBlank);
        return option;
    }

    /// <summary>Whether to print the summary instead of tables.</summary>
    public static Option<bool> Json() => new("--json") { Description = "print the summary's JSON instead of tables, for another program to read" };

    /// <summary>Reads the scenario and shows its warnings.</summary>
    public static Scenario Read(ParseResult parsed, Argument<string> argument, CancellationToken cancellation, bool isRecorded = true) =>
        WithWarningsShown(parsed, ScenarioReader.Read(parsed.GetRequiredValue(argument), isRecorded, cancellation));

    /// <summary>Shows the warnings of a scenario.</summary>
    public static Scenario WithWarningsShown(ParseResult parsed, Scenario scenario)
    {
        foreach (var warning in scenario.Warnings)
            parsed.InvocationConfiguration.Error.WriteLine($"warning: {warning}");
        return scenario;
    }

    /// <summary>Runs the layouts of a study, with progress.</summary>
    public static ComparisonResult Run(ParseResult parsed, StudyCase study, CancellationToken cancellation)
    {
        using var progress = Progress(parsed, study);
        return Comparison.Run(study, progress, cancellation);
    }

    /// <summary>Runs the layouts of a study and records their channels over time, with progress.</summary>
    /// <exception cref="InsufficientMemoryException">The memory cannot hold the channels.</exception>
    public static RecordedComparison Record(ParseResult parsed, StudyCase study, CancellationToken cancellation)
    {
        MemoryAdvice.RequireRoomForHistories(study, parsed.CommandResult.Command, MemoryAdvice.Available);
        using var progress = Progress(parsed, study);
        return Comparison.Record(study, progress, cancellation);
    }

    private static ProgressLine Progress(ParseResult parsed, StudyCase study) => ProgressLine.Of(parsed, "Layouts run", study.Layouts.Length);

    /// <summary>The study with only the layouts of an option's values: each is a name, or names separated by commas.</summary>
    /// <exception cref="DataFileException">A name is not one of the scenario's.</exception>
    public static StudyCase ChooseListed(StudyCase study, IReadOnlyList<string> values) =>
        // A name may hold a comma itself.
        Choose(study, [.. values.SelectMany(value => Find(study, value) is null
            ? value.Split(',', StringSplitOptions.TrimEntries)
            : [value])]);

    /// <summary>The study with only the layouts named, in the order named; all where none is.</summary>
    /// <exception cref="DataFileException">A name is not one of the scenario's.</exception>
    public static StudyCase Choose(StudyCase study, IReadOnlyList<string> names)
    {
        if (names.Count == 0)
            return study;
        var unknown = names.Where(name => Find(study, name) is null).ToArray();
        if (unknown.Length > 0)
        {
            var known = study.Layouts.Select(layout => layout.Name).ToArray();
            throw new DataFileException(unknown.Select(name => new DataFileFault(
                study.Provenance.File, null, null, null,
                $"there is no layout '{name}'; {(NearestName.Ask(name, known) is { } question ? $"{question} " : "")}known: {string.Join(", ", known.Select(other => $"'{other}'"))}")));
        }

        return study with { Layouts = [.. names.Select(name => Find(study, name)!).DistinctBy(layout => layout.Name)] };
    }

    /// <summary>Whether to leave the figures out.</summary>
    public static Option<bool> NoPlots() => new("--no-plots") { Description = "write the numbers only" };

    /// <summary>Refuses a study with more layouts than a figure can tell apart.</summary>
    /// <param name="study">The case.</param>
    /// <param name="help">What helps.</param>
    /// <exception cref="DataFileException">There are too many.</exception>
    public static void RequireDrawable(StudyCase study, string help = "choose with --layouts, or give --no-plots")
    {
        if (study.Layouts.Length > Theme.LayoutCount)
        {
            throw new DataFileException(new DataFileFault(
                study.Provenance.File, null, "layouts", null,
                $"a figure can tell {Theme.LayoutCount} layouts apart, and there are {study.Layouts.Length}; {help}"));
        }
    }

    private static void RefuseBlank(SymbolResult result)
    {
        if (result.Tokens.Any(token => string.IsNullOrWhiteSpace(token.Value)))
            result.AddError($"'{(result is OptionResult option ? option.Option.Name : "scenario")}' is empty.");
    }

    /// <summary>A layout by its name, in any case; null if there is none.</summary>
    public static DamperLayout? Find(StudyCase study, string name) =>
        study.Layouts.FirstOrDefault(layout => string.Equals(layout.Name, name, StringComparison.OrdinalIgnoreCase));
}
