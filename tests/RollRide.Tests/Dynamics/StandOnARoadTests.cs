using CsCheck;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Tests.Dynamics;

/// <summary>The static solution with the wheels at any height.</summary>
public sealed class StandOnARoadTests
{
    private static readonly Gen<(int Seed, double Left, double Right, double Ay)> AnyCarOnAnyRoad =
        Gen.Select(Gen.Int[0, int.MaxValue - 1], Gen.Double[-0.3, 0.3], Gen.Double[-0.3, 0.3], Gen.Double[-3, 3]);

    [Fact]
    public void OnALevelRoad_OfAnyHeight_TheCarStandsAsOnTheGround_LiftedByTheRoad()
    {
        var (found, i) = (0, 0);
        AnyCarOnAnyRoad.SampleSame(200, sample =>
        {
            var car = Car(sample.Seed, i++);
            if (!StaticEquilibrium.TryFind(car, sample.Ay, out var ground))
            {
                Assert.False(StaticEquilibrium.TryFind(car, sample.Ay, sample.Left, sample.Left, out _));
                return;
            }

            found++;
            Assert.True(StaticEquilibrium.TryFind(car, sample.Ay, sample.Left, sample.Left, out var lifted));

            // Two solutions to 1e-10 m/s² and rad/s² of a car of 5 rad/s in its slowest mode: 1e-11 m.
            Assert.Equal(ground.BodyHeave + sample.Left, lifted.BodyHeave, 2e-11);
            Assert.Equal(ground.UnsprungHeave + sample.Left, lifted.UnsprungHeave, 2e-11);
            Assert.Equal(ground.BodyRoll, lifted.BodyRoll, 2e-11);
            Assert.Equal(ground.UnsprungRoll, lifted.UnsprungRoll, 2e-11);
        });
        Assert.True(found > 150, $"{found} stand");
    }

    [Fact]
    public void OnATiltedRoad_OfAnyHeight_TheCarStands_AndNothingMovesIt()
    {
        var (found, i, total) = (0, 0, 200);
        var missing = new List<string>();
        var falls = 0;
        AnyCarOnAnyRoad.SampleSame(total, sample =>
        {
            var car = Car(sample.Seed, i++);
            if (!StaticEquilibrium.TryFind(car, 0, out _))
            {
                // Its springs stand so far inboard that the body falls over on a level road too.
                falls++;
                return;
            }

            if (!StaticEquilibrium.TryFind(car, 0, sample.Left, sample.Right, out var stand))
            {
                missing.Add(FormattableString.Invariant($"form {(i - 1) % RandomCars.Form.All.Count}, seed {sample.Seed}, {sample.Left:F3}/{sample.Right:F3} m"));
                return;
            }

            found++;
            var equations = new HalfCarEquations<OneLane>(car);
            equations.Load(0, car);
            equations.Hold(0, sample.Left, sample.Right, 0);
            var state = Array.ConvertAll(stand.ToState(car), value => new OneLane(value));
            var derivative = new OneLane[equations.Dimension];
            equations.Derivatives(default, state, derivative);

            // The solution's own tolerance is 1e-10 m/s² and rad/s²; a stroke in a top mount moves by its rounding over the damper's slope.
            Assert.All(derivative, rate => Assert.InRange(rate.Value, -2e-10, 2e-10));
        });
        Assert.InRange(falls, 0, 2);
        Assert.True(missing.Count == 0, $"{missing.Count} of {total} stand nowhere: {string.Join("; ", missing.Take(12))}");
    }

    [Fact]
    public void MirroredRoads_HaveMirroredStands()
    {
        var i = 0;
        AnyCarOnAnyRoad.SampleSame(60, sample =>
        {
            var car = Car(sample.Seed, i++);
            var one = StaticEquilibrium.TryFind(car, 0, sample.Left, sample.Right, out var stand);
            Assert.Equal(one, StaticEquilibrium.TryFind(car.HasUnlikeSides ? car.Mirrored() : car, 0, sample.Right, sample.Left, out var mirrored));
            if (!one)
                return;
            Assert.Equal(stand!.BodyHeave, mirrored!.BodyHeave, 2e-11);
            Assert.Equal(stand.BodyRoll, -mirrored.BodyRoll, 2e-11);
        });
    }

    private static AssembledHalfCar Car(int seed, int form) => new RandomCars(new Random(seed)).Car(RandomCars.Form.All[form % RandomCars.Form.All.Count], 1);
}
