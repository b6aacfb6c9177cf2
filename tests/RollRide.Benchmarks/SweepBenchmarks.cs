using BenchmarkDotNet.Attributes;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Vehicle;

namespace RollRide.Benchmarks;

/// <summary>
/// 10 000 variants of the reference case, whose springs go from 45 to 60 N/mm: the steps alone and with all figures of a sweep, on one thread and
/// on all. Time a variant is the mean over 10 000.
/// </summary>
/// <remarks><code>dotnet run -c Release --project tests/RollRide.Benchmarks -- --filter "*Sweep*"</code></remarks>
[MemoryDiagnoser]
[SimpleJob(launchCount: 1, warmupCount: 1, iterationCount: 5)]
public class SweepBenchmarks
{
    private const int Variants = 10_000;
    private const int Batch = 16;

    /// <summary>Relative tolerance of the integration: see the errors printed before the times.</summary>
    [Params(1e-3, 1e-4)]
    public double Tolerance { get; set; }

    /// <summary>The integration alone, on one thread.</summary>
    [Benchmark(Baseline = true, OperationsPerInvoke = Variants)]
    public void StepsOnly() => Sweep(threads: 1, withFigures: false);

    /// <summary>With all figures, on one thread.</summary>
    [Benchmark(OperationsPerInvoke = Variants)]
    public void WithFigures() => Sweep(threads: 1, withFigures: true);

    /// <summary>With all figures, on all threads.</summary>
    [Benchmark(OperationsPerInvoke = Variants)]
    public void WithFiguresOnAllThreads() => Sweep(Environment.ProcessorCount, withFigures: true);

    private void Sweep(int threads, bool withFigures) => Parallel.For(
        0, Variants / Batch, new ParallelOptions { MaxDegreeOfParallelism = threads }, batch => RunBatch(batch * Batch, withFigures));

    private void RunBatch(int first, bool withFigures)
    {
        var recorders = new RunRecorder?[Batch];
        var runs = new PendingRun[Batch];
        for (var i = 0; i < Batch; i++)
        {
            var simulation = new Simulation(Variant(first + i), ReferenceCase.Manoeuvre, ReferenceCase.Solver(Tolerance));
            recorders[i] = withFigures ? new RunRecorder(simulation.Equations, ReferenceCase.Manoeuvre, withDistributions: false) : null;
            runs[i] = new PendingRun(simulation, recorders[i] is { } recorder ? [recorder] : []);
        }

        PendingRun.MakeAll(runs);
        if (runs.FirstOrDefault(run => run.Failure is not null) is { } failed)
            throw new InvalidOperationException("A variant failed.", failed.Failure);
        foreach (var recorder in recorders)
            recorder?.ToMetrics();
    }

    private static AssembledHalfCar Variant(int number)
    {
        var car = ReferenceCase.Car;
        var spring = car.Vehicle.Spring with { Characteristic = new LinearSpring(45e3 + (15e3 * number / Variants)) };
        return new AssembledHalfCar(car.Vehicle with { Spring = spring }, car.Layout);
    }
}
