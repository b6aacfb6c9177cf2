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
    public void BumpThenCorner_AnyFitting_EnergyCloses(string name)
    {
        var car = Find(name);
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
                if (vehicle.Spring.Friction is not { } friction)
                    continue;
                var at = n - (side == Side.Left ? 2 : 1);
                var motion = vehicle.Spring.Fitting.At(q, r, side);
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
                heat += (loads[i] - SpringForce(vehicle, state, y)) * compressionRate;
            }

            derivative[n + (int)Power.Road] = road;
            derivative[n + (int)Power.Tyres] = heat;
        }

        /// <summary>Kinetic energy and every potential, J, from an arbitrary zero.</summary>
        public double StoredEnergy(ReadOnlySpan<double> state)
        {
            var vehicle = equations.Car.Vehicle;
            var body = vehicle.Body;
            var kinetic = 0.5 * ((body.Mass * state[4] * state[4]) + (vehicle.BodyRollInertia * state[5] * state[5])
                + (vehicle.Unsprung.Mass * state[6] * state[6]) + (vehicle.UnsprungRollInertia * state[7] * state[7]));
            var gravity = vehicle.Gravity
                * ((body.Mass * (state[0] + (vehicle.RollArm * Math.Cos(state[1])))) + (vehicle.Unsprung.Mass * state[2]));
            var (q, r) = (state[2] - state[0], state[3] - state[1]);
            var elastic = 0.5 * vehicle.AntiRollBar * r * r;
            foreach (var side in (Side[])[Side.Left, Side.Right])
            {
                elastic += Integral(equations.Car.SpringForce, vehicle.Spring.Fitting.At(q, r, side).Compression);
                var damper = equations.Car.Layout.Fitting.At(q, r, side).Compression;
                elastic += equations.Car.Layout.Damper.Gas is { } gas ? GasEnergy(gas, damper) : equations.Car.Layout.Damper.GasForce * damper;
                if (vehicle.Spring.Friction is { } friction)
                {
                    var deflection = state[equations.Dimension - (side == Side.Left ? 2 : 1)];
                    elastic += 0.5 * friction.Stiffness * deflection * deflection;
                }

                if (equations.Car.Layout.Damper.TopMountStiffness is { } mount)
                {
                    var stretch = damper - state[side == Side.Left ? 8 : 9];
                    elastic += 0.5 * mount * stretch * stretch;
                }

                if (vehicle.BumpStop is { } bump)
                    elastic += StopEnergy(bump, bump.Fitting.At(q, r, side).Compression - bump.Clearance);
                if (vehicle.ReboundStop is { } rebound)
                    elastic += StopEnergy(rebound, -rebound.Fitting.At(q, r, side).Compression - rebound.Clearance);
            }

            foreach (var y in vehicle.ContactPositions)
            {
                var force = SpringForce(vehicle, state, y);
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

        private double SpringForce(HalfCar vehicle, ReadOnlySpan<double> state, double y)
        {
            var road = _channels.Of(y > 0 ? Channel.RoadLeft : Channel.RoadRight);
            return Math.Max(0, vehicle.StaticTyreLoad + (vehicle.Tyre.Stiffness * (road - state[2] - (y * state[3]))));
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
