using BenchmarkDotNet.Attributes;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Benchmarks;

/// <summary>
/// One run of the reference case, 6 s: the steps alone; with the states and accelerations at 1 kHz; with every channel at 1 kHz; with all
/// figures; and from the derivatives, without series. The errors at each tolerance are printed before the times.
/// </summary>
/// <remarks><code>dotnet run -c Release --project tests/RollRide.Benchmarks -- --filter "*Solver*"</code></remarks>
[MemoryDiagnoser]
public class SolverBenchmarks
{
    private static readonly Channel[] StatesAndAccelerations =
        [.. Enum.GetValues<Channel>().Where(channel => channel <= Channel.UnsprungRollAcceleration)];

    /// <summary>Relative tolerance of the integration: the series meet the errors wanted at each, the derivatives only at the finest.</summary>
    [Params(1e-3, 1e-4, 1e-6)]
    public double Tolerance { get; set; }

    /// <summary>The integration alone.</summary>
    [Benchmark(Baseline = true)]
    public RunStatistics StepsOnly() => NewSimulation().Run([]);

    /// <summary>With eight states and four accelerations at 1 kHz.</summary>
    [Benchmark]
    public TimeHistory WithOutput() => Record(StatesAndAccelerations);

    /// <summary>With every channel at 1 kHz.</summary>
    [Benchmark]
    public TimeHistory WithHistory() => Record(null);

    /// <summary>With the figures of the run and both phases.</summary>
    [Benchmark]
    public RunMetrics WithMetrics()
    {
        var simulation = NewSimulation();
        var recorder = new RunRecorder(simulation.Equations, ReferenceCase.Manoeuvre);
        simulation.Run([recorder]);
        return recorder.ToMetrics();
    }

    /// <summary>The integration alone, from the derivatives, as for vehicles whose equations have no series.</summary>
    [Benchmark]
    public RunStatistics StepByStep()
    {
        var manoeuvre = ReferenceCase.Manoeuvre;
        var equations = new HalfCarEquations(ReferenceCase.Car, manoeuvre.Road, manoeuvre.Cornering);
        return Integrator.Run(equations, 0, manoeuvre.Duration, new double[equations.Dimension], manoeuvre.Breakpoints, ReferenceCase.Solver(Tolerance));
    }

    private TimeHistory Record(IReadOnlyList<Channel>? channels)
    {
        var simulation = NewSimulation();
        var recorder = new TimeHistoryRecorder(simulation.Equations, ReferenceCase.Manoeuvre.Duration, 1000, channels);
        simulation.Run([recorder]);
        return recorder.ToHistory();
    }

    private Simulation NewSimulation() => new(ReferenceCase.Car, ReferenceCase.Manoeuvre, ReferenceCase.Solver(Tolerance));
}
