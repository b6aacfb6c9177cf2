using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

/// <summary>
/// Step and ramp response of <c>ÿ + 2ζωn ẏ + ωn² y = ωn² u</c>, measured from the dense solution as a reader of the curve
/// would, against closed forms.
/// </summary>
public sealed class SecondOrderResponseTests
{
    private const double Scan = 0.005;
    private const double StepDuration = 100;
    private const double RampDuration = 5;

    // Derived from the textbook formulas; the column of 10-90 % is the table of N. S. Nise, Control Systems
    // Engineering (from memory), to more digits. Tolerances are half a unit of the last digit.
    [Theory]
    [InlineData(0.05, 85.4468, 3.145527, 1.06028, 1.62285, 1.06738, 1.51477, 76.0094)]
    [InlineData(0.10, 72.9248, 3.157419, 1.10420, 1.67938, 1.08842, 1.56221, 38.3833)]
    [InlineData(0.15, 62.0871, 3.177543, 1.15176, 1.74106, 1.11036, 1.61334, 25.8679)]
    [InlineData(0.20, 52.6621, 3.206375, 1.20343, 1.80870, 1.13327, 1.66864, 19.6019)]
    [InlineData(0.25, 44.4344, 3.244623, 1.25974, 1.88328, 1.15718, 1.72864, 14.1169)]
    [InlineData(0.30, 37.2326, 3.293284, 1.32134, 1.96605, 1.18217, 1.79398, 11.2301)]
    [InlineData(0.35, 30.9190, 3.353716, 1.38896, 2.05857, 1.20828, 1.86541, 10.9824)]
    [InlineData(0.40, 25.3827, 3.427759, 1.46349, 2.16288, 1.23559, 1.94380, 8.4093)]
    [InlineData(0.45, 20.5346, 3.517908, 1.54596, 2.28163, 1.26416, 2.03020, 8.3449)]
    [InlineData(0.50, 16.3034, 3.627599, 1.63757, 2.41840, 1.29404, 2.12580, 8.0763)]
    [InlineData(0.60, 9.4780, 3.926991, 1.85405, 2.76787, 1.35803, 2.35045, 5.9430)]
    [InlineData(0.65, 6.8077, 4.134032, 1.98227, 2.99813, 1.39226, 2.48285, 6.0073)]
    [InlineData(0.70, 4.5988, 4.399110, 2.12620, 3.28533, 1.42806, 2.63104, 5.9788)]
    [InlineData(0.70710678118654752, 4.3214, 4.442883, 2.14804, 3.33216, 1.43328, 2.65348, 5.9626)]
    [InlineData(0.80, 1.5165, 5.235988, 2.46749, 4.16349, 1.50459, 2.98104, 3.7558)]
    [InlineData(0.90, 0.1524, 7.207308, 2.88296, 6.17258, 1.58796, 3.40549, 4.6996)]
    public void Step_AnyDamping_MatchesTheClosedForm(
        double damping, double overshoot, double peak, double rise, double first, double half, double ninety, double settling)
    {
        var response = Respond(1, damping, new PiecewiseSignal(new SignalPiece(0, double.PositiveInfinity, new ConstantShape(1))), StepDuration);
        (double peakTime, double peakValue) = FirstPeak(response);
        var id = FormattableString.Invariant($"ζ = {damping:0.00##}");
        Validation.Row($"{id}, overshoot", "overshoot of a second-order step response, %", Evidence.Derived + "the textbook's formula", overshoot, 100 * (peakValue - 1), 5e-5);
        const string Formula = Evidence.Derived + "the textbook's formula";
        Validation.Row($"{id}, peak", "time of the peak of a second-order step response, 1/ωn", Formula, peak, peakTime, 6e-7);
        Validation.Row($"{id}, rise", "rise time 10–90 % of a second-order step response, 1/ωn", Evidence.Remembered + "Nise, Control Systems Engineering, to more digits",
            rise, FirstReach(response, 0.9) - FirstReach(response, 0.1), 6e-6);
        Validation.Row($"{id}, 100 %", "time to the final value of a second-order step response, 1/ωn", Formula, first, FirstReach(response, 1), 6e-6);
        Validation.Row($"{id}, 50 %", "time to half the final value of a second-order step response, 1/ωn", Formula, half, FirstReach(response, 0.5), 6e-6);
        Validation.Row($"{id}, 90 %", "time to 90 % of the final value of a second-order step response, 1/ωn", Formula, ninety, FirstReach(response, 0.9), 6e-6);
        Validation.Row($"{id}, settling", "time to stay within 2 % of a second-order step response, 1/ωn", Formula, settling, LastEntry(response, 0.02, StepDuration), 6e-5);
    }

