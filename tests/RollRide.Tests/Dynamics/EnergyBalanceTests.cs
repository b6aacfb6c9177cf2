using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

/// <summary>
/// What road and corner put in is stored or turned into heat, to the last part: the equations of motion against energies written
/// down independently.
/// </summary>
public sealed class EnergyBalanceTests
{
    private enum Power
    {
        Road,
        Corner,
        Dampers,
        Tyres,
        SpringFriction,
    }

    [Theory]
    [MemberData(nameof(TestCars.FittingNames), MemberType = typeof(TestCars))]
    public void BumpThenCorner_AnyFitting_EnergyCloses(string name) => AssertCloses(Find(name));

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void BumpThenCorner_OfALeaningCarWithGasAndSpringFriction_EnergyCloses(bool hasTopMount)
    {
        // A load on the right, a weak and a worn part on either side, and springs of which one rubs more.
        var crate = new LoadState { Name = "crate", Masses = [new LoadedMass { Mass = 160, Height = 1.1, Offset = -0.35, RollInertia = 8 }] };
        var vehicle = Full with
        {
            Spring = LeafSpring,
            RightSide = Full.On(Side.Left) with { Spring = new Spring(new LinearSpring(44e3), Ratio(0.97, 0.6)) { Friction = new SpringFriction(250, 0.006) } },
        };
        var damper = RealDamper with { Gas = Gas, TopMountStiffness = hasTopMount ? 4e5 : null };
        var layout = Layout(InclinedMounts, damper) with { RightSide = new DamperSide(InclinedMounts, damper with { Name = "worn", Curve = damper.Curve.Scaled(0.6), Gas = Gas with { Pressure = 9e5 } }) };
        var car = LoadedHalfCar.Settle(vehicle, layout, crate).Car;
        Assert.True(car.RestRoll > 0.005, "It leans.");
        AssertCloses(car);
    }

    private static void AssertCloses(AssembledHalfCar car)
    {
        var manoeuvre = BumpThenTurn(RoadSide.Left, 0.08, 3.5, 2.5);
        var system = new AccountedHalfCar(new HalfCarEquations(car, manoeuvre.Road, manoeuvre.Cornering));
        var state = new double[system.Dimension];
        var stored = system.StoredEnergy(state);
        var largestInput = 0.0;
        var worst = 0.0;
        var now = new double[system.Dimension];
        var observer = new Numerics.StepAction(step =>
        {
            step.StateAt(step.End, now);
            var input = system.Work(now, Power.Road) + system.Work(now, Power.Corner);
            largestInput = Math.Max(largestInput, Math.Abs(input));
            var heat = system.Work(now, Power.Dampers) + system.Work(now, Power.Tyres) + system.Work(now, Power.SpringFriction);
            worst = Math.Max(worst, Math.Abs(system.StoredEnergy(now) - stored + heat - input));
        });
        Integrator.Run(system, 0, manoeuvre.Duration, state, manoeuvre.Breakpoints, Tolerance(1e-9), observer, TestContext.Current.CancellationToken);

        Assert.True(largestInput > 100, "The manoeuvre puts in hundreds of joules.");
        Assert.True(system.Work(state, Power.Dampers) > 0.1 * largestInput, "The dampers take up a good part.");

        // A local tolerance of 1e-9 over some thousand steps, of energies that are quadratic in the states.
        Assert.InRange(worst / largestInput, 0, 1e-6);
    }

    [Fact]
    public void BounceOnTheStops_WithoutDamping_KeepsItsEnergy()
    {
        var car = new AssembledHalfCar(Full with { Tyre = new Tyre { Stiffness = 220e3 } }, LinearLayout(0));
        var system = new AccountedHalfCar(Equations(car));
        double[] state = [-0.07, 0.02, 0, 0, 0, 0, 0, 0, .. new double[5]];
        var stored = system.StoredEnergy(state);
        Integrator.Run(system, 0, 3, state, [], Tolerance(1e-10), cancellation: TestContext.Current.CancellationToken);

        Assert.Equal(0, system.Work(state, Power.Dampers), 1e-12);
        var moving = 0.5 * 70e3 * 0.07 * 0.07;
        Assert.InRange(Math.Abs(system.StoredEnergy(state) - stored) / moving, 0, 1e-6);
    }

