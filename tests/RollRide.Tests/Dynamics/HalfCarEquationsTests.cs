using MathNet.Numerics.LinearAlgebra;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Numerics;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

public sealed class HalfCarEquationsTests
{
    [Theory]
    [MemberData(nameof(TestCars.FittingNames), MemberType = typeof(TestCars))]
    public void Derivatives_AnyFitting_AllocateNothing(string name)
    {
        var equations = Equations(Find(name), 2);
        var state = new double[equations.Dimension];
        (state[0], state[1], state[2], state[3], state[4], state[5]) = (-0.06, 0.03, 0.01, -0.01, 0.3, 0.2);
        var derivative = new double[equations.Dimension];
        var channels = new double[ChannelTable.Count];
        Assert.Equal(0, Allocation.Of(() =>
        {
            for (var i = 0; i < 1000; i++)
                equations.Derivatives(0.5, state, derivative);
            equations.WriteChannels(0.5, state, channels);
        }));
    }

    [Theory]
    [MemberData(nameof(TestCars.FittingNames), MemberType = typeof(TestCars))]
    public void CornerChannels_AnyFitting_AreThoseOfAllChannels(string name)
    {
        var equations = Equations(Find(name), 2).System;
        var state = new OneLane[equations.Dimension];
        for (var i = 0; i < state.Length; i++)
            state[i] = new(((i % 3) - 1) * (i < HalfCarState.Rates ? 0.01 : 0.2));
        var (derivative, time) = (new OneLane[equations.Dimension], new OneLane(0.5));
        OneLane[] all = new OneLane[ChannelTable.Count], some = new OneLane[ChannelTable.Count], copied = new OneLane[ChannelTable.Count];
        equations.WriteCornerChannels(time, state, ref some[0]);
        equations.WriteChannels(time, state, ref all[0]);
        equations.Derivatives(time, state, derivative);
        equations.CopyCornerChannels(time, state, ref copied[0]);
        foreach (var channel in ChannelTable.OfCorner)
        {
            Assert.Equal(all[(int)channel].Value, some[(int)channel].Value);
            Assert.Equal(all[(int)channel].Value, copied[(int)channel].Value);
        }
    }

    [Theory]
    [InlineData("mounts, gas, friction, stops")]
    [InlineData("top mount")]
    [InlineData("arm")]
    [InlineData("duals")]
    public void MirroredManoeuvre_MirrorsTheHistory(string name)
    {
        var car = Find(name);
        var mirrored = new AssembledHalfCar(car.Vehicle with { SeatOffset = -car.Vehicle.SeatOffset }, car.Layout);
        var left = Record(car, BumpThenTurn(RoadSide.Left, 0.07, 3), 1e-8, 200);
        var right = Record(mirrored, BumpThenTurn(RoadSide.Right, 0.07, -3), 1e-8, 200);

        foreach (var channel in Enum.GetValues<Channel>())
        {
            var (partner, sign) = Mirror(channel);
            var size = left[channel].ToArray().Max(Math.Abs);

            // Each side is summed for itself, so that not even roundings differ.
            for (var i = 0; i < left.Count; i++)
                Assert.Equal(left[channel][i], sign * right[partner][i], 1e-9 * size);
        }
    }

    [Fact]
    public void LinearCar_AnyMotion_IsTheExponentialOfItsMatrix()
    {
        // CG on the roll axis: without the gravity moment's sine the car is linear. Matrices as the textbook writes them, axle A.
        var vehicle = LiveAxle with { RollCentreHeight = 0.8, Unsprung = new UnsprungMass { Mass = 180, CgHeight = 0.8, AxleRollInertia = 60 } };
        var car = new AssembledHalfCar(vehicle with { Body = vehicle.Body with { RollInertia = 450 } }, LinearLayout());
        double ks = 2 * 35e3, kt = 2 * 220e3, c = 2 * 2500;
        double kRoll = (ks * 0.5 * 0.5) + 10e3, ktRoll = kt * HalfTrack * HalfTrack, cRoll = c * 0.45 * 0.45;
        double[,] a = new double[8, 8];
        for (var i = 0; i < 4; i++)
            a[i, 4 + i] = 1;
        void Fill(int body, int axle, double m, double mu, double k, double kTyre, double damping)
        {
            (a[4 + body, body], a[4 + body, axle], a[4 + body, 4 + body], a[4 + body, 4 + axle]) = (-k / m, k / m, -damping / m, damping / m);
            (a[4 + axle, body], a[4 + axle, axle], a[4 + axle, 4 + body], a[4 + axle, 4 + axle]) = (k / mu, -(k + kTyre) / mu, damping / mu, -damping / mu);
        }

        Fill(0, 2, 1000, 180, ks, kt, c);
        Fill(1, 3, 450, 60, kRoll, ktRoll, cRoll);
        double[] start = [0.01, 0.02, -0.003, 0.004, 0.1, -0.05, 0.02, 0.1];
        var trajectory = Solve(car, Free(1.5), 1e-11, start);
        var state = new double[8];
        foreach (var time in (double[])[0.05, 0.4, 1.5])
        {
            trajectory.StateAt(time, state);
            var exact = Exponential(Matrix<double>.Build.DenseOfArray(a) * time) * Vector<double>.Build.Dense(start);

            // A local tolerance of 1e-11 over some thousand steps of a damped system; the rates are 60 times the positions.
            for (var i = 0; i < 8; i++)
                Assert.Equal(exact[i], state[i], 2e-9);
        }
    }

