using BenchmarkDotNet.Attributes;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Vehicle;

namespace RollRide.Benchmarks;

/// <summary>
/// Variants of the reference cases, whose springs go from 45 to 60 N/mm, with all figures of a sweep: side by side on one thread and on all, and one
/// by one. Time a variant.
/// </summary>
/// <remarks><code>dotnet run -c Release --project tests/RollRide.Benchmarks -- --filter "*Sweep*"</code></remarks>
[MemoryDiagnoser]
[Config(typeof(PatientConfig))]
public class SweepBenchmarks
{
    private const int Variants = 2048;
    private const int Batch = 64;

    /// <summary>The case.</summary>
    [Params("given", "mounts")]
    public string Case { get; set; } = "";

    /// <summary>One by one, on one thread.</summary>
    [Benchmark(OperationsPerInvoke = Variants)]
    public void OneByOne() => Sweep(1, 1);

    /// <summary>Side by side, on one thread.</summary>
    [Benchmark(Baseline = true, OperationsPerInvoke = Variants)]
    public void SideBySide() => Sweep(1, Batch);

    /// <summary>Side by side, on all threads.</summary>
    [Benchmark(OperationsPerInvoke = Variants)]
    public void SideBySideOnAllThreads() => Sweep(Environment.ProcessorCount, Batch);

    internal static void RunBatch(string name, int first, int count)
    {
        var runs = new MeasuredRun[count];
        for (var i = 0; i < count; i++)
            runs[i] = new MeasuredRun(Variant(name, first + i), ReferenceCase.Manoeuvre, ReferenceCase.Solver(), withDistributions: false);
        MeasuredRun.MakeAll(runs);
        foreach (var run in runs)
            _ = run.Metrics;
    }

    private void Sweep(int threads, int batch) => Parallel.For(
        0, Variants / batch, new ParallelOptions { MaxDegreeOfParallelism = threads }, number => RunBatch(Case, number * batch, batch));

    private static AssembledHalfCar Variant(string name, int number)
    {
        var car = ReferenceCase.Car(name);
        var spring = car.Vehicle.Spring with { Characteristic = new LinearSpring(45e3 + (15e3 * number / Variants)) };
        return new AssembledHalfCar(car.Vehicle with { Spring = spring }, car.Layout);
    }
}
