using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

/// <summary>The integrator against published problems and closed forms.</summary>
public sealed class IntegratorReferenceTests
{
    // Periodic orbit of Hairer, Nørsett, Wanner 1993, p. 130. The distances from the starting point that another
    // implementation of a 5(4) pair leaves after one period are 1.0e-6, 2.1e-8 and 2.5e-10 (derived); controllers differ,
    // hence ten times as much. (The speed so near the moon is a hundred times as sensitive.)
    [Theory]
    [InlineData(1e-8, 1.0e-5)]
    [InlineData(1e-10, 2.1e-7)]
    [InlineData(1e-12, 2.5e-9)]
    public void Run_ArenstorfOrbit_ClosesAfterOnePeriod(double tolerance, double distance)
    {
        double[] start = [0.994, 0, 0, -2.00158510637908252240537862224];
        double[] state = [.. start];
        ReferenceProblems.Arenstorf.Run(0, 17.0652165601579625588917206249, state, tolerance);
        Validation.Row(FormattableString.Invariant($"tolerance {tolerance:0e+0}"), FormattableString.Invariant($"integrator: place on the Arenstorf orbit after one period, tolerance {tolerance:0e+0}"),
            Evidence.Printed + "Hairer, Nørsett, Wanner, Solving Ordinary Differential Equations I, 1993, p. 130", start[0], state[0], distance);
        Assert.Equal(0, ReferenceProblems.Distance(start.AsSpan(0, 2), state.AsSpan(0, 2)), distance);
    }

    // The second orbit, same book, p. 186. Easier than the first, so its bound at 1e-10 is kept.
    [Fact]
    public void Run_SecondArenstorfOrbit_ClosesAfterOnePeriod()
    {
        double[] start = [0.994, 0, 0, -2.0317326295573368357302057924];
        double[] state = [.. start];
        ReferenceProblems.Arenstorf.Run(0, 11.124340337266085134999734047, state, 1e-10);
        Validation.Row("", "integrator: place on the second Arenstorf orbit after one period", Evidence.Printed + "Hairer, Nørsett, Wanner, Solving Ordinary Differential Equations I, 1993, p. 186", start[0], state[0], 2.1e-7);
        Assert.Equal(0, ReferenceProblems.Distance(start.AsSpan(0, 2), state.AsSpan(0, 2)), 2.1e-7);
    }

    // 100 kg on 36 kN/m to the ground, 25 kg on 36 kN/m to it, a step of 4000 N on the second; the printed solution in cm is
    // x = 13.01 (1 − cos ω1 t) − 1.90 (1 − cos ω2 t), y = 16.08 (1 − cos ω1 t) + 6.14 (1 − cos ω2 t). Its four numbers come back from the
    // solution at two instants; the third and fourth digits that the print leaves out are worth 0.005 each.
    [Fact]
    public void TwoMasses_AfterAStep_MoveByThePrintedSolution()
    {
        var system = new FunctionSystem(4, (_, y, rate) =>
        {
            (rate[0], rate[1]) = (y[2], y[3]);
            rate[2] = ((36e3 * (y[1] - y[0])) - (36e3 * y[0])) / 100;
            rate[3] = (4000 - (36e3 * (y[1] - y[0]))) / 25;
        });
        const string source = Evidence.Printed + "Thomson, Theory of Vibration with Applications, 4th ed., problem 5-58, p. 169";
        double w1 = 16.58359214, w2 = 43.41640786; // rad/s, roots of ω⁴ − 2160 ω² + 518 400 = 0
        double[] one = new double[4], two = new double[4];
        system.Run(0, 0.1, one, 1e-11);
        system.Run(0, 0.26, two, 1e-11);
        foreach (var (i, name, first, second) in (ReadOnlySpan<(int, string, double, double)>)[(0, "x", 13.01, -1.90), (1, "y", 16.08, 6.14)])
        {
            double a1 = 1 - Math.Cos(w1 * 0.1), b1 = 1 - Math.Cos(w2 * 0.1), a2 = 1 - Math.Cos(w1 * 0.26), b2 = 1 - Math.Cos(w2 * 0.26);
            var determinant = (a1 * b2) - (a2 * b1);
            Validation.Row($"{name}, slow", "integrator: amplitude of a mode of two masses after a step, cm", source, first, 100 * ((one[i] * b2) - (two[i] * b1)) / determinant, 0.005);
            Validation.Row($"{name}, fast", "integrator: amplitude of a mode of two masses after a step, cm", source, second, 100 * ((a1 * two[i]) - (a2 * one[i])) / determinant, 0.005);
        }
    }

