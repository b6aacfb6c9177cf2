using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Studies;

public class RideStudyTests
{
    private static StudyCase Motorway(double duration)
    {
        var study = ScenarioReader.Read(Shipped.Scenario("smooth-motorway.json")).Study;
        return study with { Manoeuvre = study.Manoeuvre with { Duration = duration, Phases = [] } };
    }

    [Fact]
    public void Run_InParallel_GivesWhatEveryRunGivesAlone_AndCountsSeedsFromTheScenarios()
    {
        var token = TestContext.Current.CancellationToken;
        var study = Motorway(6);
        var together = RideStudy.Run(study, 3, cancellation: token);
        Assert.Equal([1, 2, 3], together[0].Runs.Select(run => run.Seed));
        Assert.Equal(["Outboard", "Inboard of the rail"], together.Select(layout => layout.Layout));
        for (var layout = 0; layout < 2; layout++)
        {
            foreach (var run in together[layout].Runs)
            {
                // One after the other, on this thread alone.
                var road = study.Manoeuvre.Road with { Unevenness = study.Manoeuvre.Road.Unevenness! with { Seed = run.Seed } };
                var alone = Comparison.RunFigures(study with { Manoeuvre = study.Manoeuvre with { Road = road } }, study.Layouts[layout], token);
                Assert.Equal(alone.Ride!.BodyAccelerationRms, run.Ride.BodyAccelerationRms);
                Assert.Equal(alone.Ride.WorstSeat.Total, run.Ride.WorstSeat.Total);
                Assert.Equal(alone.Metrics.Whole.DamperEnergy, run.Metrics.Whole.DamperEnergy);
            }

            Assert.Equal(3, together[layout].Runs.Select(run => run.Ride.BodyAccelerationRms).Distinct().Count());
        }
    }

    [Fact]
    public void Runs_AreKeptWithoutTheirSpectra() =>
        Assert.All(RideStudy.Run(Motorway(20), 2, cancellation: TestContext.Current.CancellationToken).SelectMany(layout => layout.Runs), run =>
        {
            Assert.Null(run.Ride.BodyAccelerationDensity);
            Assert.Null(run.Ride.LoadDensity);
        });

    [Fact]
    public void SeedsThatFail_AreNamedInOrder_HoweverMany()
    {
        // Too few steps for any of the twelve runs: all fail, and the message does not depend on which thread came first.
        var study = Motorway(2) with { Solver = new IntegratorOptions { MaximumSteps = 5 } };
        var failure = Assert.Throws<StudyException>(() => RideStudy.Run(study, 6, cancellation: TestContext.Current.CancellationToken));
        var lines = failure.Message.Split('\n');
        Assert.Equal(9, lines.Length);
        for (var i = 0; i < 8; i++)
            Assert.StartsWith(i < 6 ? $"Layout “Outboard”, seed {i + 1}: " : $"Layout “Inboard of the rail”, seed {i - 5}: ", lines[i], StringComparison.Ordinal);
        Assert.Equal("and 4 more runs", lines[^1]);
    }

    [Fact]
    public void Progress_CountsLayoutsTimesSeeds()
    {
        var seen = new List<int>();
        RideStudy.Run(Motorway(2), 2, new Collector(seen), TestContext.Current.CancellationToken);
        Assert.Equal([1, 2, 3, 4], seen.Order());
    }

    [Fact]
    public void Conclusions_CompareRoadByRoad_WithTheBaseline()
    {
        var seeds = RideStudy.Run(Motorway(6), 3, cancellation: TestContext.Current.CancellationToken);

        // The same roads, on which a twin shakes its seats by a tenth more: the roads differ by more than that, the pairs do not.
        var shaken = seeds[0] with { Layout = "Twin", Runs = [.. seeds[0].Runs.Select(run => run with { Ride = run.Ride with { Seats = [.. run.Ride.Seats.Select(Shaken)] } })] };

        Assert.Matches("^Weighted vibration at the worst seat is .* higher with “Twin” than with “Outboard”, road by road: more than chance", Assert.Single(SeedConclusions.Of([seeds[0], shaken])));
        Assert.Matches("^Weighted vibration at the worst seat is .* lower with “Outboard” than with “Twin”, road by road: more than chance", Assert.Single(SeedConclusions.Of([seeds[0], shaken], baseline: 1)));
        Assert.Equal(
            "Weighted vibration at the worst seat differs by 0.000 ± 0.000 m/s² between “Copy” and “Outboard”, road by road: no more than chance.",
            Assert.Single(SeedConclusions.Of([seeds[0], seeds[0] with { Layout = "Copy" }])));
        Assert.Equal("3 random roads, seeds 1 to 3", SeedConclusions.Roads(seeds));
    }