    // K. Ogata, Modern Control Engineering, example 5-1 (from memory): ζ = 0.6, ωn = 5 rad/s. As printed, to half a unit of the
    // last digit, and recomputed. Its settling times are the rules 3/ζωn and 4/ζωn, no crossings, so they are not measured here.
    [Fact]
    public void Step_OgataExample_MatchesThePrintedAnswers()
    {
        var response = Respond(5, 0.6, new PiecewiseSignal(new SignalPiece(0, double.PositiveInfinity, new ConstantShape(1))), RampDuration);
        (double peakTime, double peakValue) = FirstPeak(response);
        const string Source = Evidence.Remembered + "Ogata, Modern Control Engineering, example 5-1";
        Validation.Row("rise", "rise time of a second-order step response, s", Source, 0.55, FirstReach(response, 1), 0.005);
        Assert.Equal(0.55357436, FirstReach(response, 1), 1e-8);
        Validation.Row("peak", "peak time of a second-order step response, s", Source, 0.785, peakTime, 5e-4);
        Validation.Row("overshoot", "overshoot of a second-order step response, %", Source, 9.5, 100 * (peakValue - 1), 0.05);
        Assert.Equal(9.478022, 100 * (peakValue - 1), 1e-6);
    }

    // Log decrement of the same rows; the formula δ = 2πζ/√(1−ζ²) stands in every vibration text.
    [Theory]
    [InlineData(0.05, 0.314553)]
    [InlineData(0.30, 1.975970)]
    [InlineData(0.50, 3.627599)]
    [InlineData(0.70, 6.158753)]
    public void FreeDecay_SuccessivePeaks_HaveTheLogDecrement(double damping, double decrement)
    {
        double[] state = [0, 1];
        var trajectory = new Trajectory();
        Oscillator(1, damping, PiecewiseSignal.Zero).Run(0, 20, state, 1e-13, trajectory);
        Func<double, double> response = Component(trajectory, 0);
        double period = 2 * Math.PI / Math.Sqrt(1 - damping * damping);
        double one = DenseSearch.Maximum(response, 0, 0.5 * period).Value;
        double two = DenseSearch.Maximum(response, period, 1.5 * period).Value;
        Validation.Row(FormattableString.Invariant($"ζ = {damping:F2}, decrement, oscillator"), "free decay of an oscillator: logarithmic decrement", Evidence.Derived + "2πζ/√(1−ζ²)", decrement, Math.Log(one / two), 6e-7);
    }

    // Closed form (derived). Times count from the instant of half the input. The stated tolerances.
    [Theory]
    [InlineData(0.2, 1.2, 0.20, 0.2246865, 0.4304690, 47.82761, 1.8145995)]
    [InlineData(0.3, 1.5, 0.15, 0.1942660, 0.3548794, 34.22723, 0.8468031)]
    [InlineData(0.3, 1.5, 0.30, 0.2070379, 0.3732840, 26.31289, 0.8464872)]
    [InlineData(0.5, 1.8, 0.20, 0.2022840, 0.3403965, 13.18389, 0.4747561)]
    [InlineData(0.7, 2.0, 0.10, 0.2142152, 0.3574018, 4.30962, 0.2364565)]
    public void Ramp_AnyDamping_MatchesTheClosedForm(
        double damping, double frequency, double ramp, double ninety, double peak, double overshoot, double settling)
    {
        var input = new PiecewiseSignal(
            new SignalPiece(0, ramp, new LinearShape(0, 1 / ramp)),
            new SignalPiece(ramp, double.PositiveInfinity, new ConstantShape(1)));
        var response = Respond(2 * Math.PI * frequency, damping, input, RampDuration);
        (double peakTime, double peakValue) = FirstPeak(response);
        Assert.Equal(ninety, FirstReach(response, 0.9) - ramp / 2, 1e-6);
        Assert.Equal(peak, peakTime - ramp / 2, 1e-6);
        Assert.Equal(overshoot, 100 * (peakValue - 1), 1e-4);
        Assert.Equal(settling, LastEntry(response, 0.05, RampDuration) - ramp / 2, 1e-6);
    }

