using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Benchmarks;

/// <summary>Errors of the reference case against a solution at a tight tolerance, so that a faster wrong answer does not pass.</summary>
internal static class Accuracy
{
    private const double Tight = 1e-12;

    private static readonly double[] Tolerances = [1e-3, 1e-4, 1e-5, 1e-6, 1e-7, 1e-8];

    public static void Write(TextWriter output)
    {
        // The reference owes nothing to the series: it is integrated from the derivatives.
        var reference = StepByStep(Tight).History;
        var figures = Figures(Tight);
        output.WriteLine("way, relative tolerance, steps, roll error of peak, body acceleration error of peak, largest relative error of a figure");
        foreach (var tolerance in Tolerances)
        {
            Row("series", tolerance, Series(tolerance), Error(Figures(tolerance), figures));
            Row("step by step", tolerance, StepByStep(tolerance), double.NaN);
        }

        void Row(string way, double tolerance, (TimeHistory History, RunStatistics Statistics) run, double figure) => output.WriteLine(FormattableString.Invariant(
            $"{way}, {tolerance:E0}, {run.Statistics.AcceptedSteps}, {Error(run.History, reference, Channel.BodyRoll):E1}, {Error(run.History, reference, Channel.BodyAcceleration):E1}, {(double.IsNaN(figure) ? "" : FormattableString.Invariant($"{figure:E1}"))}"));
    }

    private static (TimeHistory History, RunStatistics Statistics) Series(double tolerance)
    {
        var simulation = new Simulation(ReferenceCase.Car, ReferenceCase.Manoeuvre, ReferenceCase.Solver(tolerance));
        var recorder = new TimeHistoryRecorder(simulation.Equations, ReferenceCase.Manoeuvre.Duration, 1000);
        var statistics = simulation.Run([recorder]);
        return (recorder.ToHistory(), statistics);
    }

    private static (TimeHistory History, RunStatistics Statistics) StepByStep(double tolerance)
    {
        var manoeuvre = ReferenceCase.Manoeuvre;
        var equations = new HalfCarEquations(ReferenceCase.Car, manoeuvre.Road, manoeuvre.Cornering);
        var recorder = new TimeHistoryRecorder(equations, manoeuvre.Duration, 1000);
        var statistics = Integrator.Run(
            equations, 0, manoeuvre.Duration, new double[equations.Dimension], manoeuvre.Breakpoints, ReferenceCase.Solver(tolerance), recorder);
        return (recorder.ToHistory(), statistics);
    }

    private static double[] Figures(double tolerance)
    {
        var simulation = new Simulation(ReferenceCase.Car, ReferenceCase.Manoeuvre, ReferenceCase.Solver(tolerance));
        var recorder = new RunRecorder(simulation.Equations, ReferenceCase.Manoeuvre);
        simulation.Run([recorder]);
        var (run, response) = (recorder.ToMetrics(), recorder.ToMetrics().RollResponse!);
        return
        [
            .. run.Phases.Append(run.Whole).SelectMany(phase => new[]
            {
                phase.BodyAccelerationRms, phase.BodyAccelerationPeak, phase.RollAccelerationRms, phase.RollAccelerationPeak, phase.BodyComfort.WeightedRms,
                phase.RollAnglePeak, phase.BumpTravelPeak, phase.ReboundTravelPeak, phase.DynamicLoadCoefficient, phase.LoadTransferPeak,
                phase.DamperCompressionVelocityPeak, phase.DamperReboundVelocityPeak, phase.DamperEnergy,
            }),
            response.Overshoot!.Value, response.ResponseTime!.Value, response.PeakTime!.Value, response.SettlingTime!.Value,
        ];
    }

    private static double Error(double[] found, double[] exact) => found.Zip(exact, (x, y) => Math.Abs((x / y) - 1)).Max();

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
