using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

/// <summary>Free decay of the simulated half-car: what a damper's place does to its damping, read from successive peaks.</summary>
public sealed class FreeDecayTests
{
    private const double Coefficient = 1000;
    private const double RigidLimit = 5e-4;

    // Tyres so stiff that the body alone moves: the suspension has 1.2e-4 of their stiffness in roll and 2.5e-4 in heave. Twice that is
    // the axle's part in the damping.
    private static readonly HalfCar RigidTyres = LiveAxle with { Tyre = new Tyre { Stiffness = 2e8 } };

    // Motion ratios in roll of the usual places of a live axle's damper: outboard, inboard of the frame, at the centre. Common
    // practice, no source; that damping goes with the ratio's square is derived: two dampers of c at y give 2 c y² in roll.
    [Theory]
    [InlineData(1.0)]
    [InlineData(0.77)]
    [InlineData(0.53)]
    public void LiveAxle_VerticalDampers_DampRollByTheSquareOfTheirPlace(double share)
    {
        var decay = RollDecay(new AssembledHalfCar(RigidTyres, Layout(Vertical(share), LinearDamper(Coefficient))));
        var arm = share * HalfTrack;
        Assert.Equal(Coefficient * arm * arm / RigidTyres.BodyRollInertia, decay, RigidLimit * decay);
    }

    [Fact]
    public void LiveAxle_HalfTheRollRatio_GivesAQuarterOfTheRollDamping()
    {
        double Decay(double roll) => RollDecay(new AssembledHalfCar(RigidTyres, LinearLayout(Coefficient, 1, roll)));
        Assert.Equal(4, Decay(0.8) / Decay(0.4), 1e-3);
    }

    [Fact]
    public void LiveAxle_DampersAtTheCentre_DampHeaveOnly()
    {
        var car = new AssembledHalfCar(RigidTyres, Layout(Vertical(1e-6), LinearDamper(Coefficient)));
        Assert.InRange(RollDecay(car), -1e-4, 1e-4);
        Assert.Equal(Coefficient / RigidTyres.Body.Mass, HeaveDecay(car), RigidLimit);
    }

    [Fact]
    public void IndependentArm_AtTwoThirds_DampsHeaveAndRollByTheSameSquare()
    {
        // A vertical damper at two thirds of a level arm: by the law of the lever it moves two thirds of the wheel's travel in heave and in roll.
        const double Share = 2 / 3.0;
        var arm = new ArmMountFitting(new(0.25, 0.3), new(0.65, 0.3), new(0.25 + (Share * 0.4), 0.3), new(0.25 + (Share * 0.4), 0.75), HalfTrack);
        var vehicle = Independent with { Tyre = RigidTyres.Tyre };
        var car = new AssembledHalfCar(vehicle, Layout(arm, LinearDamper(Coefficient)));
        var square = Share * Share * Coefficient;
        var (heave, roll) = (square / vehicle.Body.Mass, square * HalfTrack * HalfTrack / vehicle.BodyRollInertia);
        Assert.Equal(heave, HeaveDecay(car), RigidLimit * heave);
        Assert.Equal(roll, RollDecay(car), RigidLimit * roll);
    }

    [Fact]
    public void MotorcycleShockAbsorber_FromTheTextbook_PeaksAndDecaysAsItSays()
    {
        // S. S. Rao, Mechanical Vibrations, ch. 2, shock absorber for a motorcycle (answers from memory, problem read): 200 kg,
        // damped period 2 s, a quarter of the amplitude after half a cycle; c = 554.4981 N·s/m, k = 2358.2652 N/m in the source's
        // rounding, and 1.4294 m/s for the first peak of 250 mm. Then δ = ln(x0/xn)/n.
        var vehicle = RigidTyres with
        {
            Body = RigidTyres.Body with { Mass = 200, RollInertia = 100 },
            Spring = new Spring(new LinearSpring(2358.2652 / 2), Ratio(1, 0.8)),
        };
        var car = new AssembledHalfCar(vehicle, LinearLayout(554.4981 / 2));
        var peaks = Peaks(car, [0, 0, 0, 0, 1.4294, 0, 0, 0], HalfCarState.BodyHeave, 4, halfPeriod: 1);
        const string Source = Evidence.Remembered + "Rao, Mechanical Vibrations, ch. 2, shock absorber for a motorcycle";
        Validation.Row("peak", "free decay: first peak, m", Source, 0.250, peaks[0].Value, 0.250 * 2e-4);
        Validation.Row("half cycle", "free decay: amplitude left after half a cycle", Source, 0.25, peaks[1].Value / peaks[0].Value, 1e-4);
        Validation.Row("time", "free decay: half a damped period, s", Source, 1, peaks[1].Time - peaks[0].Time, 1e-4);
        Validation.Row("decrement", "free decay: logarithmic decrement", Source, 2.7726, Math.Log(peaks[0].Value / peaks[2].Value), 3e-4);
        Validation.Row("ratio", "free decay: damping ratio from the decrement", Source, 0.4037, DampingRatio(peaks[0].Value / peaks[2].Value), 1e-4);
    }

