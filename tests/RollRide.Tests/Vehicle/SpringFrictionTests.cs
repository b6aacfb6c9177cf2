using RollRide.Numerics;
using RollRide.Tests.Numerics;
using RollRide.Vehicle;

namespace RollRide.Tests.Vehicle;

/// <summary>The friction of leaf springs: its loops in closed form, and the law that runs against them.</summary>
public class SpringFrictionTests
{
    private const double Fc = 150, Sigma = 50e3;

    private static readonly SpringFriction Friction = new(Fc, Fc / Sigma);

    [Theory]
    [InlineData(0.010, 149.6186951211, 4.204575658547)]
    [InlineData(0.003, 114.2391233934, 0.429130519280)]
    [InlineData(0.001, 48.2269106297, 0.021277072443)]
    public void Loops_have_the_tip_and_the_area_of_the_closed_form(double amplitude, double tip, double area)
    {
        var which = FormattableString.Invariant($"150 N, 50 N/mm, amplitude {1e3 * amplitude:0} mm");
        const string Source = Evidence.Derived + "Fc tanh(σX/Fc) and 4 Fc (X − Fc/σ tanh(σX/Fc)), and the same by integrating the loop";
        Validation.Row(which, "spring friction at the tip of a loop, N", Source, tip, Friction.TipForce(amplitude), 1e-9);
        Validation.Row(which, "energy of a loop of spring friction, J", Source, area, Friction.LoopEnergy(amplitude), 1e-11);
        var (runTip, runArea, heat) = Cycle(Friction, 0, amplitude, 20);
        Assert.Equal(tip, runTip, 1e-3);
        Assert.Equal(area, runArea, area * 1e-5);
        Assert.Equal(area, heat, area * 1e-5);
    }

    [Fact]
    public void Wide_loops_are_those_of_dry_friction()
    {
        const double amplitude = 0.05, omega = 8;
        var dry = new SpringFriction(Fc, 1e-6);
        var equivalent = dry.LoopEnergy(amplitude) / (Math.PI * omega * amplitude * amplitude);
        Validation.Row("150 N, 50 mm, 8 rad/s", "equivalent damping of dry friction, N·s/m", Evidence.Printed + "W. T. Thomson's Theory of Vibration with Applications, answer to problem 3-38: 4 D/(π ω X)", 4 * Fc / (Math.PI * omega * amplitude), equivalent, 0.01);
        Assert.Equal(4 * Fc * amplitude, dry.LoopEnergy(amplitude), 4 * Fc * 1.01e-6);
    }

    // The element is neither made of elastic sliders nor a Bouc–Wen one: loops of those test how a measured loop is read (SpringLoopTests).
    [Fact]
    public void Mass_with_dry_friction_forced_in_a_steady_motion_needs_the_force_of_the_equivalent_damper()
    {
        // 10 kg on 4 N/mm, friction coefficient 0.12, 2 Hz, 40 mm.
        const double m = 10, k = 4000, amplitude = 0.040, omega = 4 * Math.PI, friction = 0.12 * m * 9.81;
        var damping = new SpringFriction(friction, 1e-9).LoopEnergy(amplitude) / (Math.PI * omega * amplitude * amplitude);
        Validation.Row("10 kg on 4 N/mm, friction 0.12, 2 Hz, 40 mm", "force of a steady motion by the equivalent damper, N",
            Evidence.Remembered + "S. S. Rao, Mechanical Vibrations, ch. 3, spring-mass system with Coulomb damping", 97.9874,
            amplitude * double.Hypot(k - (m * omega * omega), damping * omega), 5e-4);
    }

    [Fact]
    public void Mass_with_dry_friction_forced_in_a_steady_motion_has_the_exact_amplitude()
    {
        // Den Hartog's exact solution without stops at the same numbers: 97.20431 N for 40 mm. Where the mass turns, the path grows with the square of time, so that a build-up β
        // delays the friction by a time like √β: of two build-ups, one a quarter of the other, twice the finer result less the coarser one is that of dry friction.
        const double force = 97.20430873, period = 0.5;
        double Amplitude(double buildUp)
        {
            var largest = 0.0;
            Move(10, 4000, new SpringFriction(0.12 * 10 * 9.81, buildUp), t => force * Math.Sin(2 * Math.PI * t / period), [0, 0, 0], 36 * period, step =>
            {
                var state = new double[3];
                step.StateAt(step.End, state);
                largest = step.Start < 35 * period ? 0 : Math.Max(largest, state[0]);
            });
            return largest;
        }

        // What the extrapolation leaves out is of the order of β.
        Validation.Row("10 kg on 4 N/mm, friction 0.12, 2 Hz, 97.204 N", "amplitude of a steady motion with dry friction, mm",
            Evidence.Derived + "J. P. Den Hartog's exact motion without stops (Trans. ASME 53, 1931; formula from memory)", 40, 1e3 * ((2 * Amplitude(5e-6)) - Amplitude(20e-6)), 0.005);
    }