    [Fact]
    public void SmoothCar_HalvedSteps_ConvergeWithOrderFive()
    {
        // Inclined mounts, gas and gravity are nonlinear but smooth. The observed order nears 5 as the step shortens (5.16 at twice this
        // step); below, rounding of 1e-14 would show.
        var car = new AssembledHalfCar(LiveAxle, Layout(InclinedMounts, LinearDamper(2500) with { GasForce = 150 }));
        double[] At(int steps)
        {
            var method = new SingleMethod(Equations(car));
            method.Restart(0, [0.02, 0.05, -0.01, 0.02, 0, 0, 0, 0]);
            for (var i = 1; i <= steps; i++)
            {
                method.TryStep(0.4 * i / steps, 1e-6, 1e-9);
                method.Accept();
            }

            return method.State.ToArray();
        }

        var exact = At(6400);
        double Error(int steps) => At(steps).Zip(exact, (x, y) => Math.Abs(x - y)).Max();
        Assert.Equal(5, Math.Log2(Error(400) / Error(800)), 0.1);
    }

    [Fact]
    public void Forces_AtAnyInstant_AccountForEveryAcceleration()
    {
        var car = Find("mounts, gas, friction, stops");
        var history = Record(car, BumpThenTurn(RoadSide.Left, 0.12, 4), 1e-7, 500);
        var vehicle = car.Vehicle;
        var weight = (vehicle.Body.Mass + vehicle.Unsprung.Mass) * vehicle.Gravity;
        for (var i = 0; i < history.Count; i++)
        {
            var momentum = (vehicle.Body.Mass * history[Channel.BodyAcceleration][i]) + (vehicle.Unsprung.Mass * history[Channel.UnsprungAcceleration][i]);
            var loads = history[Channel.TyreLoadLeft][i] + history[Channel.TyreLoadRight][i];
            Assert.Equal(loads - weight, momentum, 1e-8);
        }
    }

    /// <summary>The channel of the other side, and the sign that a mirrored quantity takes.</summary>
    private static (Channel Partner, int Sign) Mirror(Channel channel)
    {
        var name = channel.ToString();
        var partner = name.Contains("Left", StringComparison.Ordinal)
            ? name.Replace("Left", "Right", StringComparison.Ordinal)
            : name.Replace("Right", "Left", StringComparison.Ordinal);
        var turns = channel is Channel.LateralAcceleration or Channel.CorneringCommand || name.Contains("Roll", StringComparison.Ordinal);
        return (Enum.Parse<Channel>(partner), turns ? -1 : 1);
    }

    /// <summary>Scaling and squaring of the Taylor series: 20 terms at a norm below 1/2 leave 1e-25.</summary>
    private static Matrix<double> Exponential(Matrix<double> a)
    {
        var squarings = Math.Max(0, (int)Math.Ceiling(Math.Log2(a.InfinityNorm())) + 1);
        var scaled = a / Math.Pow(2, squarings);
        var term = Matrix<double>.Build.DenseIdentity(a.RowCount);
        var sum = term.Clone();
        for (var k = 1; k <= 20; k++)
        {
            term = term * scaled / k;
            sum += term;
        }

        for (var i = 0; i < squarings; i++)
            sum *= sum;
        return sum;
    }
}
