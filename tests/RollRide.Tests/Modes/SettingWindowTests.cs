using RollRide.Dynamics;
using RollRide.Modes;

namespace RollRide.Tests.Modes;

public sealed class SettingWindowTests
{
    // Hardly any axle between body and rigid tyres: each motion is one degree of freedom, so the edges have closed forms. What
    // is left of tyre and axle is ks/kt = 4e-6.
    private static readonly LiveAxleRow Rigid = ReferenceCars.Mod20 with { TyreRate = 1e10, AxleMass = 1e-2, AxleInertia = 1e-2, RollArm = 0.5, RollCentre = 0.3, AxleHeight = 0.3 };
    private const double RigidTolerance = 2e-5;

    [Fact] // ζheave = c/√(2 ks ms), ζroll = c yd²/√((kφ − ms g h) Is): the linear estimate, gravity included, derived.
    public void Rigid_tyres_give_the_edges_of_the_estimate()
    {
        var window = Find(Rigid with { DamperPosition = 0.70 }, new DampingTargets(0.3, 0.2, 0.4, 0.1));

        Near(0.3 * RollUnit(Rigid) / (0.7 * 0.7), window.Lower.Coefficient);
        Assert.Equal(DampingTarget.RollMinimum, window.Lower.Binding);
        Near(0.4 * HeaveUnit(Rigid), window.Upper.Coefficient);
        Assert.Equal(DampingTarget.HeaveMaximum, window.Upper.Binding);
        Assert.True(window.IsOpen);
        Assert.False(window.HasLaterInterval);
    }

    [Fact]
    public void Strict_heave_minimum_binds_the_lower_edge()
    {
        var window = Find(Rigid with { DamperPosition = 0.70 }, new DampingTargets(0.05, 0.3, 0.4, 0.1));

        Near(0.3 * HeaveUnit(Rigid), window.Lower.Coefficient);
        Assert.Equal(DampingTarget.HeaveMinimum, window.Lower.Binding);
    }

    [Fact] // The window closes where both edges meet: yd² = (a/b) √((kφ − ms g h) Is)/√(2 ks ms).
    public void Rigid_tyres_close_the_window_where_the_estimate_does()
    {
        var targets = new DampingTargets(0.25, 0.1, 0.4, 0.1);
        var closing = Math.Sqrt(0.25 * RollUnit(Rigid) / (0.4 * HeaveUnit(Rigid)));

        Assert.True(Find(Rigid with { DamperPosition = closing * (1 + RigidTolerance) }, targets).IsOpen);
        Assert.False(Find(Rigid with { DamperPosition = closing * (1 - RigidTolerance) }, targets).IsOpen);
    }

    [Fact]
    public void Edges_meet_their_targets_exactly_on_the_full_eigenvalues()
    {
        var row = ReferenceCars.Mod23 with { DamperPosition = 0.70 };
        var targets = new DampingTargets(0.25, 0.1, 0.4, 0.1) { HopMinimum = 0.1, TrampMinimum = 0.1 };
        var window = Find(row, targets);
        var linear = LinearHalfCar.AtRest(ReferenceCars.LiveAxle(row));

        Assert.True(window.IsOpen);
        Assert.Equal(0.25, ModeFollower.Solve(linear, window.Lower.Coefficient).Roll.DampingRatio, 1e-9);
        Assert.Equal(0.4, ModeFollower.Solve(linear, window.Upper.Coefficient).Heave.DampingRatio, 1e-9);
        Assert.True(window.Contains((window.Lower.Coefficient + window.Upper.Coefficient) / 2));
        Assert.False(window.Contains(window.Upper.Coefficient * 1.01));
    }

    [Theory]
    [InlineData(0.5, true)] // This hop target needs more damping than the heave maximum allows.
    [InlineData(0.05, false)]
    public void Wheel_targets_bind_too(double hopMinimum, bool closes)
    {
        var targets = new DampingTargets(0.1, 0.1, 0.3, 0.1) { HopMinimum = hopMinimum };

        var window = Find(ReferenceCars.Mod23 with { DamperPosition = 0.70 }, targets);

        Assert.Equal(closes, !window.IsOpen);
        Assert.Equal(closes, window.Lower.Binding == DampingTarget.HopMinimum);
    }