    [Fact]
    public void Mass_released_with_dry_friction_swings_less_by_as_much_each_time_until_it_stops()
    {
        // 12.74 kg on 20 N/mm, friction coefficient 0.32, released at 39 mm: each swing is 2 F/k shorter. Friction that builds up over 2 µm gives back less than that each time.
        const double m = 12.74, k = 20e3, friction = 0.32 * m * 9.81;
        double[] expected = [-35.000659, 31.001318, -27.001978, 23.002637, -19.003296, 15.003955, -11.004614, 7.005274, -3.005933, -0.993408];
        var turns = new List<double>();
        var last = new double[3];
        Move(m, k, new SpringFriction(friction, 2e-6), _ => 0, [0.039, 0, 0], 1.2, step =>
        {
            var state = new double[3];
            step.StateAt(step.End, state);
            if (last[1] * state[1] < 0 && Math.Abs(state[0]) * k > 1.2 * friction)
                turns.Add(state[0]);
            last = state;
        });
        const string Source = Evidence.Derived + "turning points x − 2 F/k to either side, arc by arc, of 12.74 kg on 20 N/mm with a friction coefficient of 0.32, released at 39 mm";
        Assert.Equal(9, turns.Count);
        for (var i = 0; i < turns.Count; i++)
            Validation.Row(FormattableString.Invariant($"12.74 kg on 20 N/mm, friction 0.32, turn {i + 1}"), "turning point with dry friction, mm", Source, expected[i], turns[i] * 1e3, 0.02 * (i + 1));
        Validation.Row("12.74 kg on 20 N/mm, friction 0.32", "where it stops, mm", Source, expected[^1], last[0] * 1e3, 0.2);
    }

    [Fact]
    public void Friction_coefficient_of_a_textbook_takes_a_swing_from_100_to_10_mm_in_five_cycles()
    {
        // Five cycles in 2 s: ω = 5π rad/s.
        const double omega = 5 * Math.PI, m = 1, coefficient = 0.1132;
        var (ends, last) = (new List<double>(), new double[3]);
        Move(m, m * omega * omega, new SpringFriction(coefficient * m * 9.81, 2e-6), _ => 0, [0.1, 0, 0], 2.1, step =>
        {
            var state = new double[3];
            step.StateAt(step.End, state);
            if (last[1] > 0 && state[1] <= 0)
                ends.Add(state[0]);
            last = state;
        });
        Validation.Row("friction coefficient 0.1132, 2.5 Hz, from 100 mm", "amplitude after five cycles, mm",
            Evidence.Remembered + "S. S. Rao, Mechanical Vibrations, ch. 2, coefficient of friction from measured positions of mass", 10, ends[4] * 1e3, 0.1);
    }

    [Fact]
    public void Small_motions_meet_a_spring_that_loses_next_to_nothing()
    {
        const double amplitude = 1e-6;
        Assert.Equal(Sigma, Friction.StiffnessAt(amplitude), Sigma * 1e-6);
        Assert.Equal(Sigma, Friction.StiffnessAt(0));

        // 4 Fc X³/(3 β²): the cube of the amplitude.
        var small = 4 * Fc * Math.Pow(amplitude, 3) / (3 * Friction.BuildUp * Friction.BuildUp);
        Assert.Equal(small, Friction.LoopEnergy(amplitude), 1e-7 * small);
        Assert.Equal(Friction.LoopEnergy(1e-3 * Friction.BuildUp * 0.9999999), Friction.LoopEnergy(1e-3 * Friction.BuildUp * 1.0000001), 1e-14);
        Assert.True(Friction.DampingRatio(30e3, amplitude) < 1e-3);
    }

    [Fact]
    public void Heat_is_never_negative_and_a_mean_force_fades_with_the_path()
    {
        // Loaded by 10 mm, then small cycles about there.
        const double amplitude = 0.1e-3;
        var before = Friction.Force * (1 - Math.Exp(-0.010 / Friction.BuildUp));
        var cycles = 10;
        var (tip, _, heat) = Cycle(Friction, before / Sigma, amplitude, cycles);
        Assert.True(heat > 0);

        // The mean has faded by exp(−4a/β) in each cycle, nine and a quarter by the last upper tip; the steady loop's own tip is Fc tanh(a/β).
        var faded = before * Math.Exp(-4 * amplitude * (cycles - 0.75) / Friction.BuildUp);
        Assert.Equal(faded + (Fc * Math.Tanh(amplitude / Friction.BuildUp)), tip, 0.01 * before);
        Assert.True(tip < 0.35 * before, "After a path of 4 mm little is left of what sliders would hold.");
    }

