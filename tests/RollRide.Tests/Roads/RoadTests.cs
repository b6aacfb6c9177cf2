using CsCheck;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Tests.Roads;

public class RoadTests
{
    private const double Speed = 12.5;

    private static readonly PiecewiseSignal Bump = RoadEvents.HaversineBump(10, 1.5, 0.08);

    // Elevations of 0.1 m at distances of up to 30 m (rounded to 4e-15 m) on slopes of up to 0.3, and rates Speed times that.
    private const double Rounding = 1e-13;

    [Fact]
    public void Flat_IsZeroWithoutBreakpoints()
    {
        var road = Road.Flat(Speed);

        Assert.Empty(road.Breakpoints);
        Assert.Equal(default, At(road, 3));
    }

    [Fact]
    public void With_OneSide_LeavesTheOtherFlat()
    {
        double middle = 10.75 / Speed;

        Assert.Equal(0.08, At(Road.Flat(Speed).With(Bump, RoadSide.Left), middle).Left, Rounding);
        Assert.Equal(0, At(Road.Flat(Speed).With(Bump, RoadSide.Left), middle).Right);
        Assert.Equal(0, At(Road.Flat(Speed).With(Bump, RoadSide.Right), middle).Left);
        Assert.Equal(0.08, At(Road.Flat(Speed).With(Bump, RoadSide.Right), middle).Right, Rounding);
    }

    [Fact]
    public void With_EventsOneAfterTheOther_AddsThem()
    {
        var road = Road.Flat(Speed).With(RoadEvents.Ramp(5, 5, 0.1), RoadSide.Both).With(Bump, RoadSide.Left);
        var sample = At(road, 10.75 / Speed);

        Assert.Equal(0.18, sample.Left, Rounding);
        Assert.Equal(0.1, sample.Right, Rounding);
    }

    [Fact]
    public void Breakpoints_AreTheEdgesOfBothTracksInTime()
    {
        var road = Road.Flat(2).With(Bump, RoadSide.Both, lag: 0.5).With(RoadEvents.Ramp(4, 2, 0.1), RoadSide.Right);

        Assert.Equal([2, 3, 5, 5.25, 5.75, 6], road.Breakpoints);
    }

    [Theory]
    [InlineData(0.75)]
    [InlineData(-0.75)]
    public void With_Lag_MovesTheLaterSideByLagOverSpeedInTime(double lag)
    {
        var road = Road.Flat(Speed).With(Bump, RoadSide.Both, lag);
        var together = Road.Flat(Speed).With(Bump, RoadSide.Both);
        double delay = Math.Abs(lag) / Speed;

        foreach (double t in Gen.Double[0.75, 1.1].Samples(200))
        {
            var now = At(road, t);
            var (first, later) = lag > 0 ? (now.Left, now.Right) : (now.Right, now.Left);
            Assert.Equal(At(together, t).Left, first, Rounding);
            Assert.Equal(At(together, t - delay).Left, later, Rounding);
        }
    }

    [Fact]
    public void Sample_Rates_AreTheDerivativesInTime()
    {
        // Step 1e-6 s, i.e. 1.25e-5 m: truncation h²/6·h·(2π V/l)³ = 0.04·(52/s)³/6·1e-12 = 1e-9 m/s; rounding of
        // distances (2e-15 m · slope 0.17)/2e-6 s = 2e-10 m/s.
        const double h = 1e-6;
        var road = Road.Flat(Speed)
            .With(Bump, RoadSide.Both, lag: -0.4)
            .With(RoadEvents.Pothole(9, 2, 0.05, 0.1), RoadSide.Right)
            .With(RoadEvents.SweptSine(9, 1, 10, 0.01, 5, Speed), RoadSide.Left);

        foreach (double t in Gen.Double[0.7, 1.2].Samples(300))
        {
            if (road.Breakpoints.Any(b => Math.Abs(b - t) <= h))
                continue;
            var (before, now, after) = (At(road, t - h), At(road, t), At(road, t + h));
            Assert.Equal((after.Left - before.Left) / (2 * h), now.LeftRate, 3e-9);
            Assert.Equal((after.Right - before.Right) / (2 * h), now.RightRate, 3e-9);
        }
    }

