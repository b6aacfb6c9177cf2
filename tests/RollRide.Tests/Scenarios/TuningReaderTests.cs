namespace RollRide.Tests.Scenarios;

public class TuningReaderTests
{
    private const string Tuning =
        """
        "tuning": {
            "heave": { "ratio": 0.3, "damperVelocity_m_per_s": 0.26 },
            "roll": { "ratio": 0.25, "tolerance": 0.05, "damperVelocity_m_per_s": 0.05, "weight": 2 },
            "limits": { "force_N": 4000, "reboundToCompression": [1, 3], "kneeVelocity_m_per_s": [0.05, 0.2] }
          },
        """;

    private static string With(string tuning) => Trial.With("\"manoeuvre\": {", tuning + "\n\"manoeuvre\": {");

    private static void AssertRefused(string old, string replacement, string key, string reason, string heave = "\"ratio\": 0.3")
    {
        var text = Tuning.Replace("\"ratio\": 0.3", heave, StringComparison.Ordinal).Replace(old, replacement, StringComparison.Ordinal);
        var scenario = Trial.Read(With(text));
        Assert.Null(scenario.Tuning);
        var fault = Assert.Single(scenario.TuningFaults);
        Assert.Equal(key, fault.Key);
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
        Assert.NotNull(fault.Line);
    }

    [Fact]
    public void Read_Tuning_GivesTheTaskWithDefaults()
    {
        var task = Trial.Read(With(Tuning)).Tuning!;
        Assert.Equal(0.02, task.Heave.Tolerance);
        Assert.Equal(2, task.Roll.Weight);
        Assert.Equal(0.05, task.Roll.DamperVelocity);
        Assert.Equal(4000, task.Limits.Force);
        Assert.Equal(0.2, task.Limits.KneeVelocity.Highest);
        Assert.Equal(40, task.TradeOff.Points);
        Assert.Null(Trial.Read(Trial.LiveAxle).Tuning);
    }

    [Fact]
    public void Read_TargetBeyondTheForceLimit_SaysHowMuchForceItNeeds() =>
        AssertRefused("\"force_N\": 4000", "\"force_N\": 500", "tuning.heave.ratio", "beyond the force limit");

    [Fact]
    public void Read_RangeUpsideDown_IsRefused() =>
        AssertRefused("[0.05, 0.2]", "[0.2, 0.05]", "tuning.limits.kneeVelocity_m_per_s", "lowest value must stand first");

    [Fact]
    public void Read_PhaseThatDoesNotExist_IsRefused() =>
        AssertRefused("\"limits\"", "\"tradeOff\": { \"ridePhase\": \"jump\" }, \"limits\"", "tuning.tradeOff.ridePhase", "bump, corner");

    [Fact]
    public void Read_BothWeightsZero_IsRefused() =>
        AssertRefused("\"weight\": 2 }", "\"weight\": 0 }", "tuning.roll.weight", "above 0", heave: "\"ratio\": 0.3, \"weight\": 0");

    [Fact]
    public void Read_RatioOfOne_IsRefused()
    {
        var fault = Trial.FaultOf(With(Tuning.Replace("\"ratio\": 0.3", "\"ratio\": 1", StringComparison.Ordinal)));
        Assert.Equal("tuning.heave.ratio", fault.Key);
        Assert.Contains("0.99", fault.Reason, StringComparison.Ordinal);
    }
}
