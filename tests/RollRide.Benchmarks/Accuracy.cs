using RollRide.Dynamics;

namespace RollRide.Benchmarks;

/// <summary>Error of the reference case against a solution at a tight tolerance, so that a faster wrong answer does not pass.</summary>
internal static class Accuracy
{
    private static readonly double[] Tolerances = [1e-4, 1e-5, 1e-6, 1e-7, 1e-8];

    public static void Write(TextWriter output)
    {
        var reference = Run(1e-12).History;
        output.WriteLine("relative tolerance, steps, evaluations, roll error of peak, body acceleration error of peak");
        foreach (var tolerance in Tolerances)
        {
            var (history, statistics) = Run(tolerance);
            output.WriteLine(FormattableString.Invariant(
                $"{tolerance:E0}, {statistics.AcceptedSteps}, {statistics.DerivativeEvaluations}, {Error(history, reference, Channel.BodyRoll):E1}, {Error(history, reference, Channel.BodyAcceleration):E1}"));
        }
    }

    private static (TimeHistory History, Numerics.RunStatistics Statistics) Run(double tolerance)
    {
        var simulation = new Simulation(ReferenceCase.Car, ReferenceCase.Manoeuvre, ReferenceCase.Solver(tolerance));
        var recorder = new TimeHistoryRecorder(simulation.Equations, ReferenceCase.Manoeuvre.Duration, 1000);
        var statistics = simulation.Run([recorder]);
        return (recorder.ToHistory(), statistics);
    }

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
