using System.Diagnostics;

namespace RollRide.Benchmarks;

/// <summary>
/// Times a fixed amount of work again and again and prints each time at once, so that a script can let another program run in between:
/// <code>dotnet run -c Release --project tests/RollRide.Benchmarks -- pairs sweep mounts 15</code>
/// </summary>
internal static class Pairs
{
    private const int Batch = 64;

    /// <summary>Runs what the arguments name.</summary>
    /// <param name="arguments">What (sweep or output), case, number of times.</param>
    /// <param name="output">Receives a line for each time: microseconds of processor time a run.</param>
    public static void Write(string[] arguments, TextWriter output)
    {
        var (what, name) = (arguments[0], arguments[1]);
        var times = int.Parse(arguments[2], System.Globalization.CultureInfo.InvariantCulture);
        var warm = Stopwatch.StartNew();
        while (warm.ElapsedMilliseconds < 3000)
            Work();
        for (var time = 0; time < times; time++)
        {
            var runs = 0;
            var start = Process.GetCurrentProcess().TotalProcessorTime;
            var span = Stopwatch.StartNew();
            while (span.ElapsedMilliseconds < 250)
                runs += Work();
            var used = Process.GetCurrentProcess().TotalProcessorTime - start;
            output.WriteLine(FormattableString.Invariant($"{used.TotalMicroseconds / runs:F1}"));
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

            SweepBenchmarks.RunBatch(name, 0, Batch);
            return Batch;
        }
    }
}
