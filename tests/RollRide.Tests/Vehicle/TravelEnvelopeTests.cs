using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Tests.Vehicle;

public sealed class TravelEnvelopeTests
{
    private const double HalfTrack = 0.83, Rs = 0.62, B = 0.07, D = 0.09;

    // Roots of the stops' contact are found to this, rad and m.
    private const double Root = 2e-8;

    private static readonly TravelStop Bump = Stop(B), Rebound = Stop(D);

    private static TravelStop Stop(double clearance) =>
        new() { Clearance = clearance, Stiffness = 1e5, Fitting = new FixedRatioFitting(1, Rs, HalfTrack) };

    private static TravelRange Given(double bump, double rebound, double roll, TravelCombinations combinations) =>
        new() { Bump = bump, Rebound = rebound, Roll = roll, Combinations = combinations };

    [Fact]
    public void Of_GivenTravel_EveryHeaveGoesWithFullRoll()
    {
        var envelope = TravelEnvelope.Of(Given(0.06, 0.045, 0.07, TravelCombinations.All), Bump, Rebound, HalfTrack)!;

        Assert.True(envelope.IsGiven);
        Assert.All((double[])[-0.045, 0, 0.06], heave => Assert.Equal(0.07, envelope.RollAt(heave)));
        Assert.Equal(new TravelCorner(0.06, 0.07), envelope.MostArticulated);
    }

    [Theory] // What is free is |Rs T r| ≤ min(b − q, d + q): a rhombus, by hand.
    [InlineData(-0.09)]
    [InlineData(-0.05)]
    [InlineData(-0.01)]
    [InlineData(0)]
    [InlineData(0.03)]
    [InlineData(0.07)]
    public void Of_StopsAlone_RollEndsWhereTheFirstOfThemTouches(double heave)
    {
        var envelope = TravelEnvelope.Of(null, Bump, Rebound, HalfTrack)!;

        Assert.False(envelope.IsGiven);
        Assert.Equal(Math.Min(B - heave, D + heave) / (Rs * HalfTrack), envelope.RollAt(heave), Root);
        Assert.Equal((B, D), (Math.Round(envelope.Range.Bump, 7), Math.Round(envelope.Range.Rebound, 7)));

        // Most roll is left half way between the contacts.
        Assert.Equal((B - D) / 2, envelope.MostArticulated.Heave, Root);
    }

    [Fact]
    public void Of_GivenTravelUntilStopsTouch_IsWhatBothAllow()
    {
        const double Roll = 0.1; // more than the stops leave at full droop, less than they leave near ride height
        var envelope = TravelEnvelope.Of(Given(0.06, 0.12, Roll, TravelCombinations.UntilStopsTouch), Bump, Rebound, HalfTrack)!;

        Assert.Equal(0.06, envelope.Range.Bump); // as given: the stop touches at 70 mm
        Assert.Equal(D, envelope.Range.Rebound, Root); // the stop, not the 120 mm given
        Assert.Equal(Roll, envelope.RollAt(0), 1e-12);
        Assert.Equal(0, envelope.RollAt(-D), Root);
        Assert.Equal((B - 0.06) / (Rs * HalfTrack), envelope.RollAt(0.06), Root);

        // Where the bump stop takes over from the given roll, and half a millimetre to either side.
        double takesOver = B - (Roll * Rs * HalfTrack);
        Assert.All((double[])[-5e-4, 0, 5e-4], to => Assert.Equal(Math.Min(Roll, (B - takesOver - to) / (Rs * HalfTrack)), envelope.RollAt(takesOver + to), Root));
    }

    [Fact]
    public void Of_RestFarBeyondTheGivenTravel_LeavesTheContactOfTheFarStopAlone()
    {
        // The given travel ends 200 mm below where the load stands, the rebound stop touches 90 mm below.
        var envelope = TravelEnvelope.Of(Given(-0.2, 0.3, 0.07, TravelCombinations.UntilStopsTouch), Bump, Rebound, HalfTrack)!;

        Assert.All(envelope.Corners, corner => Assert.Equal(-D, corner.Heave, Root));
        Assert.Equal(-envelope.Range.Rebound, envelope.Range.Bump);
        Assert.Equal(0, envelope.RollAt(-D), Root);
    }

    [Theory] // Rolling one way uses the left bump and the right rebound stop, the other way the right bump and the left rebound stop.
    [InlineData(-0.05)]
    [InlineData(-0.01)]
    [InlineData(0.02)]
    public void Of_UnlikeStops_LeavesNothingOutThatEitherWayReaches(double heave)
    {
        const double RightBump = 0.05;
        var envelope = TravelEnvelope.Of(null, Bump, Rebound, HalfTrack, (Stop(RightBump), Rebound))!;

        double one = Math.Min(B - heave, D + heave) / (Rs * HalfTrack), other = Math.Min(RightBump - heave, D + heave) / (Rs * HalfTrack);
        Assert.Equal(Math.Max(one, other), envelope.RollAt(heave), Root);

        // Half way between the contacts of the way that leaves more, the right bump stop leaves 20 mm less.
        Assert.Equal((D + B) / 2 / (Rs * HalfTrack), envelope.MostArticulated.Roll, Root);
        Assert.Equal((((D + B) / 2) - (B - RightBump)) / (Rs * HalfTrack), envelope.LeastRoll!.Value, Root);
        Assert.Null(TravelEnvelope.Of(null, Bump, Rebound, HalfTrack, (Bump, Rebound))!.LeastRoll);
    }

    [Fact]
    public void Of_NeitherTravelNorBothStops_IsUnknown()
    {
        Assert.Null(TravelEnvelope.Of(null, Bump, null, HalfTrack));
        Assert.Null(TravelEnvelope.Of(Given(0.06, 0.05, 0.07, TravelCombinations.UntilStopsTouch), null, Rebound, HalfTrack));
    }
}