    /// <summary>The half-car with one more state for each way in which energy comes and goes.</summary>
    private sealed class AccountedHalfCar(HalfCarEquations equations) : IOdeSystem
    {
        private readonly double[] _channels = new double[ChannelTable.Count];

        public int Dimension => equations.Dimension + 5;

        public string StateName(int index) => "state";

        public void EnterSegment(double start, double end) => equations.EnterSegment(start, end);

        public double Work(ReadOnlySpan<double> state, Power kind) => state[equations.Dimension + (int)kind];

        public void Derivatives(double time, ReadOnlySpan<double> state, Span<double> derivative)
        {
            var n = equations.Dimension;
            equations.Derivatives(time, state[..n], derivative[..n]);
            equations.WriteChannels(time, state[..n], _channels);
            var vehicle = equations.Car.Vehicle;
            derivative[n + (int)Power.Corner] = _channels.Of(Channel.LateralAcceleration)
                * ((vehicle.Body.Mass * vehicle.RollArm * state[5]) + (vehicle.UnsprungLateralMoment * state[7]));
            derivative[n + (int)Power.Dampers] =
                (_channels.Of(Channel.DamperForceLeft) * _channels.Of(Channel.DamperVelocityLeft))
                + (_channels.Of(Channel.DamperForceRight) * _channels.Of(Channel.DamperVelocityRight));

            // What friction takes up beyond what its deflection stores.
            var (q, r, qRate, rRate) = (state[2] - state[0], state[3] - state[1], state[6] - state[4], state[7] - state[5]);
            derivative[n + (int)Power.SpringFriction] = 0;
            foreach (var side in (Side[])[Side.Left, Side.Right])
            {
                if (vehicle.On(side).Spring.Friction is not { } friction)
                    continue;
                var at = n - (side == Side.Left ? 2 : 1);
                var motion = vehicle.On(side).Spring.Fitting.At(q, r, side);
                var velocity = (motion.HeaveRatio * qRate) + (motion.RollArm * rRate);
                derivative[n + (int)Power.SpringFriction] +=
                    (_channels.Of(side == Side.Left ? Channel.SpringFrictionLeft : Channel.SpringFrictionRight) * velocity) - (friction.Stiffness * state[at] * derivative[at]);
            }

            // What the tyre takes up and does not store is heat: its damping, and its spring's energy when it lets go of the road.
            var (road, heat) = (0.0, 0.0);
            var loads = TyreLoads(vehicle, _channels);
            for (var i = 0; i < loads.Length; i++)
            {
                var y = vehicle.ContactPositions[i];
                var wheelVelocity = state[6] + (y * state[7]);
                var compressionRate = RoadRate(time, y > 0) - wheelVelocity;
                road += loads[i] * RoadRate(time, y > 0);
                heat += (loads[i] - SpringForce(vehicle, state, i)) * compressionRate;
            }

            derivative[n + (int)Power.Road] = road;
            derivative[n + (int)Power.Tyres] = heat;
        }

