using System.Text.Json;
using System.Text.Json.Serialization;
using CsCheck;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Roads;
using RollRide.Tests.Dynamics;
using RollRide.Vehicle;

namespace RollRide.Tests.Metrics;

public sealed class SideBySideTests
{
    private const int Runs = 200;

    private static readonly double[] Scales = [1e-3, 1, 1, 1e6];

    // Every number as it stands, to the last bit.
    private static readonly JsonSerializerOptions Exact = new() { NumberHandling = JsonNumberHandling.AllowNamedFloatingPointLiterals };

    [Fact]
    public void ARun_InFourOrEightLanes_InAnyCompany_HasTheBitsOfTheRunAlone()
    {
        var forms = RandomCars.Form.All;
        var runs = Gen.Int[0, int.MaxValue - 1].Samples(Runs).Select((seed, i) =>
        {
            var random = new Random(seed);
            return new RandomCars(random).Run(forms[i % forms.Count], Scales[random.Next(Scales.Length)]);
        }).ToArray();
        var alone = Array.ConvertAll(runs, run => run());
        foreach (var run in alone)
        {
            try
            {
                run.Make(TestContext.Current.CancellationToken);
            }
            catch (Exception failure) when (ReferenceEquals(failure, run.Failure))
            {
                // Compared with the others.
            }
        }

        var expected = Array.ConvertAll(alone, Figures);
        Assert.Equal(expected, Together<FourLanes>(runs));
        Assert.Equal(expected, Together<EightLanes>(runs));

        // The comparison means something only if all that can happen does.
        var failures = alone.Select(run => run.Failure).OfType<Exception>().ToArray();
        Assert.Contains(failures, failure => failure is NoEquilibriumException);
        Assert.Contains(failures, failure => failure is UnreachableTravelException);
        Assert.Contains(failures, failure => failure is IntegrationException && failure.Message.Contains("rolled over", StringComparison.Ordinal));
        Assert.Contains(failures, failure => failure is IntegrationException && failure.Message.Contains("were not enough", StringComparison.Ordinal));
        Assert.InRange(failures.Length, 15, 80);
        var made = alone.Where(run => run.Failure is null).ToArray();
        Assert.Contains(made, run => run.Ride is not null);
        Assert.Contains(made, run => run.Metrics.Whole.LiftOffTime > 0);
        Assert.Contains(made, run => run.Metrics.Whole.BumpStopContacts > 0 && run.Metrics.Whole.ReboundStopContacts > 0);
        Assert.Contains(made, run => run.Metrics.RollResponse?.SettlingTime is not null);
    }

    [Fact]
    public void ARunWhoseDamperFliesApart_FailsByItself_AndItsNeighbourDoesNot()
    {
        // A kerb of a thousand kilometres under a damper of next to no force: more than 50 km/s, which no histogram holds.
        var car = new AssembledHalfCar(TestCars.LiveAxle, TestCars.LinearLayout(1));
        var wild = TestCars.Free(0.3) with { Road = Road.Flat(20).With(RoadEvents.Step(1, 1e6, 0.01), RoadSide.Both) };
        var runs = new[] { wild, TestCars.Free(0.3) }.Select(manoeuvre => new MeasuredRun(car, manoeuvre, new IntegratorOptions())).ToArray();
        MeasuredRun.MakeSideBySide<FourLanes>(runs, TestContext.Current.CancellationToken);
        Assert.NotNull(runs[0].Failure);
        Assert.Null(runs[1].Failure);
        Assert.Equal(0, runs[1].Metrics.Whole.BumpTravelPeak);
    }

    [Fact]
    public void AStopBeyondTheReachOfItsLinkage_FailsAlikeAlone_AndBesideOneThatTouches()
    {
        // Springs and dampers of fixed ratio follow the wheels wherever they go; the arm under the stop reaches 400 mm.
        var arm = new ArmMountFitting(new(0.3, 0.25), new(0.7, 0.22), new(0.55, 0.26), new(0.5, 0.7), TestCars.HalfTrack);
        var kerb = TestCars.Free(1) with { Road = Road.Flat(20).With(RoadEvents.Step(1, 0.8, 0.5), RoadSide.Both) };
        MeasuredRun Run(double clearance) => new(
            new AssembledHalfCar(
                TestCars.Independent with { BumpStop = new TravelStop { Clearance = clearance, Stiffness = 1e3, Exponent = 1, Fitting = arm } },
                TestCars.LinearLayout(roll: 1)),
            kerb,
            new IntegratorOptions());
        MeasuredRun[] alone = [Run(0.02), Run(5)], together = [Run(0.02), Run(5)];
        MeasuredRun.MakeSideBySide<FourLanes>(together, TestContext.Current.CancellationToken);
        Assert.All(alone, run => Assert.Throws<UnreachableTravelException>(() => run.Make(TestContext.Current.CancellationToken)));
        Assert.Equal(Array.ConvertAll(alone, Figures), Array.ConvertAll(together, Figures));
    }

    private static string[] Together<T>(Func<MeasuredRun>[] runs)
        where T : struct, ILanes<T>
    {
        // In an order of their own, so that the neighbours differ from one kind of lanes to the other.
        var (order, made) = (Enumerable.Range(0, runs.Length).ToArray(), Array.ConvertAll(runs, run => run()));
        new Random(T.Count).Shuffle(order);
        MeasuredRun.MakeSideBySide<T>(order.Select(i => made[i]), TestContext.Current.CancellationToken);
        return Array.ConvertAll(made, Figures);
    }

    /// <summary>Everything that a run tells.</summary>
    private static string Figures(MeasuredRun run)
    {
        if (run.Failure is { } failure)
            return $"{failure.GetType().Name}: {failure.Message} {(failure as IntegrationException)?.StepSize:R}";
        var metrics = run.Metrics;
        IEnumerable<double?> table =
        [
            .. metrics.Phases.Append(metrics.Whole).SelectMany(phase => PhaseMetric.All.Select(metric => phase[metric])),
            .. metrics.RollResponse is null ? [] : RollMetric.All.Select(metric => metric.Of(metrics)),
            .. run.Ride is { } ride ? RideMetric.All.Select(metric => metric.Of(ride)) : [],
        ];
        return JsonSerializer.Serialize(new { Table = table, Metrics = metrics, run.Ride, run.Statistics }, Exact);
    }
}
