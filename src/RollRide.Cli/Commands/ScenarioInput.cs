using System.Collections.Immutable;
using System.CommandLine;
using System.CommandLine.Parsing;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Results;
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
            Description = "folder for the results; files of the same name are overwritten, others stay: give each scenario its own",
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

    /// <summary>The load states to look at.</summary>
    public static Option<string[]> Loads()
    {
        var option = new Option<string[]>("--load")
        {
            Description = "only these load states of the scenario, in this order; repeat the option or separate names by commas",
            HelpName = "names",
        };
        option.Validators.Add(RefuseBlank);
        return option;
    }

    /// <summary>The load state to show.</summary>
    public static Option<string> Load()
    {
        var option = new Option<string>("--load")
        {
            Description = "the load state that the chapters show; the heaviest if left out. One table covers them all",
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
        ShowWarnings(parsed, scenario.Warnings);
        return scenario;
    }

    /// <summary>Shows warnings, each on its line.</summary>
    public static void ShowWarnings(ParseResult parsed, IEnumerable<string> warnings)
    {
        foreach (var warning in warnings)
            parsed.InvocationConfiguration.Error.WriteLine($"warning: {warning}");
    }

    /// <summary>Runs the layouts of a study in each of its load states, with progress.</summary>
    public static ImmutableArray<ComparisonResult> Run(ParseResult parsed, StudyCase study, CancellationToken cancellation)
    {
        using var progress = Progress(parsed, study);
        return Comparison.RunInEachLoad(study, progress, cancellation);
    }

    /// <summary>Runs the layouts of a study in each of its load states and records their channels over time, with progress.</summary>
    public static ImmutableArray<RecordedComparison> Record(ParseResult parsed, StudyCase study, OutputFolder folder, CancellationToken cancellation)
    {
        using var progress = Progress(parsed, study);
        return Comparison.RecordInEachLoad(study, () => new HistorySpool(folder.OpenSpool()), progress, cancellation);
    }

    private static ProgressLine Progress(ParseResult parsed, StudyCase study) => ProgressLine.Of(parsed, "Layouts run", study.InEachLoad.Length * study.Layouts.Length);

    /// <summary>The study with only the layouts of an option's values: each is a name, or names separated by commas.</summary>
    /// <exception cref="DataFileException">A name is not one of the scenario's.</exception>
    public static StudyCase ChooseListed(StudyCase study, IReadOnlyList<string> values) => Choose(study, Split(values, value => Find(study, value) is not null));

    /// <summary>The study with only the layouts named, in the order named; all where none is.</summary>
    /// <exception cref="DataFileException">A name is not one of the scenario's.</exception>
    public static StudyCase Choose(StudyCase study, IReadOnlyList<string> names) => names.Count == 0
        ? study
        : study with { Layouts = Chosen(study, "layout", study.Layouts, layout => layout.Name, names), ScenarioLayouts = study.ScenarioLayouts };

    /// <summary>The study with only the load states of an option's values: each is a name, or names separated by commas; all where there is no value.</summary>
    /// <exception cref="DataFileException">A name is not one of the scenario's.</exception>
    public static StudyCase ChooseLoads(StudyCase study, IReadOnlyList<string> values) => values.Count == 0
        ? study
        : study with { Loads = Chosen(study, "load state", study.Loads, load => load.Name, Split(values, value => Find(study.Loads, load => load.Name, value) is not null)) };

    /// <summary>The load state named.</summary>
    /// <exception cref="DataFileException">The name is not one of the scenario's.</exception>
    public static LoadState ChooseLoad(StudyCase study, string name) => Chosen(study, "load state", study.Loads, load => load.Name, [name])[0];

    // A name may hold a comma itself.
    private static string[] Split(IReadOnlyList<string> values, Func<string, bool> isName) =>
        [.. values.SelectMany(value => isName(value) ? [value] : value.Split(',', StringSplitOptions.TrimEntries))];

    private static ImmutableArray<T> Chosen<T>(StudyCase study, string kind, ImmutableArray<T> all, Func<T, string> nameOf, IReadOnlyList<string> names)
        where T : class
    {
        var unknown = names.Where(name => Find(all, nameOf, name) is null).ToArray();
        if (unknown.Length > 0)
        {
            var known = all.Select(nameOf).ToArray();
            throw new DataFileException(unknown.Select(name => new DataFileFault(
                study.Provenance.File, null, null, null,
                known.Length == 0
                    ? $"there is no {kind} “{name}”: the scenario has none"
                    : $"there is no {kind} “{name}”; {(NearestName.Ask(name, known) is { } question ? $"{question} " : "")}known: {string.Join(", ", known.Select(other => $"“{other}”"))}")));
        }

        return [.. names.Select(name => Find(all, nameOf, name)!).DistinctBy(nameOf)];
    }

    /// <summary>Whether to leave the figures out.</summary>
    public static Option<bool> NoPlots() => new("--no-plots") { Description = "write the numbers only" };

    /// <summary>Refuses a study with more layouts than a figure can tell apart.</summary>
    /// <param name="study">The case.</param>
    /// <param name="help">What helps.</param>
    /// <exception cref="DataFileException">There are too many.</exception>
    public static void RequireDrawable(StudyCase study, string help = "choose with --layouts, or give --no-plots")
    {
        if (study.Layouts.Length > LayoutStyles.Count)
        {
            throw new DataFileException(new DataFileFault(
                study.Provenance.File, null, "layouts", null,
                $"a figure can tell {LayoutStyles.Count} layouts apart, and there are {study.Layouts.Length}; {help}"));
        }
    }

    private static void RefuseBlank(SymbolResult result)
    {
        if (result.Tokens.Any(token => string.IsNullOrWhiteSpace(token.Value)))
            result.AddError($"“{(result is OptionResult option ? option.Option.Name : "scenario")}” is empty.");
    }

    /// <summary>A layout by its name, in any case; null if there is none.</summary>
    public static DamperLayout? Find(StudyCase study, string name) => Find(study.Layouts, layout => layout.Name, name);

    // Two load states may differ by case alone.
    private static T? Find<T>(ImmutableArray<T> all, Func<T, string> nameOf, string name)
        where T : class =>
        all.FirstOrDefault(known => nameOf(known) == name) ?? all.FirstOrDefault(known => string.Equals(nameOf(known), name, StringComparison.OrdinalIgnoreCase));
}