        /// <summary>Kinetic energy and every potential, J, from an arbitrary zero.</summary>
        public double StoredEnergy(ReadOnlySpan<double> state)
        {
            var vehicle = equations.Car.Vehicle;
            var body = vehicle.Body;
            var car = equations.Car;
            var (rest, axleRest) = (car.Standing.BodyRoll, car.Standing.UnsprungRoll);

            // The centre of gravity stands e beside the roll centre at rest, and roll counts from there.
            var e = (body.CgOffset * Math.Cos(rest)) - (vehicle.RollArm * Math.Sin(rest));
            var kinetic = 0.5 * ((body.Mass * ((state[4] * state[4]) + (2 * e * state[4] * state[5]))) + (vehicle.BodyRollInertia * state[5] * state[5])
                + (vehicle.Unsprung.Mass * state[6] * state[6]) + (vehicle.UnsprungRollInertia * state[7] * state[7]));
            var gravity = vehicle.Gravity
                * ((body.Mass * (state[0] + (vehicle.RollArm * Math.Cos(rest + state[1])) + (body.CgOffset * Math.Sin(rest + state[1])))) + (vehicle.Unsprung.Mass * state[2]));
            var (q, r) = (state[2] - state[0], state[3] - state[1]);
            var elastic = 0.5 * vehicle.AntiRollBar * (r + axleRest - rest) * (r + axleRest - rest);
            foreach (var side in (Side[])[Side.Left, Side.Right])
            {
                var (suspension, mounted) = (vehicle.On(side), car.Layout.On(side));
                elastic += Integral(car.SpringForceOn(side), suspension.Spring.Fitting.At(q, r, side).Compression);
                var damper = mounted.Fitting.At(q, r, side).Compression;
                elastic += mounted.Damper.Gas is { } gas ? GasEnergy(gas, damper) : mounted.Damper.GasForce * damper;
                if (suspension.Spring.Friction is { } friction)
                {
                    var deflection = state[equations.Dimension - (side == Side.Left ? 2 : 1)];
                    elastic += 0.5 * friction.Stiffness * deflection * deflection;
                }

                if (mounted.Damper.TopMountStiffness is { } mount)
                {
                    var stretch = damper - state[side == Side.Left ? 8 : 9];
                    elastic += 0.5 * mount * stretch * stretch;
                }

                if (suspension.BumpStop is { } bump)
                    elastic += StopEnergy(bump, bump.Fitting.At(q, r, side).Compression - bump.Clearance);
                if (suspension.ReboundStop is { } rebound)
                    elastic += StopEnergy(rebound, -rebound.Fitting.At(q, r, side).Compression - rebound.Clearance);
            }

            for (var i = 0; i < vehicle.ContactPositions.Count; i++)
            {
                var force = SpringForce(vehicle, state, i);
                elastic += 0.5 * force * force / vehicle.Tyre.Stiffness;
            }

            return kinetic + gravity + elastic;
        }

        // The bump of the manoeuvre, 80 mm high and 2.5 m long from 3 m on at 15 m/s under the left wheel.
        private static double RoadRate(double time, bool left)
        {
            var u = (15 * time) - 3;
            return left && u is > 0 and < 2.5
                ? 15 * 0.08 * Math.PI / 2.5 * Math.Sin(2 * Math.PI * u / 2.5)
                : 0;
        }

        private double SpringForce(HalfCar vehicle, ReadOnlySpan<double> state, int contact)
        {
            var y = vehicle.ContactPositions[contact];
            var road = _channels.Of(y > 0 ? Channel.RoadLeft : Channel.RoadRight);
            return Math.Max(0, equations.Car.Standing.TyreLoads[contact] + (vehicle.Tyre.Stiffness * (road - state[2] - (y * state[3]))));
        }

        /// <summary>Work of <c>p V^n = p0 V0^n</c> against the atmosphere.</summary>
        private static double GasEnergy(GasChamber gas, double stroke)
        {
            var (n, volume) = (gas.PolytropicIndex, gas.Volume - (gas.RodArea * stroke));
            return (gas.Pressure * gas.Volume / (n - 1) * (Math.Pow(gas.Volume / volume, n - 1) - 1)) - (101_325 * gas.RodArea * stroke);
        }

        private static double StopEnergy(TravelStop stop, double penetration) =>
            penetration <= 0 ? 0 : stop.Stiffness * Math.Pow(penetration, stop.Exponent + 1) / (stop.Exponent + 1);

        /// <summary>∫ F dx from 0, straight piece by straight piece.</summary>
        private static double Integral(PiecewiseLinear force, double to)
        {
            var (low, high) = (Math.Min(0, to), Math.Max(0, to));
            double[] knots = [low, .. force.X.Where(x => x > low && x < high), high];
            var sum = knots.Zip(knots.Skip(1), (a, b) => 0.5 * (b - a) * (force.Value(a) + force.Value(b))).Sum();
            return to < 0 ? -sum : sum;
        }
    }
}
