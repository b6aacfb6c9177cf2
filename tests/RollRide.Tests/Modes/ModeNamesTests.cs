using RollRide.Modes;

namespace RollRide.Tests.Modes;

public sealed class ModeNamesTests
{
    [Theory]
    [InlineData(ModeName.Heave, "heave")]
    [InlineData(ModeName.Roll, "roll")]
    [InlineData(ModeName.Hop, "hop")]
    [InlineData(ModeName.Tramp, "tramp")]
    public void Mode_of_one_axle_has_its_key(ModeName name, string key) => Assert.Equal(key, ModeNames.Key(name));

    [Theory]
    [InlineData(VehicleModeName.Bounce, "bounce", "bounce")]
    [InlineData(VehicleModeName.Pitch, "pitch", "pitch")]
    [InlineData(VehicleModeName.Roll, "roll", "roll")]
    [InlineData(VehicleModeName.Twist, "twist", "twist")]
    [InlineData(VehicleModeName.FrontHop, "frontHop", "hop, front")]
    [InlineData(VehicleModeName.FrontTramp, "frontTramp", "tramp, front")]
    [InlineData(VehicleModeName.RearHop, "rearHop", "hop, rear")]
    [InlineData(VehicleModeName.RearTramp, "rearTramp", "tramp, rear")]
    public void Mode_of_a_vehicle_has_its_key_and_its_words(VehicleModeName name, string key, string words) =>
        Assert.Equal((key, words), (VehicleModeNames.Key(name), VehicleModeNames.Words(name)));

    [Theory]
    [InlineData(DampingTarget.RollMinimum, "roll minimum")]
    [InlineData(DampingTarget.HeaveMinimum, "heave minimum")]
    [InlineData(DampingTarget.HeaveMaximum, "heave maximum")]
    [InlineData(DampingTarget.HopMinimum, "hop minimum")]
    [InlineData(DampingTarget.TrampMinimum, "tramp minimum")]
    public void Target_has_its_words(DampingTarget target, string words) => Assert.Equal(words, DampingTargetNames.Words(target));
}
