using RollRide.Findings;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>How every report ends.</summary>
internal static class StudyReport
{
    /// <summary>Prints what was found in each load state under its heading, its conclusions after it; without load states, without heading.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="results">What was found in each.</param>
    /// <param name="study">The case that a result is of.</param>
    /// <param name="write">Prints the tables of one.</param>
    /// <param name="conclusions">What one says.</param>
    public static void WriteStates<TResult>(
        TextWriter output, IReadOnlyList<TResult> results, Func<TResult, StudyCase> study, Action<TResult> write, Func<TResult, IReadOnlyList<string>> conclusions)
    {
        foreach (var result in results)
        {
            output.WriteLine();
            if (study(result).Load is not null)
                output.WriteLine(LoadStates.Heading(study(result)));
            write(result);
            WriteConclusions(output, conclusions(result));
        }
    }

    /// <summary>Prints conclusions below what they are drawn from.</summary>
    public static void WriteConclusions(TextWriter output, IReadOnlyList<string> conclusions)
    {
        output.WriteLine();
        foreach (var sentence in conclusions)
            output.WriteLine(sentence);
    }

    /// <summary>Prints the conclusions, the cautions and where the files are.</summary>
    public static void WriteEnd(TextWriter output, IReadOnlyList<string> conclusions, WrittenFolder folder)
    {
        WriteConclusions(output, conclusions);
        WriteEnd(output, folder);
    }

    /// <summary>Prints the cautions and where the files are.</summary>
    public static void WriteEnd(TextWriter output, WrittenFolder folder)
    {
        output.WriteLine();
        foreach (var caution in Cautions.All)
            output.WriteLine(caution);
        output.WriteLine();
        output.WriteLine($"Written to {folder.Path}: {string.Join(", ", folder.Files)}");
    }
}