    // Derived from the textbook's formula: logarithmic decrement over a cycle.
    [Theory]
    [InlineData(0.2, 1.282550)]
    [InlineData(0.3, 1.975970)]
    [InlineData(0.5, 3.627599)]
    public void Roll_OfAGivenDampingRatio_HasItsLogDecrement(double ratio, double decrement)
    {
        var coefficient = ratio * RollOmega(RigidTyres) * RigidTyres.BodyRollInertia / (0.5 * 0.5);
        var car = new AssembledHalfCar(RigidTyres, LinearLayout(coefficient, 1, 0.5 / HalfTrack));
        var period = 2 * Math.PI / (RollOmega(RigidTyres) * Math.Sqrt(1 - (ratio * ratio)));
        var peaks = Peaks(car, [0, 0, 0, 0, 0, 0.01, 0, 0], HalfCarState.BodyRoll, 3 * period, period / 2);

        Validation.Row(FormattableString.Invariant($"ζ = {ratio:F2}, decrement"), "free decay of roll: logarithmic decrement", Evidence.Derived + "the textbook's formula",
            decrement, Math.Log(peaks[0].Value / peaks[2].Value), RigidLimit * decrement);
        Assert.Equal(ratio, DampingRatio(peaks[0].Value / peaks[2].Value), RigidLimit * ratio);
    }

    [Fact]
    public void TopMount_VeryStiff_DecaysAsWithout()
    {
        var without = RollDecay(new AssembledHalfCar(RigidTyres, LinearLayout(Coefficient)));
        var mounted = LinearDamper(Coefficient) with { TopMountStiffness = 1e7 };

        // In series F = c s/(1 + c s/km) ≈ c s − (c²/km) s²: as if the inertia were less by 2 (c²/km) y². Derived.
        var lighter = 2 * Coefficient * Coefficient * 0.45 * 0.45 / (1e7 * RigidTyres.BodyRollInertia);
        Assert.InRange(lighter, 0, 1e-4);
        Assert.Equal((1 + lighter) * without, RollDecay(new AssembledHalfCar(RigidTyres, Layout(Ratio(1, 0.6), mounted))), 5e-6 * without);
    }

    [Fact]
    public void Friction_NearRest_LetsTheBodyCreepAsAVeryStiffDamper()
    {
        // Far below v0 the friction Fc tanh(v/v0) is a damper of Fc/v0: with both, heave is overdamped and never overshoots.
        const double Friction = 300, Velocity = 0.01;
        var rubbing = LinearDamper(Coefficient) with { Friction = Friction, FrictionVelocity = Velocity };
        double[] start = [-1e-5, 0, 0, 0, 0, 0, 0, 0];
        var stuck = Record(new AssembledHalfCar(LiveAxle, Layout(Ratio(1, 0.6), rubbing)), Free(2), 1e-9, 100, start)[Channel.BodyHeave];
        var viscous = Record(new AssembledHalfCar(LiveAxle, LinearLayout(Coefficient + (Friction / Velocity), 1, 0.6)), Free(2), 1e-9, 100, start)[Channel.BodyHeave];
        for (var i = 0; i < stuck.Length; i++)
        {
            // tanh x = x to x²/3: at 70 N·/m·1e-5 m over 6e4 N·s/m the velocity is 1e-3 of v0.
            Assert.Equal(viscous[i], stuck[i], 1e-5 * 1e-4);
            Assert.True(stuck[i] <= 0);
            Assert.True(i == 0 || stuck[i] >= stuck[i - 1] - 1e-12);
        }
    }

    private static LiveAxleMountFitting Vertical(double share) =>
        new(new Point3(0, share * HalfTrack, 0.3), new Point3(0, share * HalfTrack, 0.75), 0.30, HalfTrack);

    private static double RollOmega(HalfCar car)
    {
        var stiffness = (2 * 35e3 * 0.5 * 0.5) + car.AntiRollBar - (car.Body.Mass * car.Gravity * car.RollArm);
        return Math.Sqrt(stiffness / car.BodyRollInertia);
    }

    /// <summary>Decay rate <c>ζ ωn</c> of body roll, 1/s, over a cycle of its free decay.</summary>
    private static double RollDecay(AssembledHalfCar car) => Decay(car, [0, 0, 0, 0, 0, 0.005, 0, 0], HalfCarState.BodyRoll);

    private static double HeaveDecay(AssembledHalfCar car) => Decay(car, [0, 0, 0, 0, 0.005, 0, 0, 0], HalfCarState.BodyHeave);

    private static double Decay(AssembledHalfCar car, double[] start, int coordinate)
    {
        double[] state = car.Layout.Damper.TopMountStiffness is null ? start : [.. start, 0, 0];
        var peaks = Peaks(car, state, coordinate, 2, halfPeriod: double.NaN);
        return Math.Log(peaks[0].Value / peaks[^1].Value) / (peaks[^1].Time - peaks[0].Time);
    }

    /// <summary>Sizes of the successive peaks, in either direction.</summary>
    private static List<(double Time, double Value)> Peaks(AssembledHalfCar car, double[] start, int coordinate, double duration, double halfPeriod)
    {
        var trajectory = Solve(car, Free(duration), 1e-9, start);
        var state = new double[start.Length];
        double At(double time, int index)
        {
            trajectory.StateAt(time, state);
            return state[index];
        }

        var scan = double.IsNaN(halfPeriod) ? 0.02 : halfPeriod / 20;
        var peaks = new List<(double, double)>();
        for (var time = scan; time + scan < duration; time += scan)
        {
            var (before, after) = (At(time, 4 + coordinate), At(time + scan, 4 + coordinate));
            if (before > 0 != after > 0)
            {
                var peak = DenseSearch.Crossing(t => At(t, 4 + coordinate), time, time + scan);
                peaks.Add((peak, Math.Abs(At(peak, coordinate))));
            }
        }

        return peaks;
    }

    /// <summary>ζ from the ratio of amplitudes a cycle apart: <c>δ/√(4π² + δ²)</c>.</summary>
    private static double DampingRatio(double ratio)
    {
        var decrement = Math.Log(ratio);
        return decrement / Math.Sqrt((4 * Math.PI * Math.PI) + (decrement * decrement));
    }
}
