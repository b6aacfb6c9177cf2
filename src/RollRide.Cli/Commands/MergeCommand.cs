using System.CommandLine;
using System.Globalization;
using RollRide.Results;
using RollRide.Sweeps;

namespace RollRide.Cli.Commands;

/// <summary>Joins the shares of a sweep.</summary>
internal static class MergeCommand
{
    public static Command Create()
    {
        var input = new SweepInput();
        var from = new Option<string>("--from") { Description = "folder of the shares; if left out, that of the results", HelpName = "folder" };
        var parts = new Option<int>("--parts") { Description = "the number of shares: the N of --part I/N", HelpName = "N", Required = true };
        parts.Validators.Add(result =>
        {
            if (result.Tokens is [{ Value: var text }] && !(int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var count) && count is >= 1 and <= 1_000_000))
                result.AddError($"--parts: “{text}” is not a whole number from 1 to 1000000.");
        });
        var command = new Command("merge",
            """
            Join the shares of a sweep that were run with --part, and write what sweep writes. Give the scenario and the options of the
            shares.

            Example:
              rollride merge scenarios/sweep-load-states.json --parts 2 --from shares --out merged
            """);
        input.AddTo(command);
        command.Add(parts);
        command.Add(from);
        command.SetAction((parsed, cancellation) =>
        {
            var (plan, results) = input.Plan(parsed, cancellation);
            var count = parsed.GetValue(parts);
            var folder = parsed.GetValue(from) ?? input.Out(parsed);
            var table = new SweepTable(input.Out(parsed), plan, SweepShare.Whole);
            table.Join([.. Enumerable.Range(1, count).Select(i => new SweepTable(folder, plan, new SweepShare(i, count)))], input.Overwrites(parsed), cancellation);
            return Task.FromResult(SweepReport.Write(parsed, input, plan, results, table, cancellation));
        });
        return command;
    }
}