    // Half-way values and the Jacobi constant, recomputed with an order-8 method (derived).
    [Fact]
    public void Run_ArenstorfOrbit_KeepsTheJacobiConstantAndPassesTheFarPoint()
    {
        const double Mu = 0.012277471, Rest = 1 - Mu;
        double[] state = [0.994, 0, 0, -2.00158510637908252240537862224];
        ReferenceProblems.Arenstorf.Run(0, 17.0652165601579625588917206249 / 2, state, 1e-13);
        double r1 = Math.Sqrt((state[0] + Mu) * (state[0] + Mu) + state[1] * state[1]);
        double r2 = Math.Sqrt((state[0] - Rest) * (state[0] - Rest) + state[1] * state[1]);
        double jacobi = state[0] * state[0] + state[1] * state[1] + 2 * Rest / r1 + 2 * Mu / r2
            - state[2] * state[2] - state[3] * state[3];
        // A tolerance of 1e-13 a step over about 1500 steps.
        Validation.Row("", "integrator: Jacobi constant of the Arenstorf orbit at half its period", Evidence.Derived + "the orbit of Hairer, Nørsett, Wanner 1993, p. 130, recomputed at order 8", 2.85641252020987, jacobi, 2e-10);
        // The printed digits.
        Validation.Row("", "integrator: place on the Arenstorf orbit at half its period", Evidence.Derived + "the orbit of Hairer, Nørsett, Wanner 1993, p. 130, recomputed at order 8", -1.24482205, state[0], 5e-9);
        Assert.Equal(0, state[1], 5e-9);
        Assert.Equal(0, state[2], 5e-9);
        Validation.Row("", "integrator: speed on the Arenstorf orbit at half its period", Evidence.Derived + "the orbit of Hairer, Nørsett, Wanner 1993, p. 130, recomputed at order 8", 0.553990308, state[3], 5e-9);
    }

    // 32-digit computation quoted in a public numerical library; the second derived with an order-8 method.
    [Theory]
    [InlineData(1.5, 0.4986370712683478, 4.596780349452011)]
    [InlineData(1.01, 0.455808598718881, 4.457846674977628)]
    public void Run_Brusselator_ReachesThePublishedState(double first, double expected1, double expected2)
    {
        double[] state = [first, 3];
        ReferenceProblems.Brusselator.Run(0, 20, state, 1e-12);
        // The limit cycle attracts, so the errors of at most some thousand steps of 1e-12 do not build up.
        var id = FormattableString.Invariant($"y1(0) = {first}");
        const string Source = Evidence.Derived + "equation (16.12) of Hairer, Nørsett, Wanner 1993 (remembered), computed with 32 digits or at order 8";
        Validation.Row($"{id}, y1", "integrator: Brusselator at 20", Source, expected1, state[0], 1e-10);
        Validation.Row($"{id}, y2", "integrator: Brusselator at 20", Source, expected2, state[1], 1e-10);
    }

