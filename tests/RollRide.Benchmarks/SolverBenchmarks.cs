using BenchmarkDotNet.Attributes;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Benchmarks;

/// <summary>
/// One run of the reference cases, 6 s: the steps alone; with the states and accelerations at 1 kHz; with every channel at 1 kHz; and with all
/// figures. The errors at each tolerance are printed before the times.
/// </summary>
/// <remarks><code>dotnet run -c Release --project tests/RollRide.Benchmarks -- --filter "*Solver*"</code></remarks>
[MemoryDiagnoser]
[Config(typeof(PatientConfig))]
public class SolverBenchmarks
{
    private static readonly Channel[] StatesAndAccelerations =
        [.. Enum.GetValues<Channel>().Where(channel => channel <= Channel.UnsprungRollAcceleration)];

    /// <summary>The case.</summary>
    [Params("given", "mounts")]
    public string Case { get; set; } = "";

    /// <summary>The integration alone.</summary>
    [Benchmark(Baseline = true)]
    public RunStatistics StepsOnly() => NewSimulation(Case).Run([]);

    /// <summary>With eight states and four accelerations at 1 kHz.</summary>
    [Benchmark]
    public TimeHistory WithOutput() => WithOutput(Case);

    /// <summary>With every channel at 1 kHz.</summary>
    [Benchmark]
    public TimeHistory WithHistory() => Record(Case, null);

    /// <summary>With the figures of the run and both phases.</summary>
    [Benchmark]
    public RunMetrics WithMetrics() => new MeasuredRun(ReferenceCase.Car(Case), ReferenceCase.Manoeuvre, ReferenceCase.Solver()).Make().Metrics;

    internal static TimeHistory WithOutput(string name) => Record(name, StatesAndAccelerations);

    private static TimeHistory Record(string name, IReadOnlyList<Channel>? channels)
    {
        var simulation = NewSimulation(name);
        var recorder = new TimeHistoryRecorder(simulation.Equations, ReferenceCase.Manoeuvre.Duration, 1000, channels);
        simulation.Run([recorder]);
        return recorder.ToHistory();
    }

    private static Simulation NewSimulation(string name) => new(ReferenceCase.Car(name), ReferenceCase.Manoeuvre, ReferenceCase.Solver());
}
