using System.CommandLine;
using System.CommandLine.Help;
using System.CommandLine.Invocation;
using System.CommandLine.Parsing;
using System.Text.RegularExpressions;
using RollRide.Cli.Commands;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Cli;

/// <summary>The command line: all commands, and how their faults reach the user.</summary>
public static partial class CommandLine
{
    private const string ProgramName = "rollride";

    // A name may begin with '@', which would otherwise be taken for a file of arguments.
    internal static readonly ParserConfiguration Parsing = new() { ResponseFileTokenReplacer = null };

    private static readonly Option<bool> Quiet = new("--quiet", "-q")
    {
        Description = "print nothing but warnings and faults",
        Recursive = true,
    };

    /// <summary>Runs one command line without showing progress.</summary>
    /// <param name="args">The arguments.</param>
    /// <param name="output">Where results go.</param>
    /// <param name="error">Where faults and warnings go.</param>
    /// <returns>The exit code, see <see cref="ExitCode"/>.</returns>
    public static Task<int> RunAsync(string[] args, TextWriter output, TextWriter error) =>
        RunAsync(args, new Terminal(output, error, ShowsProgress: false, TimeProvider.System));

    /// <summary>Runs one command line.</summary>
    /// <param name="args">The arguments.</param>
    /// <param name="terminal">Where the command speaks to its user.</param>
    /// <param name="cancellation">Stops the command.</param>
    /// <returns>The exit code, see <see cref="ExitCode"/>.</returns>
    public static async Task<int> RunAsync(string[] args, Terminal terminal, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(terminal);
        terminal = terminal with { Output = Guarded(terminal.Output, mustBeHeard: true), Error = Guarded(terminal.Error, mustBeHeard: false) };
        var error = terminal.Error;
        var asked = args is [var first, _, ..] && Commands.ContainsKey(first) ? first : null;
        var parsed = Root(asked).Parse(args, Parsing);
        if (parsed.Errors.Count > 0 && parsed.Action is ParseErrorAction)
        {
            foreach (var fault in (IReadOnlyList<string>)[.. Unknown(parsed)] is { Count: > 0 } unknown ? unknown : parsed.Errors.Select(fault => fault.Message))
                await error.WriteLineAsync(fault);
            await error.WriteLineAsync($"{Join(parsed.CommandResult.Command)} --help shows what is accepted.");
            return ExitCode.BadInput;
        }

        if (parsed.GetValue(Quiet))
            terminal = terminal with { Output = TextWriter.Null, ShowsProgress = false };
        try
        {
            if (parsed.Action == parsed.CommandResult.Command.Action && FolderOf(parsed) is { } folder)
            {
                await TellLeftovers(folder, error);
                OutputFolder.RequireWritable(folder);
            }

            return await parsed.InvokeAsync(new TerminalConfiguration(terminal), cancellation);
        }
        catch (UnwritableOutputException e)
        {
            return await Tell(error, FolderOf(parsed) is { } folder ? $"{e.Message} The files are in place in “{folder}”." : e.Message, ExitCode.BadInput);
        }
        catch (DataFileException e)
        {
            return await Tell(error, e.Message, ExitCode.BadInput);
        }
        catch (StudyException e)
        {
            return await Tell(error, e.Lines, ExitCode.RunFailed);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return await Tell(error, e.Message, ExitCode.BadInput);
        }
        catch (AggregateException e) when (e.InnerExceptions.All(WriteFault.Is))
        {
            // Runs side by side that could not put their time histories aside, all for the same reason.
            return await Tell(error, e.InnerExceptions[0].Message, ExitCode.BadInput);
        }
        catch (AggregateException e) when (e.InnerExceptions.All(inner => inner is PictureTooSmallException))
        {
            return await Tell(error, $"{e.InnerExceptions[0].Message} See --size and --dpi.", ExitCode.BadInput);
        }
        catch (Exception e) when (e is OutOfMemoryException || (e as AggregateException)?.Flatten().InnerExceptions.Any(inner => inner is OutOfMemoryException) == true)
        {
            return await Tell(error, $"Not enough memory: {MemoryAdvice.For(parsed.CommandResult.Command)}.", ExitCode.RunFailed);
        }
        catch (OperationCanceledException)
        {
            return await Tell(error, "Stopped; nothing was written.", ExitCode.Cancelled);
        }
#pragma warning disable CA1031 // The last line of defence: whatever happens, no stack trace reaches the user.
        catch (Exception e)
        {
            return await Tell(error, $"A fault of RollRide itself, not of your input ({e.GetType().Name}: {e.Message}). Please report it with the scenario.", ExitCode.Internal);
        }
#pragma warning restore CA1031
    }

    /// <summary>The root command with every command below it, or with the one alone that is asked for.</summary>
    /// <param name="asked">The command's name; null for all.</param>
    internal static RootCommand Root(string? asked = null)
    {
        var root = new RootCommand(Flowing(Description)) { Quiet };
        foreach (var create in Commands.Where(command => asked is null || command.Key == asked).Select(command => command.Value))
        {
            var command = create();
            command.Description = Flowing(command.Description!);
            root.Add(command);
        }

        var help = root.Options.OfType<HelpOption>().Single();
        help.Action = new ProgramHelp((HelpAction)help.Action!, ProgramName);
        return root;
    }

