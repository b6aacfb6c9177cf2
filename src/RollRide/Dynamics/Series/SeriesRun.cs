using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <summary>Drives a single run by series, showing every step to an observer.</summary>
internal static class SeriesRun
{
    private const int StepsBetweenCancellationChecks = 100;

    /// <summary>Integrates the whole manoeuvre.</summary>
    /// <param name="car">The run.</param>
    /// <param name="equations">The same run's equations, which observers evaluate; told every segment.</param>
    /// <param name="state">States at time 0.</param>
    /// <param name="options">Tolerances and limits.</param>
    /// <param name="observer">Is shown every step.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <exception cref="IntegrationException">A state became non-finite, or too many steps were needed.</exception>
    public static RunStatistics Run(
        SeriesCar car, HalfCarEquations equations, ReadOnlySpan<double> state, IntegratorOptions options, IStepObserver observer, CancellationToken cancellation)
    {
        var solver = new SeriesSolver<OneLane>(options);
        var step = new SeriesStep(solver, 0);
        solver.Load(0, car, state);
        var lane = solver.Lanes[0];
        var segment = -1;
        do
        {
            if (lane.Steps % StepsBetweenCancellationChecks == 0)
                cancellation.ThrowIfCancellationRequested();
            if (lane.Segment != segment)
            {
                segment = lane.Segment;
                equations.EnterSegment(segment == 0 ? 0 : car.Segments[segment - 1].End, car.Segments[segment].End);
            }

            solver.Step();
            solver.CheckStep(0);
            observer.Observe(step);
        }
        while (solver.Advance() == 0);
        return new RunStatistics(lane.Steps, 0, lane.Steps * (SeriesRow.Order - 1));
    }
}
