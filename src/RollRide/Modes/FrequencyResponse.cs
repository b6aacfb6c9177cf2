using System.Collections.Immutable;
using System.Numerics;
using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Complex;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Modes;

/// <summary>
/// The linearised half-car's steady-state response to sines of the road and of the lateral acceleration: complex ratios, whose magnitude is
/// the gain and whose argument is the phase lead, rad.
/// </summary>
/// <remarks>From <c>(−ω²M + iωC + K) x = inputs</c>; a damper in a top mount has the stiffness <c>iωc km/(km + iωc)</c>.</remarks>
public sealed record FrequencyResponse
{
    /// <summary>Coefficient of each damper, N·s/m.</summary>
    public required double Coefficient { get; init; }

    /// <summary>Frequencies, Hz, ascending; every list of this result has one value for each.</summary>
    public required ImmutableArray<double> Frequencies { get; init; }

    /// <summary>Response to the road under both wheels moving up and down together, per metre.</summary>
    public required RoadResponse RoadHeave { get; init; }

    /// <summary>Response to the road under the left wheel rising by a metre while it falls by a metre under the right one, per metre.</summary>
    public required RoadResponse RoadRoll { get; init; }

    /// <summary>Body roll over lateral acceleration, rad/(m/s²).</summary>
    public required ImmutableArray<Complex> RollOverLateralAcceleration { get; init; }

    /// <summary>Body roll per steady lateral acceleration, rad/(m/s²): the limit at zero frequency.</summary>
    public required double SteadyRollOverLateralAcceleration { get; init; }

    /// <summary>Frequencies with the same ratio from each to the next.</summary>
    /// <param name="lowest">The first, Hz; greater than 0.</param>
    /// <param name="highest">The last, Hz; greater than the first.</param>
    /// <param name="count">How many; 2 or more.</param>
    public static ImmutableArray<double> LogarithmicFrequencies(double lowest = 0.1, double highest = 50, int count = 400)
    {
        Require.Positive(lowest, "Hz");
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(highest, lowest);
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 2);
        return [.. Enumerable.Range(0, count).Select(i => lowest * Math.Pow(highest / lowest, i / (count - 1.0)))];
    }

    /// <summary>Computes the response.</summary>
    /// <param name="linear">The linearised half-car.</param>
    /// <param name="halfTrack">Half the track <c>T</c>, m.</param>
    /// <param name="coefficient">Coefficient of each damper, N·s/m; 0 or more.</param>
    /// <param name="frequencies">Frequencies, Hz, each greater than 0.</param>
    public static FrequencyResponse Of(LinearHalfCar linear, double halfTrack, double coefficient, IEnumerable<double> frequencies)
    {
        ArgumentNullException.ThrowIfNull(linear);
        ArgumentNullException.ThrowIfNull(frequencies);
        Require.Positive(halfTrack, "m");
        Require.NotNegative(coefficient, "N·s/m");
        ImmutableArray<double> all = [.. frequencies];
        var heave = new RoadResponse.Builder(all.Length);
        var roll = new RoadResponse.Builder(all.Length);
        var lateral = ImmutableArray.CreateBuilder<Complex>(all.Length);
        foreach (var frequency in all)
        {
            var omega = 2 * Math.PI * Require.Positive(frequency, "Hz");
            var solve = DynamicStiffness(linear, coefficient, omega).LU();
            var road = linear.RoadStiffness.ToComplex() + (linear.RoadDamping.ToComplex() * new Complex(0, omega));

            void Add(RoadResponse.Builder response, int body, double left, double right)
            {
                var wheels = DenseVector.OfArray([left, right]);
                var x = solve.Solve(road * wheels);
                var (zu, phiU) = (x[HalfCarState.UnsprungHeave], x[HalfCarState.UnsprungRoll]);
                response.Body.Add(x[body]);
                response.BodyAcceleration.Add(-omega * omega * x[body]);
                response.SuspensionTravel.Add(zu - x[HalfCarState.BodyHeave] + (halfTrack * (phiU - x[HalfCarState.BodyRoll])));
                response.TyreLoad.Add((road[HalfCarState.UnsprungHeave, 0] * (left - zu)) - (road[HalfCarState.UnsprungRoll, 0] * phiU));
            }

            Add(heave, HalfCarState.BodyHeave, 1, 1);
            Add(roll, HalfCarState.BodyRoll, 1, -1);
            lateral.Add(solve.Solve(linear.LateralInput.ToComplex())[HalfCarState.BodyRoll]);
        }

        return new FrequencyResponse
        {
            Coefficient = coefficient,
            Frequencies = all,
            RoadHeave = heave.ToResponse(),
            RoadRoll = roll.ToResponse(),
            RollOverLateralAcceleration = lateral.ToImmutable(),
            SteadyRollOverLateralAcceleration = SteadyRoll(linear),
        };
    }

    /// <summary>Body roll per steady lateral acceleration, rad/(m/s²): <c>K x = inputs</c>; dampers take no part.</summary>
    /// <param name="linear">The linearised half-car.</param>
    public static double SteadyRoll(LinearHalfCar linear)
    {
        ArgumentNullException.ThrowIfNull(linear);
        return linear.Stiffness.Solve(linear.LateralInput)[HalfCarState.BodyRoll];
    }

    private static Matrix<Complex> DynamicStiffness(LinearHalfCar linear, double coefficient, double omega)
    {
        var matrix = (linear.Mass * (-omega * omega)).ToComplex() + linear.Stiffness.ToComplex()
            + (linear.OtherDamping.ToComplex() * new Complex(0, omega));
        for (var side = 0; side < linear.DamperArms.Length; side++)
        {
            var (arm, mount) = (linear.DamperArms[side], linear.MountStiffness[side]);
            var damper = new Complex(0, omega * coefficient * linear.SideShares[side]);
            var series = mount > 0 ? damper * mount / (mount + damper) : damper;
            matrix += arm.OuterProduct(arm).ToComplex() * series;
        }

        return matrix;
    }
}

/// <summary>Response of the half-car to one motion of the road, over frequency.</summary>
public sealed record RoadResponse
{
    /// <summary>Body motion: heave, m/m, or roll, rad/m.</summary>
    public required ImmutableArray<Complex> Body { get; init; }

    /// <summary>Body acceleration: vertical, (m/s²)/m, or roll, (rad/s²)/m.</summary>
    public required ImmutableArray<Complex> BodyAcceleration { get; init; }

    /// <summary>Travel of the left wheel against the body, m/m, positive in compression.</summary>
    public required ImmutableArray<Complex> SuspensionTravel { get; init; }

    /// <summary>Load of the left side's tyres, N/m, from its static value.</summary>
    public required ImmutableArray<Complex> TyreLoad { get; init; }

    internal sealed class Builder(int count)
    {
        public ImmutableArray<Complex>.Builder Body { get; } = ImmutableArray.CreateBuilder<Complex>(count);

        public ImmutableArray<Complex>.Builder BodyAcceleration { get; } = ImmutableArray.CreateBuilder<Complex>(count);

        public ImmutableArray<Complex>.Builder SuspensionTravel { get; } = ImmutableArray.CreateBuilder<Complex>(count);

        public ImmutableArray<Complex>.Builder TyreLoad { get; } = ImmutableArray.CreateBuilder<Complex>(count);

        public RoadResponse ToResponse() => new()
        {
            Body = Body.ToImmutable(),
            BodyAcceleration = BodyAcceleration.ToImmutable(),
            SuspensionTravel = SuspensionTravel.ToImmutable(),
            TyreLoad = TyreLoad.ToImmutable(),
        };
    }
}