    /// <summary>A description in which each paragraph is one line, which the help breaks where the terminal ends.</summary>
    private static string Flowing(string description) => EndOfLine().Replace(description, " ");

    [GeneratedRegex(@"(?<=\S)\r?\n(?=\S)")]
    private static partial Regex EndOfLine();

    private const string Description =
        """
        Where should an axle's dampers sit, and how should they be valved? RollRide runs damper layouts over a bump and through a corner,
        from one scenario file.

        A design aid. Wheel lift means rollover risk. Confirm on instrumented tests by trained drivers in a closed area; local rules and
        licensed practice come first.
        """;

    /// <summary>What makes each command, by its name, in the order in which they are shown.</summary>
    private static readonly OrderedDictionary<string, Func<Command>> Commands = new()
    {
        ["compare"] = CompareCommand.Create,
        ["live"] = LiveCommand.Create,
        ["simulate"] = SimulateCommand.Create,
        ["road"] = RoadCommand.Create,
        ["modes"] = ModesCommand.Create,
        ["window"] = WindowCommand.Create,
        ["mounts"] = MountsCommand.Create,
        ["place"] = PlaceCommand.Create,
        ["damper"] = DamperCommand.Create,
        ["tune"] = TuneCommand.Create,
        ["sweep"] = SweepCommand.Create,
        ["merge"] = MergeCommand.Create,
        ["check"] = CheckCommand.Create,
        ["schema"] = SchemaCommand.Create,
        ["report"] = ReportCommand.Create,
        ["new"] = NewCommand.Create,
    };

    /// <summary>What to say of a first word that is no command, and of options that the command does not have. What follows from them is not said.</summary>
    private static IEnumerable<string> Unknown(ParseResult parsed)
    {
        var root = parsed.RootCommandResult.Command;
        if (parsed.CommandResult.Command == root && parsed.UnmatchedTokens is [var word, ..] && !word.StartsWith('-'))
        {
            var commands = root.Subcommands.Select(command => command.Name).ToArray();
            return [$"unknown command “{word}”; {NearestName.Ask(word, commands) ?? $"known: {string.Join(", ", commands)}"}"];
        }

        var options = parsed.CommandResult.Command.Options.Concat(root.Options).SelectMany(option => option.Aliases.Append(option.Name)).Where(IsLong).Distinct().ToArray();
        var values = parsed.CommandResult.Children.OfType<OptionResult>().SelectMany(option => option.Tokens).ToHashSet();
        return parsed.Tokens.TakeWhile(token => token.Type != TokenType.DoubleDash)
            .Where(token => token.Type == TokenType.Argument && IsLong(token.Value) && !values.Contains(token))
            .Select(token => token.Value.Split('=')[0])
            .Select(option => NearestName.Ask(option, options) is { } question ? $"unknown option “{option}”; {question}" : $"unknown option “{option}”");

        static bool IsLong(string name) => name is ['-', '-', _, ..];
    }

    private static TextWriter Guarded(TextWriter writer, bool mustBeHeard) => writer is TerminalWriter ? writer : new TerminalWriter(writer, mustBeHeard);

    private static string Join(Command command) => command is RootCommand ? ProgramName : $"{ProgramName} {command.Name}";

    /// <summary>The folder that the command writes its results into; null where it writes none.</summary>
    private static string? FolderOf(ParseResult parsed) =>
        parsed.CommandResult.Command.Options.OfType<FolderOption>().Select(option => parsed.GetValue(option)).FirstOrDefault();

    /// <summary>Finishes or removes what killed runs left in a folder, and says so.</summary>
    private static async Task TellLeftovers(string path, TextWriter error)
    {
        foreach (var leftover in LeftoverRun.Repair(path))
        {
            await error.WriteLineAsync("warning: " + leftover.Fate switch
            {
                LeftoverFate.Finished => $"an earlier run was killed while it put its files in place in “{path}”; the rest of them was put in place now.",
                LeftoverFate.Removed => $"an earlier run into “{path}” was killed before its files were whole; what it left was removed, and older results are as they were.",
                LeftoverFate.WithoutLock => $"“{leftover.Path}” is left of a run that was killed; it has no lock, so it was left as it is, and files beside it may be of two runs. Remove it once looked at.",
                _ => $"“{leftover.Path}” is left of a run that was killed, unless one is still writing there: files beside it may be of two runs. Remove it once looked at.",
            });
        }
    }

    private static Task<int> Tell(TextWriter error, string message, int exitCode) => Tell(error, message.Split('\n'), exitCode);

    private static async Task<int> Tell(TextWriter error, IEnumerable<string> lines, int exitCode)
    {
        foreach (var line in lines)
            await error.WriteLineAsync(line);
        return exitCode;
    }
}
