using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>How every report ends.</summary>
internal static class StudyReport
{
    /// <summary>Prints the conclusions, the cautions and where the files are.</summary>
    public static void WriteEnd(TextWriter output, IReadOnlyList<string> conclusions, WrittenFolder folder)
    {
        output.WriteLine();
        foreach (var sentence in conclusions)
            output.WriteLine(sentence);
        output.WriteLine();
        foreach (var caution in Cautions.All)
            output.WriteLine(caution);
        output.WriteLine();
        output.WriteLine($"Written to {folder.Path}: {string.Join(", ", folder.Files)}");
    }
}
