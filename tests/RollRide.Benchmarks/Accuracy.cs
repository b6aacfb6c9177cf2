using RollRide.Dynamics;
using RollRide.Metrics;

namespace RollRide.Benchmarks;

/// <summary>Errors of the reference cases against a solution at a tight tolerance, so that a faster wrong answer does not pass.</summary>
internal static class Accuracy
{
    private const double Tight = 1e-5;

    private static readonly double[] Factors = [100, 10, 3, 1, 0.1];

    public static void Write(TextWriter output)
    {
        output.WriteLine("case, relative tolerance, absolute tolerance, steps, rejected, roll error of peak, body acceleration error of peak, largest relative error of a figure");
        foreach (var name in (string[])["given", "mounts"])
        {
            var (reference, figures) = (Run(name, Tight).History, Figures(name, Tight));
            foreach (var factor in Factors)
            {
                var (history, statistics) = Run(name, factor);
                output.WriteLine(FormattableString.Invariant(
                    $"{name}, {ReferenceCase.Solver(factor).RelativeTolerance:E0}, {ReferenceCase.Solver(factor).AbsoluteTolerance:E0}, {statistics.AcceptedSteps}, {statistics.RejectedSteps}, {Error(history, reference, Channel.BodyRoll):E1}, {Error(history, reference, Channel.BodyAcceleration):E1}, {Error(Figures(name, factor), figures):E1}"));
            }
        }
    }

    private static (TimeHistory History, Numerics.RunStatistics Statistics) Run(string name, double factor)
    {
        var simulation = new Simulation(ReferenceCase.Car(name), ReferenceCase.Manoeuvre, ReferenceCase.Solver(factor));
        var recorder = new TimeHistoryRecorder(simulation.Equations, ReferenceCase.Manoeuvre.Duration, 1000);
        var statistics = simulation.Run([recorder]);
        return (recorder.ToHistory(), statistics);
    }

    private static double[] Figures(string name, double factor)
    {
        var run = new MeasuredRun(ReferenceCase.Car(name), ReferenceCase.Manoeuvre, ReferenceCase.Solver(factor)).Make().Metrics;
        return
        [
            .. run.Phases.Append(run.Whole).SelectMany(phase => PhaseMetric.All.Where(IsMeasured).Select(metric => metric.Of(phase) ?? 0)),
            .. RollMetric.All.Select(metric => metric.Of(run) ?? 0),
        ];
    }

    // Means that pass through zero have no relative error.
    private static bool IsMeasured(PhaseMetric metric) => metric != PhaseMetric.RideHeightShift;

    private static double Error(double[] found, double[] exact) => found.Zip(exact, (x, y) => y == 0 ? Math.Abs(x) : Math.Abs((x / y) - 1)).Max();

    private static double Error(TimeHistory history, TimeHistory reference, Channel channel)
    {
        var (error, peak) = (0.0, 0.0);
        for (var i = 0; i < reference.Count; i++)
        {
            error = Math.Max(error, Math.Abs(history[channel][i] - reference[channel][i]));
            peak = Math.Max(peak, Math.Abs(reference[channel][i]));
        }

        return error / peak;
    }
}