    [Fact]
    public void Sample_AtTheEndOfASegment_UsesTheBranchInside()
    {
        var road = Road.Flat(2).With(RoadEvents.Ramp(4, 2, 0.1), RoadSide.Left);
        var cursor = road.CreateCursor();

        cursor.EnterSegment(1);
        Assert.Equal(0, cursor.Sample(2).LeftRate);
        cursor.EnterSegment(2.5);
        Assert.Equal(new RoadSample(0, 0, 0.1, 0), cursor.Sample(2));
        Assert.Equal(new RoadSample(0.1, 0, 0.1, 0), cursor.Sample(3));
        cursor.EnterSegment(4);
        Assert.Equal(new RoadSample(0.1, 0, 0, 0), cursor.Sample(3));
    }

    [Fact]
    public void Sample_AllocatesNothing()
    {
        var cursor = Road.Flat(Speed)
            .With(RoadEvents.Sampled([0, 1, 2, 30], [0, 0.01, -0.01, 0]), RoadSide.Both, lag: 0.3)
            .CreateCursor();
        double sum = 0;
        void Work()
        {
            for (int i = 0; i < 1000; i++)
            {
                cursor.EnterSegment(1);
                var sample = cursor.Sample(i * 2e-3);
                sum += sample.Left + sample.RightRate;
            }
        }

        Work();
        long before = GC.GetAllocatedBytesForCurrentThread();
        Work();
        long after = GC.GetAllocatedBytesForCurrentThread();

        Assert.Equal(0, after - before);
        Assert.True(double.IsFinite(sum));
    }

    [Fact]
    public void Road_BadValues_AreRefusedByName()
    {
        Assert.Equal("Speed", Assert.Throws<ArgumentOutOfRangeException>(() => new Road(Bump, Bump, 0)).ParamName);
        Assert.Equal("Speed", Assert.Throws<ArgumentOutOfRangeException>(() => Road.Flat(1) with { Speed = double.NaN }).ParamName);
        Assert.Equal("Left", Assert.Throws<ArgumentNullException>(() => new Road(null!, Bump, 1)).ParamName);
        Assert.Equal("lag", Assert.Throws<ArgumentException>(() => Road.Flat(1).With(Bump, RoadSide.Left, 0.2)).ParamName);
        Assert.Equal("lag", Assert.Throws<ArgumentOutOfRangeException>(() => Road.Flat(1).With(Bump, RoadSide.Both, double.NaN)).ParamName);
        Assert.Equal("side", Assert.Throws<ArgumentOutOfRangeException>(() => Road.Flat(1).With(Bump, (RoadSide)9)).ParamName);
    }

    private static RoadSample At(Road road, double time)
    {
        var cursor = road.CreateCursor();
        cursor.EnterSegment(time);
        return cursor.Sample(time);
    }

    [Fact]
    public void IsUneven_WhereAPieceMovesAWheel_AndNotWhereAHeightIsHeld()
    {
        // A profile from 20 m to 60 m has no breakpoint at 30 m to 50 m, and is not flat there.
        var profile = new Road(RoadEvents.Sampled([20, 40, 60], [0, 0.01, 0.02]), PiecewiseSignal.Zero, 10);
        Assert.True(profile.HasEvents);
        Assert.Equal((false, true, false), (profile.IsUneven(0, 1.9), profile.IsUneven(3, 5), profile.IsUneven(6.1, 9)));

        var flat = Road.Flat(10);
        Assert.Equal((false, false), (flat.HasEvents, flat.IsUneven(0, 9)));
        var random = flat with { Unevenness = new RandomRoad { Spectrum = RoughnessSpectrum.Of(RoadClass.A), Coherence = TrackCoherence.Constant(1), Seed = 1 } };
        Assert.Equal((false, true), (random.HasEvents, random.IsUneven(3, 5)));
    }
}
