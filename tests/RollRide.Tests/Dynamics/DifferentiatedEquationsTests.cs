using CsCheck;
using RollRide.Dynamics;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

/// <summary>The linearised model against central differences of the equations of motion, of any car anywhere.</summary>
public sealed class DifferentiatedEquationsTests
{
    private const double Step = 1e-6;

    private static readonly Gen<(int Seed, double[] Position)> AnyCarAnywhere = Gen.Select(
        Gen.Int[0, int.MaxValue - 1],
        Gen.Frequency(
            (1, Gen.Const(new double[4])),
            (1, Gen.Select(Gen.Double[-0.02, 0.02], Gen.Double[-0.05, 0.05], Gen.Double[-0.01, 0.01], Gen.Double[-0.01, 0.01]).Select(p => Off(p.Item1, p.Item2, p.Item3, p.Item4))),
            (3, Gen.Select(Gen.Double[-0.12, 0.12], Gen.Double[-0.08, 0.08], Gen.Double[-0.02, 0.06], Gen.Double[-0.05, 0.05]).Select(p => Off(p.Item1, p.Item2, p.Item3, p.Item4)))));

    [Fact]
    public void StiffnessAndDamping_OfAnyCar_AreThoseOfTheEquations()
    {
        var (compared, lifted, touching, skipped, i) = (0, 0, 0, 0, 0);
        AnyCarAnywhere.SampleSame(400, sample =>
        {
            // Dampers enter the linear model through a coefficient of their own: here they give no force.
            var forms = RandomCars.Form.OfOneAxle;
            var car = new RandomCars(new Random(sample.Seed)).Car(forms[i++ % forms.Count], 1).WithoutDamping();
            var equations = Equations(car);
            var state = new double[car.StateCount];
            sample.Position.CopyTo(state, 0);
            var (channels, before, after) = (Channels(state), new double[car.StateCount], new double[car.StateCount]);
            if (channels.Any(double.IsNaN))
            {
                skipped++;
                return;
            }

            var linear = LinearHalfCar.At(car, sample.Position);
            for (var column = 0; column < 8; column++)
            {
                (before, after) = (Rates(column, -Step), Rates(column, Step));
                var here = Rates(column, 0);
                var matrix = column < 4 ? linear.Stiffness : linear.OtherDamping;
                for (var row = 0; row < 4; row++)
                {
                    // Where the body's centre of gravity stands beside the roll centre, mass couples heave and roll.
                    double Force(double[] from, double[] to) => -Enumerable.Range(0, 4).Sum(k => linear.Mass[row, k] * (to[4 + k] - from[4 + k])) / Step;
                    var (left, right) = (Force(before, here), Force(here, after));
                    var mean = 0.5 * (left + right);

                    // Forces of up to 1e5 N carry 1e-11; over 2e-6 that is 1e-5 N/m and more where an inertia's arm makes them 1e5 N·m. A smooth law's
                    // slope changes by its second derivative over a step: below 1e9 N/m² of a stop, so 1e3 N/m at most between the two sides.
                    var size = 1e5 + Math.Abs(mean);
                    if (Math.Abs(left - right) > 2e-2 * size)
                        continue; // a corner of a table, a stop's contact or a tyre's lift-off lies within the step
                    compared++;
                    Assert.Equal(mean, matrix[row, column % 4], (0.5 * Math.Abs(left - right)) + (1e-7 * size));
                }
            }

            lifted += channels.Of(Channel.TyreContactLeftOuter) < 0 || channels.Of(Channel.TyreContactRightOuter) < 0 ? 1 : 0;
            touching += channels.Of(Channel.BumpStopForceLeft) + channels.Of(Channel.BumpStopForceRight) > 0
                || channels.Of(Channel.ReboundStopForceLeft) + channels.Of(Channel.ReboundStopForceRight) < 0 ? 1 : 0;

            double[] Rates(int index, double by)
            {
                var (moved, derivative) = (state.ToArray(), new double[car.StateCount]);
                moved[index] += by;
                equations.Derivatives(0.5, moved, derivative);
                return derivative;
            }

            double[] Channels(double[] at)
            {
                var all = new double[ChannelTable.Count];
                equations.WriteChannels(0.5, at, all);
                return all;
            }
        });

        // The comparison means something only if hardly a place is left out, and tyres lift and stops touch at many.
        Assert.True(compared > 11_000, $"{compared} compared");
        Assert.True(lifted > 40, $"{lifted} lifted");
        Assert.True(touching > 40, $"{touching} touching");
        Assert.True(skipped < 20, $"{skipped} skipped");
    }

    /// <summary>A place off ride height, where tables have corners and both sides may pass them in opposite ways within a step.</summary>
    private static double[] Off(params double[] position) => Array.ConvertAll(position, value => Math.Abs(value) < 1e-4 ? Math.CopySign(1e-4, value) : value);

    [Fact]
    public void Inputs_OfAnyCar_AreThoseOfTheEquations() => Gen.Int[0, int.MaxValue - 1].SampleSame(40, seed =>
    {
        var random = new Random(seed);
        var forms = RandomCars.Form.OfOneAxle;
        var car = new RandomCars(random).Car(forms[random.Next(forms.Count)], 1).WithoutDamping();
        var linear = LinearHalfCar.AtRest(car);
        var (tyre, vehicle) = (car.Vehicle.Tyre, car.Vehicle);
        var tyres = car.ContactPositions.Where(y => y > 0).ToArray();

        // Tyres of one stiffness k on each side: k in heave and k y in roll each; roundings of sums of up to 1e6.
        Assert.Equal(tyres.Length * tyre.Stiffness, linear.RoadStiffness[HalfCarState.UnsprungHeave, 0], 1e-8);
        Assert.Equal(tyres.Sum(y => y * tyre.Stiffness), linear.RoadStiffness[HalfCarState.UnsprungRoll, 0], 1e-8);
        Assert.Equal(-tyres.Sum(y => y * tyre.Stiffness), linear.RoadStiffness[HalfCarState.UnsprungRoll, 1], 1e-8);
        Assert.Equal(tyres.Length * tyre.Damping, linear.RoadDamping[HalfCarState.UnsprungHeave, 1], 1e-8);
        Assert.Equal(0, linear.RoadStiffness[HalfCarState.BodyHeave, 0]);

        // ms h on the body, ms hrc + mu hu on the axle (docs/theory.md).
        Assert.Equal(vehicle.Body.Mass * (vehicle.Body.CgHeight - vehicle.RollCentreHeight), linear.LateralInput[HalfCarState.BodyRoll], 1e-9);
        Assert.Equal(0, linear.LateralInput[HalfCarState.BodyHeave], 1e-9);
        Assert.Equal(vehicle.UnsprungLateralMoment, linear.LateralInput[HalfCarState.UnsprungRoll], 1e-9);
    });
}
