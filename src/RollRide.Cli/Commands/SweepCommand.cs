using System.CommandLine;
using System.CommandLine.Parsing;
using System.Globalization;
using RollRide.Cli.Terminals;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Sweeps;

namespace RollRide.Cli.Commands;

/// <summary>Runs many variants of a scenario.</summary>
internal static class SweepCommand
{
    // Runs: some hours on two cores. More are most often a slip in the levels.
    private const long MostUnasked = 1_000_000;

    public static Command Create()
    {
        var input = new SweepInput();
        var part = new Option<SweepShare>("--part")
        {
            Description = "run only this share of the variants, such as 2/8; rollride merge joins the shares",
            HelpName = "I/N",
            CustomParser = ShareOf,
            DefaultValueFactory = _ => SweepShare.Whole,
        };
        var resume = new Option<bool>("--resume") { Description = "continue a sweep that was stopped, or start it if there is none" };
        var yes = new Option<bool>("--yes") { Description = "run more than a million variants" };
        var threads = new Option<int?>("--threads")
        {
            Description = "variants run at once; if left out, as many as there are cores",
            HelpName = "count",
        };
        threads.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var text }] && !(int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count is >= 1 and <= 1024))
                result.AddError($"--threads: “{text}” is not a whole number from 1 to 1024.");
        });
        var command = new Command("sweep",
            """
            Run many variants of a scenario. Writes a table of all metrics, statistics, which inputs drive each metric, and figures.

            Example:
              rollride sweep scenarios/bump-then-corner.json --vary dampers.valley.forceScale=0.8,1,1.2
            """);
        input.AddTo(command);
        foreach (var option in (Option[])[part, resume, threads, yes])
            command.Add(option);
        command.SetAction((parsed, cancellation) =>
        {
            var (plan, results) = input.Plan(parsed, cancellation);
            if (plan.VariantCount > MostUnasked && !parsed.GetValue(yes))
                throw SweepInput.Fault("--yes", string.Create(CultureInfo.InvariantCulture, $"this sweep has {plan.VariantCount} variants, more than a million; give --yes if that is meant"));
            var share = parsed.GetValue(part)!;
            if (share != SweepShare.Whole && input.AsJson(parsed))
                throw SweepInput.Fault("--json", "a share has no summary yet; rollride merge --json prints that of all shares");
            if (parsed.GetValue(resume) && input.Overwrites(parsed))
                throw SweepInput.Fault("--overwrite", "begins anew, and --resume goes on: give one of them");
            var table = new SweepTable(input.Out(parsed), plan, share);
            var from = table.Prepare(parsed.GetValue(resume), input.Overwrites(parsed), cancellation);
            return Task.FromResult(Run(parsed, table, from, parsed.GetValue(threads) ?? Environment.ProcessorCount, cancellation)
                ? Finish(parsed, table, plan, results, input, cancellation)
                : ExitCode.Cancelled);
        });
        return command;
    }

    /// <summary>Runs what is missing; says whether it was finished.</summary>
    private static bool Run(ParseResult parsed, SweepTable table, long from, int threads, CancellationToken cancellation)
    {
        try
        {
            using var progress = ProgressLine.Of(parsed, "Variants run", table.End - table.First, from - table.First);
            table.Fill(from, threads, progress, ((TerminalConfiguration)parsed.InvocationConfiguration).Terminal.Clock, cancellation);
            return true;
        }
        catch (IOException e)
        {
            throw new IOException($"{e.Message} Finished variants are kept in it. When there is room, the same command with --resume goes on.", e);
        }
        catch (OperationCanceledException)
        {
            parsed.InvocationConfiguration.Error.WriteLine($"Stopped; finished variants are kept in {table.FullPath}. The same command with --resume goes on.");
            return false;
        }
    }

    private static int Finish(ParseResult parsed, SweepTable table, SweepPlan plan, OutputFile results, SweepInput input, CancellationToken cancellation)
    {
        if (table.Share == SweepShare.Whole)
            return SweepReport.Write(parsed, input, plan, results, table, cancellation);
        parsed.InvocationConfiguration.Output.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"Share {table.Share}: {table.End - table.First} of {plan.VariantCount} variants, written to {table.FullPath}. When all shares are there, rollride merge joins them."));
        return ExitCode.Done;
    }

    private static SweepShare? ShareOf(ArgumentResult result)
    {
        var text = result.Tokens[0].Value;
        if (text.Split('/') is [var number, var of]
            && int.TryParse(number, NumberStyles.None, CultureInfo.InvariantCulture, out var i)
            && int.TryParse(of, NumberStyles.None, CultureInfo.InvariantCulture, out var n)
            && i >= 1 && i <= n)
        {
            return new SweepShare(i, n);
        }

        result.AddError($"--part: “{text}” is not a share such as 2/8: the first number is from 1 to the second.");
        return null;
    }
}