    [Fact]
    public void Conclusions_OfSeveralRoads_AreOfAllOfThem()
    {
        var study = Motorway(6);
        var seeds = RideStudy.Run(study, 3, cancellation: TestContext.Current.CancellationToken);
        var result = Comparison.Run(study, cancellation: TestContext.Current.CancellationToken);
        var sentences = SeedConclusions.OfComparison(result, seeds);

        // The means of the very runs, and no advice to do what was done.
        var means = seeds.Select(layout => layout.Runs.Average(run => run.Ride.WorstSeat.Total)).ToArray();
        var ride = Assert.Single(sentences, sentence => sentence.StartsWith("Weighted vibration at the worst seat, mean over 3 random roads, seeds 1 to 3: ", StringComparison.Ordinal));
        Assert.Contains(FormattableString.Invariant($"least {means.Min():F3} ± "), ride, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"most {means.Max():F3} ± "), ride, StringComparison.Ordinal);
        Assert.Contains(sentences, sentence => sentence.StartsWith("The roll damping ratio at ", StringComparison.Ordinal));
        Assert.DoesNotContain(sentences, sentence => sentence.Contains("--seeds", StringComparison.Ordinal) || sentence.StartsWith("On the random road", StringComparison.Ordinal));
        Assert.Equal(Conclusions.Of(result), SeedConclusions.OfComparison(result, []));
    }

    [Fact]
    public void Conclusions_OfSeveralRoads_SayOnHowManyAWheelLifts()
    {
        var study = Motorway(6);
        var seeds = RideStudy.Run(study, 3, cancellation: TestContext.Current.CancellationToken);
        SeededRuns Lifted(double lateralAcceleration) => seeds[0] with
        {
            Runs = seeds[0].Runs.SetItem(1, seeds[0].Runs[1] with { Metrics = seeds[0].Runs[1].Metrics with { WheelLifts = [new WheelLift(Side.Left, 4, 0.1, lateralAcceleration)] } }),
        };
        var result = Comparison.Run(study, cancellation: TestContext.Current.CancellationToken);

        Assert.Equal($"A WHEEL LIFTS in the corner with “{seeds[0].Layout}” on 1 of 3 random roads: rollover risk.", SeedConclusions.OfComparison(result, [Lifted(4), seeds[1]])[0]);
        Assert.StartsWith($"Driving straight a wheel leaves the road with “{seeds[0].Layout}” on 1 of 3 random roads, ", SeedConclusions.OfComparison(result, [Lifted(0), seeds[1]])[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Interval_IsStudents()
    {
        // Values 1 … 5: mean 3, s = 1.5811388, t(0.975, 4) = 2.776445 (table of Student's distribution).
        var interval = MeanInterval.Of([1, 2, 3, 4, 5]);
        Assert.Equal(3, interval.Mean);
        Validation.Row("", "half of the 95 % interval of the mean of 1 to 5", Evidence.Remembered + "table of Student's distribution: 2.776445 s/√5", 2.776445 * 1.5811388 / Math.Sqrt(5), interval.HalfWidth, 1e-6);
        Assert.Throws<ArgumentException>(() => MeanInterval.Of([1]));
    }

    [Fact]
    public void ARoadThatIsNotRandom_OrOneSeed_IsRefused()
    {
        var plain = ScenarioReader.Read(Shipped.Scenario("bump-then-corner.json")).Study;
        Assert.Throws<ArgumentException>(() => RideStudy.Run(plain, 3, cancellation: TestContext.Current.CancellationToken));
        Assert.Throws<ArgumentOutOfRangeException>(() => RideStudy.Run(Motorway(2), 1, cancellation: TestContext.Current.CancellationToken));
    }

    private static SeatComfort Shaken(SeatComfort seat) => seat with { Vertical = seat.Vertical with { Rms = 1.1 * seat.Vertical.Rms } };

    private sealed class Collector(List<int> seen) : IProgress<int>
    {
        public void Report(int value)
        {
            lock (seen) seen.Add(value);
        }
    }
}
