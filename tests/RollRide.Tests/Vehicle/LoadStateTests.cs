using RollRide.Vehicle;

namespace RollRide.Tests.Vehicle;

public sealed class LoadStateTests
{
    private static readonly SprungBody Design = new() { Mass = 1000, CgHeight = 0.7, RollInertia = 300 };

    private static readonly LoadedMass Crate = new() { Mass = 250, Height = 1.2, RollInertia = 20 };

    [Fact]
    public void Masses_Added_KeepFirstAndSecondMomentAboutTheRoad()
    {
        var body = new LoadState { Name = "laden", Masses = [Crate, new() { Mass = 80, Height = 0.5 }] }.Of(Design);

        // Mass, Σ m z and Σ (I + m z²) about the road are sums over the parts, whatever their centre.
        Assert.Equal(1330, body.Mass, 1e-12);
        Assert.Equal((1000 * 0.7) + (250 * 1.2) + (80 * 0.5), body.Mass * body.CgHeight, 1e-10);
        Assert.Equal(
            300 + (1000 * 0.7 * 0.7) + 20 + (250 * 1.2 * 1.2) + (80 * 0.5 * 0.5),
            body.RollInertia + (body.Mass * body.CgHeight * body.CgHeight),
            1e-10);
    }

    [Fact]
    public void TwoEqualPoints_AddedApart_HaveTheInertiaOfADumbbell()
    {
        // 100 kg half a metre above and below the centre: 2·100·0.5² = 50 kg·m² more, the centre where it was.
        var body = new LoadState { Name = "dumbbell", Masses = [new() { Mass = 100, Height = 0.2 }, new() { Mass = 100, Height = 1.2 }] }.Of(Design);
        Assert.Equal(0.7, body.CgHeight, 1e-15);
        Assert.Equal(350, body.RollInertia, 1e-12);
    }

    [Fact]
    public void Mass_AddedAndTakenOut_LeavesTheBodyAsItWas()
    {
        var laden = new LoadState { Name = "laden", Masses = [Crate] }.Of(Design);
        var empty = new LoadState { Name = "empty", Masses = [new() { Mass = -250, Height = 1.2, RollInertia = -20 }] }.Of(laden);
        Assert.Equal(1000, empty.Mass, 1e-12);
        Assert.Equal(0.7, empty.CgHeight, 1e-14);
        Assert.Equal(300, empty.RollInertia, 1e-11);
    }

    [Fact]
    public void WhatAStateSetsOfTheBody_TakesThePlaceOfTheDesign_AndMassesAddToIt()
    {
        var set = new LoadState { Name = "camper", BodyMass = 1400, CgHeight = 0.9, RollInertia = 500 };
        Assert.Equal(new SprungBody { Mass = 1400, CgHeight = 0.9, RollInertia = 500 }, set.Of(Design));
        Assert.Equal(1650, (set with { Masses = [Crate] }).Of(Design).Mass);
        Assert.Equal(Design, new LoadState { Name = "design" }.Of(Design));
    }

    [Theory]
    [InlineData(-1000, 0.7, 0, "mass of 0 kg")]
    [InlineData(-1200, 0.7, 0, "mass of -200 kg")]
    [InlineData(-900, 0.9, 0, "height of its centre of gravity of -1.1 m")]
    [InlineData(-500, 0.1, 0, "roll inertia of -60 kg·m²")]
    [InlineData(-100, 0.7, -400, "roll inertia of -100 kg·m²")]
    public void LoadThatLeavesNoBody_IsRefusedWithStateAndValue(double mass, double height, double inertia, string named)
    {
        var state = new LoadState { Name = "stripped", Masses = [new() { Mass = mass, Height = height, RollInertia = inertia }] };
        var refused = Assert.Throws<ArgumentException>(() => state.Of(Design));
        Assert.Equal($"the body under load state “stripped” has a {named}; it must be greater than 0.", refused.Message);
    }

    [Fact]
    public void MassTakenOutWithAPositiveInertia_IsRefused()
    {
        var state = new LoadState { Name = "stripped", Masses = [Crate, new() { Mass = -50, Height = 0.7, RollInertia = 3 }] };
        var refused = Assert.Throws<ArgumentException>(() => state.Of(Design));
        Assert.StartsWith("In load state “stripped” a mass of -50 kg has a roll inertia of 3 kg·m²", refused.Message, StringComparison.Ordinal);
    }
}
