using System.Runtime.CompilerServices;

namespace RollRide.Numerics;

/// <summary>Checks numbers when they come in; the message names the quantity, its limits, its unit and the value.</summary>
internal static class Require
{
    /// <summary>Returns the value if it is a finite number.</summary>
    public static double Finite(double value, string unit = "", [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) ? value : throw Refuse(value, "a finite number", unit, name);

    /// <summary>Returns the value if it is finite and greater than zero.</summary>
    public static double Positive(double value, string unit = "", [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) && value > 0 ? value : throw Refuse(value, "greater than zero and finite", unit, name);

    /// <summary>Returns the value if it is finite and not negative.</summary>
    public static double NotNegative(double value, string unit = "", [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) && value >= 0 ? value : throw Refuse(value, "zero or greater and finite", unit, name);

    /// <summary>Returns the value if it is finite and not less than a limit.</summary>
    public static double AtLeast(double limit, double value, string unit = "", [CallerArgumentExpression(nameof(value))] string name = "") =>
        double.IsFinite(value) && value >= limit
            ? value
            : throw Refuse(value, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{limit} or greater and finite"), unit, name);

    /// <summary>Returns the value if it lies between two limits or on one of them.</summary>
    public static double Between(double low, double high, double value, string unit = "", [CallerArgumentExpression(nameof(value))] string name = "") =>
        value >= low && value <= high
            ? value
            : throw Refuse(value, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"finite, from {low} to {high}"), unit, name);

    private static ArgumentOutOfRangeException Refuse(double value, string accepted, string unit, string name) =>
        new(name, value, $"{name} must be {accepted}{(unit.Length == 0 ? "" : $" (unit: {unit})")}.");
}
