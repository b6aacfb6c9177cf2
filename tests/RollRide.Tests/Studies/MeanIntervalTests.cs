using RollRide.Studies;

namespace RollRide.Tests.Studies;

/// <summary>Means and their intervals.</summary>
public sealed class MeanIntervalTests
{
    [Fact]
    public void Runs_to_tell_are_those_whose_interval_is_as_wide_as_the_mean()
    {
        // Half-width three times the mean: it must become a third, with nine times the runs.
        Assert.Equal(72, new MeanInterval(0.1, 0.3).RunsToTell(8), 1e-9);
        Assert.True(double.IsPositiveInfinity(new MeanInterval(0, 0.3).RunsToTell(8)));
    }
}
