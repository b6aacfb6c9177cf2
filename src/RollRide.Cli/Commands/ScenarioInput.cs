using System.CommandLine;
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
    public static Argument<string> Scenario() => new("scenario") { Description = "the scenario file, such as scenarios/bump-then-corner.json" };

    /// <summary>The output folder.</summary>
    public static Option<string> Out() => new("--out", "-o")
    {
        Description = "folder for the results; files of the same names are replaced, others stay",
        DefaultValueFactory = _ => "results",
        HelpName = "folder",
    };

    /// <summary>The layouts to look at.</summary>
    public static Option<string[]> Layouts() => new("--layouts", "-l")
    {
        Description = "only these layouts, in this order; repeat the option or separate names by commas",
        HelpName = "names",
        AllowMultipleArgumentsPerToken = true,
    };

    /// <summary>Whether to leave the figures out.</summary>
    public static Option<bool> NoPlots() => new("--no-plots") { Description = "write the numbers only" };

    /// <summary>Reads the scenario and shows its warnings.</summary>
    public static Scenario Read(ParseResult parsed, Argument<string> argument)
    {
        var scenario = ScenarioReader.Read(parsed.GetRequiredValue(argument));
        foreach (var warning in scenario.Warnings)
            parsed.InvocationConfiguration.Error.WriteLine($"warning: {warning}");
        return scenario;
    }

    /// <summary>The study with only the layouts named, in the order named; all where none is.</summary>
    /// <exception cref="DataFileException">A name is not one of the scenario's.</exception>
    public static StudyCase Choose(StudyCase study, IReadOnlyList<string> names)
    {
        if (names.Count == 0)
            return study;
        var unknown = names.Where(name => Find(study, name) is null).ToArray();
        if (unknown.Length > 0)
        {
            throw new DataFileException(new DataFileFault(
                study.Provenance.File, null, null, null,
                $"there is no layout '{string.Join("', '", unknown)}'; known: {string.Join(", ", study.Layouts.Select(layout => layout.Name))}"));
        }

        return study with { Layouts = [.. names.Select(name => Find(study, name)!).Distinct()] };
    }

    /// <summary>The study with only the layouts chosen by option, no more of them than a figure can show.</summary>
    /// <exception cref="DataFileException">A name is not one of the scenario's, or there are too many layouts for a figure.</exception>
    public static StudyCase Choose(StudyCase study, string[]? option, bool withPlots)
    {
        var names = (option ?? []).SelectMany(name => name.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)).ToArray();
        var chosen = Choose(study, names);
        if (withPlots && chosen.Layouts.Length > Theme.LayoutCount)
        {
            throw new DataFileException(new DataFileFault(
                study.Provenance.File, null, "layouts", null,
                $"a figure can tell {Theme.LayoutCount} layouts apart, and there are {chosen.Layouts.Length}; choose with --layouts, or give --no-plots"));
        }

        return chosen;
    }

    private static DamperLayout? Find(StudyCase study, string name) =>
        study.Layouts.FirstOrDefault(layout => string.Equals(layout.Name, name, StringComparison.OrdinalIgnoreCase));
}