    [Fact] // Far beyond the window the locked body bounces on its tyres with a small heave ratio, and roll creeps: ratio 1.
    public void Locked_suspension_is_no_second_window()
    {
        var row = ReferenceCars.Mod23 with { DamperPosition = 0.30 };
        var targets = new DampingTargets(0.3, 0.1, 0.35, 0.1);
        var linear = LinearHalfCar.AtRest(ReferenceCars.LiveAxle(row));
        var follower = new ModeFollower(linear);
        var metWhenLocked = false;
        for (var c = 1e3; c < 1e6; c *= 1.05)
        {
            var modes = follower.At(c);
            metWhenLocked |= targets.All.All(target => targets.Margin(target, modes) >= 0);
        }

        var window = SettingWindow.Find(linear, targets);

        Assert.True(metWhenLocked);
        Assert.False(window.IsOpen);
        Assert.Equal(DampingTarget.RollMinimum, window.Lower.Binding);
        Assert.Equal(DampingTarget.HeaveMaximum, window.Upper.Binding);
    }

    [Fact]
    public void Where_heave_never_reaches_its_maximum_the_window_ends_as_the_suspension_locks()
    {
        var row = ReferenceCars.Mod20 with { DamperPosition = 0.70, SpringRate = 120e3 };
        var linear = LinearHalfCar.AtRest(ReferenceCars.LiveAxle(row));

        var window = SettingWindow.Find(linear, new DampingTargets(0.1, 0.1, 0.95, 0.1));

        Assert.Null(window.Upper.Binding);
        var peak = ModeFollower.Solve(linear, window.Upper.Coefficient).Heave.DampingRatio;
        Assert.True(peak < 0.95);
        Assert.True(ModeFollower.Solve(linear, 1.05 * window.Upper.Coefficient).Heave.DampingRatio < peak);
        Assert.True(ModeFollower.Solve(linear, 0.95 * window.Upper.Coefficient).Heave.DampingRatio < peak);
    }

    [Fact]
    public void Damper_at_the_centre_never_reaches_the_roll_minimum()
    {
        var window = Find(ReferenceCars.Mod20 with { DamperPosition = 0 }, new DampingTargets(0.1, 0.1, 0.4, 0.1));

        Assert.Equal(new WindowEdge(double.PositiveInfinity, DampingTarget.RollMinimum), window.Lower);
        Assert.False(window.IsOpen);
    }

    [Theory]
    [InlineData(0.2, 0.4, 0.4)]
    [InlineData(0.2, 0.5, 0.4)]
    [InlineData(0, 0.2, 0.4)]
    [InlineData(0.2, 0.2, 1)]
    [InlineData(double.NaN, 0.2, 0.4)]
    public void Contradicting_or_impossible_targets_are_refused(double roll, double heaveMinimum, double heaveMaximum) =>
        Assert.ThrowsAny<ArgumentException>(() => new DampingTargets(roll, heaveMinimum, heaveMaximum, 0.1));

    /// <summary>Coefficient that gives heave a ratio of 1: <c>√(2 ks ms)</c>, N·s/m.</summary>
    private static double HeaveUnit(LiveAxleRow row) => Math.Sqrt(2 * row.SpringRate * row.BodyMass);

    /// <summary>Coefficient times yd² that gives roll a ratio of 1: <c>√((kφ − ms g h) Is)</c>, N·m·s/rad.</summary>
    private static double RollUnit(LiveAxleRow row) =>
        Math.Sqrt(((2 * row.SpringRate * row.SpringPosition * row.SpringPosition) + row.Bar - (row.BodyMass * 9.81 * row.RollArm)) * row.BodyInertia);

    private static SettingWindow Find(LiveAxleRow row, DampingTargets targets) =>
        SettingWindow.Find(LinearHalfCar.AtRest(ReferenceCars.LiveAxle(row)), targets);

    private static void Near(double expected, double actual) => Assert.InRange(actual / expected, 1 - RigidTolerance, 1 + RigidTolerance);
}
