namespace RollRide.Tests.Scenarios;

/// <summary>Mounts in series with a damper that the solver cannot follow, or that say nothing.</summary>
public class TopMountReadingTests
{
    private static string WithMount(string stiffness) => Trial.With("\"closedLength_mm\": 300", $"\"closedLength_mm\": 300, \"topMountStiffness_N_per_mm\": {stiffness}");

    [Fact] // 1e9 N/m times 1e-7 m.
    public void MountThatHardlyYields_IsWarnedOfWithTheForceThatTheToleranceStandsFor()
    {
        var warning = Assert.Single(Trial.WarningsOf(WithMount("1e6")), text => text.Contains("topMountStiffness", StringComparison.Ordinal));
        Assert.Contains("stands for 300 N in a mount as stiff as this", warning, StringComparison.Ordinal);
    }

    [Fact]
    public void MountOfRubber_IsNotWarnedOf() => Assert.DoesNotContain(Trial.WarningsOf(WithMount("1500")), text => text.Contains("topMountStiffness", StringComparison.Ordinal));

    [Fact]
    public void DamperWithoutForceInAMount_IsRefused()
    {
        var fault = Trial.FaultOf(WithMount("500").Replace("[-1500, -500, 0, 300, 900]", "[-1.5e-6, -5e-7, 0, 3e-7, 9e-7]", StringComparison.Ordinal));
        Assert.Equal("dampers.soft.topMountStiffness_N_per_mm", fault.Key);
        Assert.Contains("next to nothing against its mount", fault.Reason, StringComparison.Ordinal);
    }
}
