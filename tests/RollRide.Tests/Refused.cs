namespace RollRide.Tests;

/// <summary>Numbers out of their limits: whoever sent them is told which one it was and in what unit it counts.</summary>
internal static class Refused
{
    public static void NumberIn(string unit, string name, Func<object> make)
    {
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(make);
        Assert.Equal(name, refusal.ParamName);
        Assert.Contains($"{name} must be", refusal.Message, StringComparison.Ordinal);
        Assert.Contains($"(unit: {unit})", refusal.Message, StringComparison.Ordinal);
    }
}
