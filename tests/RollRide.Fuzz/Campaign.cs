using System.Diagnostics;
using System.Globalization;

namespace RollRide.Fuzz;

/// <summary>Runs case after case, and prints each finding once, made as small as it goes.</summary>
internal sealed class Campaign(CaseMaker maker, TextWriter output, TimeSpan limit, string? keep)
{
    private static readonly TimeSpan ToMinimise = TimeSpan.FromSeconds(20);

    private readonly Judge _judge = new(limit);

    /// <summary>Runs cases, in order, until all are done or the time is up.</summary>
    /// <returns>0 without a finding, 1 with one.</returns>
    public int Run(int seed, int first, int count, TimeSpan time)
    {
        using var runner = new CaseRunner(limit);
        var known = new HashSet<string>(StringComparer.Ordinal);
        var exits = new SortedDictionary<int, int>();
        var watch = Stopwatch.StartNew();
        var (done, slowest) = (0, (Elapsed: TimeSpan.Zero, Case: first));
        for (; done < count && watch.Elapsed < time; done++)
        {
            var number = first + done;
            var made = maker.Make(number);
            var outcome = runner.Run(made.Input());
            if (outcome.Elapsed > slowest.Elapsed)
                slowest = (outcome.Elapsed, number);
            if (outcome.ExitCode is { } exit)
                exits[exit] = exits.GetValueOrDefault(exit) + 1;
            if (_judge.Of(made, outcome, CaseRunner.Written) is not { } finding || !known.Add(finding.Signature))
                continue;
            var small = made;
            if (!outcome.Hangs)
            {
                string? SignatureOf(FuzzCase tried) => _judge.Of(tried, runner.Run(tried.Input()), CaseRunner.Written)?.Signature;
                small = new Minimiser(SignatureOf).Minimise(made, finding.Signature, ToMinimise);
            }

            Tell(seed, number, small, finding, known.Count);
            if (outcome.Hangs)
            {
                // Its threads go on and would be measured with every case that follows.
                output.WriteLine("The command goes on, so this ends here; go on with the next case by --first.");
                break;
            }
        }

        var codes = string.Join(", ", exits.Select(exit => FormattableString.Invariant($"{exit.Value} times {exit.Key}")));
        output.WriteLine(FormattableString.Invariant($"seed {seed}: {done} cases in {watch.Elapsed.TotalSeconds:F0} s, exit codes {codes}; slowest case {slowest.Case} with {slowest.Elapsed.TotalSeconds:F1} s; {known.Count} findings"));
        return known.Count == 0 ? 0 : 1;
    }

    private void Tell(int seed, int number, FuzzCase small, Finding finding, int count)
    {
        var input = small.Input();
        output.WriteLine(FormattableString.Invariant($"── finding {count}: {finding.Kind} (--seed {seed} --first {number} --cases 1)"));
        output.WriteLine(finding.Detail);
        output.WriteLine($"rollride {string.Join(' ', input.Words)}");
        output.WriteLine($"from {small.Seed.Name}, with");
        foreach (var change in small.Changes)
            output.WriteLine($"  {change.What}");
        if (keep is null)
        {
            output.WriteLine(input.ScenarioText);
        }
        else
        {
            var folder = Directory.CreateDirectory(Path.Combine(keep, count.ToString(CultureInfo.InvariantCulture))).FullName;
            File.WriteAllText(Path.Combine(folder, CaseInput.ScenarioName), input.ScenarioText);
            foreach (var (name, text) in input.Tables)
                File.WriteAllText(Path.Combine(folder, name), text);
            File.WriteAllText(Path.Combine(folder, "finding.txt"), $"{finding.Signature}\n{finding.Detail}\nrollride {string.Join(' ', input.Words)}\n");
            output.WriteLine($"files: {folder}");
        }
    }
}
