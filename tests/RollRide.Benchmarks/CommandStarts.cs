using System.Diagnostics;
using System.Globalization;

namespace RollRide.Benchmarks;

/// <summary>Whole commands of two builds of the program, run in turn: what a change costs where nothing should change.</summary>
/// <remarks><code>dotnet run -c Release --project tests/RollRide.Benchmarks -- starts OTHER/RollRide.Cli.dll [runs]</code></remarks>
internal static class CommandStarts
{
    /// <summary>Prints the median of each build, and of the differences within a turn.</summary>
    /// <param name="args">The other build's program and how many runs (21).</param>
    /// <param name="output">Where the table goes.</param>
    public static void Write(string[] args, TextWriter output)
    {
        var runs = args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 21;
        var results = Directory.CreateTempSubdirectory("rollride-starts-");
        try
        {
            foreach (var command in (string[][])[["--version"], ["check", CommandBenchmarks.ShippedScenario], ["compare", CommandBenchmarks.ShippedScenario, "--no-plots", "--out", results.FullName]])
            {
                var times = Enumerable.Range(0, runs + 1).Select(_ => (Other: Time(args[0], command), This: Time(CommandBenchmarks.Program, command))).Skip(1).ToArray();
                output.WriteLine(string.Create(
                    CultureInfo.InvariantCulture,
                    $"{command[0],-10} other build {Median(times.Select(time => time.Other)):F1} ms, this build {Median(times.Select(time => time.This)):F1} ms, difference {Median(times.Select(time => time.This - time.Other)):F1} ms"));
            }
        }
        finally
        {
            results.Delete(recursive: true);
        }
    }

    private static double Time(string program, string[] command)
    {
        var begin = Stopwatch.GetTimestamp();
        CommandBenchmarks.Run(program, command);
        return Stopwatch.GetElapsedTime(begin).TotalMilliseconds;
    }

    private static double Median(IEnumerable<double> times)
    {
        var sorted = times.Order().ToArray();
        return sorted[sorted.Length / 2];
    }
}