    [Fact]
    public void Unloading_does_not_follow_Masings_rule()
    {
        // Doubled virgin curve at half the path: 2 Fc (1 − exp(−u/2β)); this element: 2 Fc (1 − exp(−u/β)).
        const double path = 0.003;
        var unloaded = new SpringFrictionLaw<OneLane>();
        unloaded.Load(0, Friction);
        var z = Follow(unloaded, Friction.BuildUp, 0, -path, 20_000);
        var drop = Fc - (Sigma * z);
        Assert.Equal(2 * Fc * (1 - Math.Exp(-path / Friction.BuildUp)), drop, 0.05);
        Assert.True(Math.Abs(drop - (2 * Fc * (1 - Math.Exp(-path / (2 * Friction.BuildUp))))) > 0.2 * drop);
    }

    [Theory]
    [InlineData(120, 0.0008)]
    [InlineData(900, 0.004)]
    [InlineData(2500, 0.02)]
    public void A_loop_gives_back_the_friction_that_made_it(double force, double buildUp)
    {
        // Branches between ∓X: F = ±[Fc − (Fc + Ft) exp(−(X ± x)/β)]; the middle and the area by numbers.
        const double amplitude = 0.03;
        var tip = force * Math.Tanh(amplitude / buildUp);
        double Up(double x) => force - ((force + tip) * Math.Exp(-(x + amplitude) / buildUp));
        const int n = 200_000;
        var area = Enumerable.Range(0, n).Sum(i => Up(amplitude * ((2 * (i + 0.5) / n) - 1))) * 2 * 2 * amplitude / n;
        var found = SpringFriction.OfLoop(amplitude, area, Up(0));
        Assert.Equal(force, found.Force, force * 1e-5);
        Assert.Equal(buildUp, found.BuildUp, buildUp * 1e-4);
    }

    [Fact]
    public void Loops_of_no_such_friction_are_refused_with_their_numbers()
    {
        Assert.Contains("0.500 of the rectangle", Assert.Throws<ArgumentException>(() => SpringFriction.OfLoop(0.03, 4 * 0.03 * 100 * 0.5, 100)).Message, StringComparison.Ordinal);
        Assert.Contains("1.200 of the rectangle", Assert.Throws<ArgumentException>(() => SpringFriction.OfLoop(0.03, 4 * 0.03 * 100 * 1.2, 100)).Message, StringComparison.Ordinal);
    }

    /// <summary>A mass on a spring beside which there is friction: position, velocity and deflection of the friction.</summary>
    private static void Move(double mass, double rate, SpringFriction friction, Func<double, double> force, double[] state, double end, Action<IDenseStep> observe)
    {
        var law = new SpringFrictionLaw<OneLane>();
        law.Load(0, friction);
        var system = new FunctionSystem(3, (time, x, derivative) =>
        {
            law.At(new(x[1]), new(x[2]), out var rubbing, out var slip, out _);
            derivative[0] = x[1];
            derivative[1] = (force(time) - (rate * x[0]) - rubbing.Value) / mass;
            derivative[2] = slip.Value;
        });
        system.Run(0, end, state, 1e-8, new StepAction(observe));
    }

    /// <summary>Whole sine cycles from the crossing upwards: force at the last upper tip, area and heat of the last cycle.</summary>
    private static (double Tip, double Area, double Heat) Cycle(SpringFriction friction, double deflection, double amplitude, int cycles)
    {
        var law = new SpringFrictionLaw<OneLane>();
        law.Load(0, friction);
        const int n = 40_000;
        var (z, tip, area, heat) = (deflection, 0.0, 0.0, 0.0);
        for (var i = 0; i < cycles * n; i++)
        {
            if (i % n == 0)
                (area, heat) = (0, 0);
            var velocity = amplitude * Math.Cos(2 * Math.PI * (i + 0.5) / n);
            const double dt = 2 * Math.PI / n;
            law.At(new(velocity), new(z), out _, out var slope, out _);
            law.At(new(velocity), new(z + (0.5 * dt * slope.Value)), out var force, out slope, out var power);
            z += dt * slope.Value;
            area += force.Value * velocity * dt;
            heat += power.Value * dt;
            if (i % n == n / 4)
                tip = friction.Stiffness * z;
        }

        return (tip, area, heat);
    }

    private static double Follow(SpringFrictionLaw<OneLane> law, double z, double from, double to, int steps)
    {
        var step = (to - from) / steps;
        for (var i = 0; i < steps; i++)
        {
            law.At(new(step), new(z), out _, out var rate, out _);
            z += rate.Value;
        }

        return z;
    }
}