    // The ramp response itself: y(t) = [ρ(t) − ρ(t−Tr)]/Tr (derived by integrating the step response).
    [Fact]
    public void Ramp_EverywhereInTime_MatchesTheClosedForm()
    {
        const double Damping = 0.3, Omega = 2 * Math.PI * 1.5, Ramp = 0.15;
        double damped = Omega * Math.Sqrt(1 - Damping * Damping);
        double Rho(double t) => t <= 0 ? 0 : t - 2 * Damping / Omega + Math.Exp(-Damping * Omega * t)
            * (2 * Damping / Omega * Math.Cos(damped * t) + (2 * Damping * Damping - 1) / damped * Math.Sin(damped * t));
        var input = new PiecewiseSignal(
            new SignalPiece(0, Ramp, new LinearShape(0, 1 / Ramp)),
            new SignalPiece(Ramp, double.PositiveInfinity, new ConstantShape(1)));
        var response = Respond(Omega, Damping, input, 3);
        for (double t = 0; t <= 3; t += 0.01)
        {
            // Tolerance 1e-11 a step, over some hundred steps of a damped system.
            Assert.Equal((Rho(t) - Rho(t - Ramp)) / Ramp, response(t), 1e-9);
        }
    }

    private static SignalDriven Oscillator(double omega, double damping, PiecewiseSignal input) => new(omega, damping, input);

    private static Func<double, double> Respond(double omega, double damping, PiecewiseSignal input, double duration)
    {
        double[] state = [0, 0];
        var trajectory = new Trajectory();
        Oscillator(omega, damping, input).Run(0, duration, state, 1e-11, trajectory);
        return Component(trajectory, 0);
    }

    private static Func<double, double> Component(Trajectory trajectory, int index)
    {
        double[] state = new double[2];
        int step = 0;
        return t =>
        {
            trajectory.StateAt(t, state, ref step);
            return state[index];
        };
    }

    private static double FirstReach(Func<double, double> response, double level)
    {
        double t = 0;
        while (response(t + Scan) < level) t += Scan;
        return DenseSearch.Crossing(x => response(x) - level, t, t + Scan);
    }

    private static (double Time, double Value) FirstPeak(Func<double, double> response)
    {
        double t = Scan;
        while (response(t + Scan) > response(t)) t += Scan;
        return DenseSearch.Maximum(response, t - Scan, t + Scan);
    }

    private static double LastEntry(Func<double, double> response, double band, double end)
    {
        double Outside(double x) => Math.Abs(response(x) - 1) - band;
        double t = end;
        while (Outside(t - Scan) < 0) t -= Scan;
        return DenseSearch.Crossing(Outside, t - Scan, t);
    }

    private sealed class SignalDriven(double omega, double damping, PiecewiseSignal input) : IOdeSystem
    {
        private readonly SignalCursor _input = input.CreateCursor();

        public int Dimension => 2;

        public string StateName(int index) => index == 0 ? "position" : "speed";

        public void EnterSegment(double start, double end) => _input.EnterSegment(0.5 * (start + end));

        public void Derivatives(double time, ReadOnlySpan<double> state, Span<double> derivative)
        {
            derivative[0] = state[1];
            derivative[1] = omega * omega * (_input.Value(time) - state[0]) - 2 * damping * omega * state[1];
        }

        public void Run(double start, double end, double[] state, double tolerance, IStepObserver observer) =>
            Integrator.Run(this, start, end, state, input.Breakpoints, FunctionSystem.Tight(tolerance), observer);
    }
}
