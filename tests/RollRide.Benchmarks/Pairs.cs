using System.Diagnostics;
using System.Globalization;

namespace RollRide.Benchmarks;

/// <summary>
/// Times a fixed amount of work again and again and prints each time at once, so that a script can let another program run in between; or one case and
/// another in turn, and what the other takes more:
/// <code>
/// dotnet run -c Release --project tests/RollRide.Benchmarks -- pairs sweep mounts 15
/// dotnet run -c Release --project tests/RollRide.Benchmarks -- beside mounts gas 15
/// </code>
/// </summary>
internal static class Pairs
{
    private const int Batch = 64;

    /// <summary>Runs what the arguments name.</summary>
    /// <param name="arguments">What (sweep, output, hour or shipped), case, number of times.</param>
    /// <param name="output">Receives a line for each time: microseconds of processor time a run.</param>
    public static void Write(string[] arguments, TextWriter output)
    {
        var (what, name) = (arguments[0], arguments[1]);
        var times = int.Parse(arguments[2], CultureInfo.InvariantCulture);
        Warm(Work);
        for (var time = 0; time < times; time++)
        {
            output.WriteLine(FormattableString.Invariant($"{Time(Work):F1}"));
            output.Flush();
        }

        int Work()
        {
            if (what == "hour")
            {
                RandomHourBenchmarks.RunHour();
                return 1;
            }

            if (what == "output")
            {
                SolverBenchmarks.WithOutput(name);
                return 1;
            }

            return what == "shipped" ? ShippedSweep.RunLot() : Sweep(name);
        }
    }

    /// <summary>Runs two cases side by side in lanes, in turn, so that both meet the same machine.</summary>
    /// <param name="arguments">The case compared with, the other case, number of pairs.</param>
    /// <param name="output">Receives the medians.</param>
    public static void WriteBeside(string[] arguments, TextWriter output)
    {
        var (plain, other) = (arguments[0], arguments[1]);
        Warm(() => Sweep(plain));
        Warm(() => Sweep(other));
        var pairs = Enumerable.Range(0, int.Parse(arguments[2], CultureInfo.InvariantCulture)).Select(_ => (Plain: Time(() => Sweep(plain)), Other: Time(() => Sweep(other)))).ToArray();
        output.WriteLine(FormattableString.Invariant(
            $"{plain} {Median(pairs.Select(pair => pair.Plain)):F0} µs, {other} {Median(pairs.Select(pair => pair.Other)):F0} µs a run; of the pairs {100 * (Median(pairs.Select(pair => pair.Other / pair.Plain)) - 1):+0;-0} %"));
    }

    private static int Sweep(string name)
    {
        SweepBenchmarks.RunBatch(name, 0, Batch);
        return Batch;
    }

    private static void Warm(Func<int> work)
    {
        var warm = Stopwatch.StartNew();
        while (warm.ElapsedMilliseconds < 3000)
            work();
    }

    /// <summary>Processor time of a run, µs.</summary>
    private static double Time(Func<int> work)
    {
        var runs = 0;
        var start = Process.GetCurrentProcess().TotalProcessorTime;
        var span = Stopwatch.StartNew();
        while (span.ElapsedMilliseconds < 250)
            runs += work();
        return (Process.GetCurrentProcess().TotalProcessorTime - start).TotalMicroseconds / runs;
    }

    private static double Median(IEnumerable<double> values)
    {
        double[] ordered = [.. values.Order()];
        return ordered[ordered.Length / 2];
    }
}