    // Exact by Kepler's equation; the first numbers of each row check the solution of that equation itself.
    [Theory]
    [InlineData(0.1, 0.219883535200839, 0.942707684634182, -0.978765984105818, 0.328797799096203)]
    [InlineData(0.3, -0.177702735714042, 0.946778471990589, -1.03029416319297, 0.121107489005395)]
    [InlineData(0.5, -0.578043295303537, 0.863384000919419, -0.959508373038072, -0.0650491512671214)]
    [InlineData(0.7, -0.953899029341640, 0.690740902421943, -0.821267427087743, -0.153957425912583)]
    [InlineData(0.9, -1.29526625098757, 0.400393896379232, -0.677539092470756, -0.127083815427869)]
    public void Run_KeplerOrbit_MatchesKeplersEquation(double eccentricity, double x, double y, double vx, double vy)
    {
        double[] exact = ReferenceProblems.KeplerAt(eccentricity, 20);
        Assert.True(ReferenceProblems.Distance([x, y, vx, vy], exact) < 1e-13);

        double[] state = ReferenceProblems.KeplerAt(eccentricity, 0);
        ReferenceProblems.Kepler.Run(0, 20, state, 1e-12);
        // Errors of 1e-12 a step grow along the orbit with time, and with 1/(1−e)² at each of the three near passages.
        Assert.True(ReferenceProblems.Distance(exact, state) < 1e-9 / (1 - eccentricity));
        foreach (var (name, expected, got) in (ReadOnlySpan<(string, double, double)>)[("x", x, state[0]), ("y", y, state[1]), ("vx", vx, state[2]), ("vy", vy, state[3])])
            Validation.Row(FormattableString.Invariant($"e = {eccentricity}, {name}"), "integrator: Kepler orbit at 20", Evidence.Derived + "Kepler's equation", expected, got, 1e-9 / (1 - eccentricity));
    }

    [Theory]
    [InlineData(0.1)]
    [InlineData(0.5)]
    public void Run_KeplerOrbit_KeepsEnergyAndAngularMomentum(double eccentricity)
    {
        const double Tolerance = 1e-10;
        double[] state = ReferenceProblems.KeplerAt(eccentricity, 0);
        RunStatistics run = ReferenceProblems.Kepler.Run(0, 20 * Math.PI, state, Tolerance);
        double energy = 0.5 * (state[2] * state[2] + state[3] * state[3]) - 1 / Math.Sqrt(state[0] * state[0] + state[1] * state[1]);
        double momentum = state[0] * state[3] - state[1] * state[2];
        // Every step may add its tolerance to a state of the order of one.
        Assert.Equal(-0.5, energy, run.AcceptedSteps * Tolerance);
        Assert.Equal(Math.Sqrt(1 - eccentricity * eccentricity), momentum, run.AcceptedSteps * Tolerance);
    }

    // A body bouncing on a spring: the contact is a kink that no breakpoint announces. Time in contact (derived):
    // 2[π − atan(vω/g)]/ω at impact speed v.
    [Fact]
    public void Run_BouncingContactWithoutBreakpoints_MatchesTheClosedForm()
    {
        const double Gravity = 9.80665, Omega = 2 * Math.PI * 10, Height = 0.05;
        var body = new FunctionSystem(2, (_, y, f) =>
        {
            f[0] = y[1];
            f[1] = -Gravity - (y[0] < 0 ? Omega * Omega * y[0] : 0);
        });
        double impact = Math.Sqrt(2 * Gravity * Height), fall = impact / Gravity;
        double contact = 2 * (Math.PI - Math.Atan(impact * Omega / Gravity)) / Omega;
        double period = 2 * fall + contact;

        double[] state = [Height, 0];
        var trajectory = new Trajectory();
        body.Run(0, 3 * period, state, 1e-10, trajectory);

        double Position(double t)
        {
            double[] there = new double[2];
            trajectory.StateAt(t, there);
            return there[0];
        }

        // Steps across a kink are held to the tolerance like all others; six kinks, each magnified by ω into the speed.
        Assert.Equal(Height, state[0], 1e-7);
        Assert.Equal(0, state[1], 1e-6);
        double down = DenseSearch.Crossing(Position, 0.5 * fall, fall + 0.5 * contact);
        double up = DenseSearch.Crossing(Position, fall + 0.5 * contact, period - 0.5 * fall);
        Assert.Equal(fall, down, 1e-8);
        Assert.Equal(contact, up - down, 1e-8);
    }
}
