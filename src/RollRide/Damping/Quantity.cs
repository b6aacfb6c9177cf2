using System.Globalization;

namespace RollRide.Damping;

/// <summary>Checks physical quantities where they enter; each check returns the value it let through.</summary>
internal static class Quantity
{
    /// <summary>Lets through a finite number.</summary>
    public static double Finite(double value, string unit, string name) =>
        double.IsFinite(value) ? value : throw OutOfRange(value, unit, name, "finite");

    /// <summary>Lets through a finite number above zero.</summary>
    public static double Positive(double value, string unit, string name) =>
        double.IsFinite(value) && value > 0 ? value : throw OutOfRange(value, unit, name, "finite and above 0");

    /// <summary>Lets through a finite number of at least zero.</summary>
    public static double NotNegative(double value, string unit, string name) =>
        double.IsFinite(value) && value >= 0 ? value : throw OutOfRange(value, unit, name, "finite and at least 0");

    private static ArgumentOutOfRangeException OutOfRange(double value, string unit, string name, string limits) =>
        new(name, value, string.Create(CultureInfo.InvariantCulture, $"{name} ({unit}) must be {limits}."));
}
