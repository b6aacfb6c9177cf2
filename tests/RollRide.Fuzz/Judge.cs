using System.Globalization;
using System.Text.RegularExpressions;
using RollRide.Cli.Terminals;

namespace RollRide.Fuzz;

/// <summary>Says whether what a command did is what it may do, whatever it is given.</summary>
internal sealed partial class Judge(TimeSpan limit)
{
    /// <summary>A decimal sign that nobody uses here: where it comes out, text was formatted by culture.</summary>
    public const string ForeignDecimalSign = "٫";

    /// <summary>A culture that writes numbers with that sign.</summary>
    public static CultureInfo ForeignCulture()
    {
        var culture = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        culture.NumberFormat.NumberDecimalSeparator = ForeignDecimalSign;
        culture.NumberFormat.PercentDecimalSeparator = ForeignDecimalSign;
        return culture;
    }

    /// <summary>The worst thing about an outcome; null where there is nothing.</summary>
    public Finding? Of(FuzzCase of, Outcome outcome, IEnumerable<string> written)
    {
        if (outcome.Hangs)
            return new Finding("does not stop", $"{of.Words[0]} was told to stop after {limit.TotalSeconds:F0} s and went on");
        if (outcome.Thrown is { } thrown)
            return new Finding("exception", $"{thrown.GetType().Name}: {thrown.Message}\n{thrown.StackTrace}");
        if (outcome.ExitCode == ExitCode.Internal)
            return new Finding("exit code 70", outcome.Error.Trim().Split("A fault of RollRide itself")[^1].Replace("\n", " ", StringComparison.Ordinal));
        if (outcome.Elapsed > limit)
            return new Finding("slow", $"{of.Words[0]} took more than {limit.TotalSeconds:F0} s of processor time\n{outcome.Elapsed.TotalSeconds:F1} s");
        if (outcome.ExitCode is not (ExitCode.Done or ExitCode.BadInput or ExitCode.RunFailed))
            return new Finding("exit code", $"{outcome.ExitCode}: {outcome.Error}");
        if (outcome.ExitCode != ExitCode.Done && string.IsNullOrWhiteSpace(outcome.Error))
            return new Finding("no message", $"exit code {outcome.ExitCode}");
        if (outcome.Error.Contains("   at RollRide", StringComparison.Ordinal))
            return new Finding("stack trace", outcome.Error);

        // What a name could steer the terminal with: a command ends its lines and uses no other.
        foreach (var (stream, text) in ((string, string)[])[("output", outcome.Output), ("error", outcome.Error)])
        {
            if (text.Where(c => char.IsControl(c) && c != '\n').Select(c => (char?)c).FirstOrDefault() is { } control)
                return new Finding("control character", $"U+{(int)control:X4} on the standard {stream} of {of.Words[0]}");
        }

        if (outcome.ExitCode == ExitCode.BadInput && Unlocated(of, outcome.Error) is { } unlocated)
            return new Finding("fault without its place", unlocated);
        if (outcome.ExitCode == ExitCode.BadInput && written.FirstOrDefault() is { } left)
            return new Finding("written after a fault", left);
        foreach (var (name, text) in written.Where(IsText).Select(path => (Path.GetFileName(path), File.ReadAllText(path))).Prepend(("the terminal", outcome.Output)))
        {
            if (NoNumber().Match(text) is { Success: true } found)
                return new Finding("no number", $"{found.Value} in {name} of {of.Words[0]}");
            if (text.Contains(ForeignDecimalSign, StringComparison.Ordinal))
                return new Finding("formatted by culture", $"{name} of {of.Words[0]}\n{Around(text)}");
        }

        return outcome.Error.Contains(ForeignDecimalSign, StringComparison.Ordinal) ? new Finding("formatted by culture", $"a message: {Around(outcome.Error)}") : null;
    }

    // Where only files were changed, each fault stands in one of them.
    private static string? Unlocated(FuzzCase of, string error)
    {
        var input = of.Input();
        if (!input.Words.SequenceEqual(of.Words))
            return null;
        string[] files = [CaseInput.ScenarioName, .. input.Tables.Keys];
        return error.Split('\n', StringSplitOptions.RemoveEmptyEntries).FirstOrDefault(line =>
            !line.StartsWith("warning", StringComparison.Ordinal) && (!files.Any(file => line.StartsWith(file + ":", StringComparison.Ordinal)) || OfAPart().IsMatch(line)));
    }

    // What the reader says begins small and names the key that is wrong. What begins large was said by a part that knows no keys,
    // and without a value it stands at a key that holds others.
    [GeneratedRegex(@"^[^:]*:\d+: (?:[^:]*\.)?[A-Za-z]+(?:\[\d+\])?: (?!ISO|IRI|RMS)\p{Lu}")]
    private static partial Regex OfAPart();

    private static bool IsText(string path) => Path.GetExtension(path) is ".json" or ".csv";

    private static string Around(string text)
    {
        var at = text.IndexOf(ForeignDecimalSign, StringComparison.Ordinal);
        return text[Math.Max(0, at - 80)..Math.Min(text.Length, at + 20)];
    }

    [GeneratedRegex(@"(?<![\w""])(?:NaN|-?Infinity|-?∞)(?![\w""])")]
    private static partial Regex NoNumber();
}
