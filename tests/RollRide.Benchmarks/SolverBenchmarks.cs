using BenchmarkDotNet.Attributes;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Benchmarks;

/// <summary>One run of the reference case at the default tolerance: the steps alone, with a 1 kHz history, with all metrics.</summary>
[MemoryDiagnoser]
public class SolverBenchmarks
{
    /// <summary>Relative tolerance of the integration.</summary>
    [Params(1e-6)]
    public double Tolerance { get; set; }

    /// <summary>The integration alone.</summary>
    [Benchmark(Baseline = true)]
    public RunStatistics StepsOnly() => NewSimulation().Run([]);

    /// <summary>With every channel sampled at 1 kHz.</summary>
    [Benchmark]
    public TimeHistory WithHistory()
    {
        var simulation = NewSimulation();
        var recorder = new TimeHistoryRecorder(simulation.Equations, ReferenceCase.Manoeuvre.Duration, 1000);
        simulation.Run([recorder]);
        return recorder.ToHistory();
    }

    /// <summary>With the metrics of the run and both phases.</summary>
    [Benchmark]
    public RunMetrics WithMetrics()
    {
        var simulation = NewSimulation();
        var recorder = new MetricsRecorder(simulation.Equations, ReferenceCase.Manoeuvre);
        simulation.Run([recorder]);
        return recorder.ToMetrics();
    }

    private Simulation NewSimulation() => new(ReferenceCase.Car, ReferenceCase.Manoeuvre, ReferenceCase.Solver(Tolerance));
}
