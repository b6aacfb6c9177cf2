using System.Diagnostics;
using System.Globalization;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Sweeps;

namespace RollRide.Benchmarks;

/// <summary>
/// The shipped bump-then-corner scenario swept as the command does it, all three layouts, from the file to the finished table; prints wall clock and
/// processor time. How many variants, and on how many threads, follows the name:
/// <code>dotnet run -c Release --project tests/RollRide.Benchmarks -- shipped-sweep 10000 2</code>
/// </summary>
internal static class ShippedSweep
{
    private const int Lot = 64;

    private static readonly Lazy<SweepPlan> Lots = new(() => SweepPlanReader.Read(ScenarioTemplate.Read(CommandBenchmarks.ShippedScenario), VariantBenchmarks.Options(Lot)));

    /// <summary>Runs one lot of its variants on this thread, from their numbers to their figures.</summary>
    /// <returns>The number of runs.</returns>
    public static int RunLot()
    {
        _ = VariantResult.Run(Lots.Value, 0, Lot);
        return Lot * Lots.Value.Layouts.Length;
    }

    /// <summary>Runs it once.</summary>
    /// <param name="arguments">Number of variants, 10000 if left out; number of threads, all if left out; another scenario that has the same springs' rate.</param>
    /// <param name="output">Receives a line.</param>
    public static void Write(string[] arguments, TextWriter output)
    {
        var variants = arguments is [var count, ..] ? int.Parse(count, CultureInfo.InvariantCulture) : 10_000;
        var threads = arguments is [_, var most, ..] ? int.Parse(most, CultureInfo.InvariantCulture) : Environment.ProcessorCount;
        var scenario = arguments is [_, _, var file] ? file : CommandBenchmarks.ShippedScenario;
        var folder = Directory.CreateTempSubdirectory("rollride-sweep-");
        try
        {
            var start = Process.GetCurrentProcess().TotalProcessorTime;
            var clock = Stopwatch.StartNew();
            var plan = SweepPlanReader.Read(ScenarioTemplate.Read(scenario), VariantBenchmarks.Options(variants));
            var table = new SweepTable(folder.FullName, plan, SweepShare.Whole);
            table.Fill(table.Prepare(resume: false, overwrite: false), threads);
            var used = Process.GetCurrentProcess().TotalProcessorTime - start;
            output.WriteLine(FormattableString.Invariant(
                $"{variants} variants of {plan.Layouts.Length} layouts on {threads} threads: {clock.Elapsed.TotalSeconds:F2} s, {used.TotalSeconds:F2} s of processor time, {used.TotalMicroseconds / variants / plan.Layouts.Length:F0} µs a run"));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
