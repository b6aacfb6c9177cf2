namespace RollRide.Tests.Scenarios;

/// <summary>Mounts in series with a damper that the solver cannot follow, or that say nothing.</summary>
public class TopMountReadingTests
{
    private static string WithMount(string stiffness) => Trial.With("\"closedLength_mm\": 300", $"\"closedLength_mm\": 300, \"topMountStiffness_N_per_mm\": {stiffness}");

    private static string WithSolver(string stiffness, string solver) => WithMount(stiffness).Replace("\"dampers\":", $"\"solver\": {solver}, \"dampers\":", StringComparison.Ordinal);

    [Fact] // 1e8 N/m times 3e-7 m and 3e-8 of 50 mm.
    public void MountThatHardlyYields_IsWarnedOfWithTheForceThatTheTolerancesStandFor()
    {
        var warning = Assert.Single(Trial.WarningsOf(WithMount("1e5")), text => text.Contains("topMountStiffness", StringComparison.Ordinal));
        Assert.Contains("stand for 30 N in a mount as stiff as this", warning, StringComparison.Ordinal);
    }

    [Fact]
    public void MountThatHardlyYields_IsNotWarnedOfWithTolerancesSmallEnough() =>
        Assert.DoesNotContain(Trial.WarningsOf(WithSolver("1e6", """{ "absoluteTolerance": 1e-9, "relativeTolerance": 3e-8 }""")), text => text.Contains("a mount as stiff as this", StringComparison.Ordinal));

    [Fact]
    public void MountOfRubber_IsNotWarnedOf() => Assert.DoesNotContain(Trial.WarningsOf(WithMount("1500")), text => text.Contains("topMountStiffness", StringComparison.Ordinal));

    [Fact]
    public void DamperWithoutForceInAMount_IsRefused()
    {
        var fault = Trial.FaultOf(WithMount("500").Replace("[-1500, -500, 0, 300, 900]", "[-1.5e-6, -5e-7, 0, 3e-7, 9e-7]", StringComparison.Ordinal));
        Assert.Equal("dampers.soft.topMountStiffness_N_per_mm", fault.Key);
        Assert.Contains("almost nothing compared with its mount", fault.Reason, StringComparison.Ordinal);
    }
}
