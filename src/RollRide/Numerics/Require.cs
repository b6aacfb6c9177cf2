using System.Globalization;
using System.Runtime.CompilerServices;

namespace RollRide.Numerics;

/// <summary>Checks of arguments and properties; each names the value, its unit and what is accepted.</summary>
internal static class Require
{
    /// <summary>Returns the value if it is finite and greater than zero.</summary>
    public static double Positive(double value, string unit, [CallerMemberName] string name = "") =>
        double.IsFinite(value) && value > 0 ? value : throw OutOfRange(value, unit, "greater than 0", name);

    /// <summary>Returns the value if it is finite and not less than zero.</summary>
    public static double NotNegative(double value, string unit, [CallerMemberName] string name = "") =>
        double.IsFinite(value) && value >= 0 ? value : throw OutOfRange(value, unit, "0 or more", name);

    /// <summary>Returns the value if it is finite and not less than a limit.</summary>
    public static double AtLeast(double limit, double value, string unit, [CallerMemberName] string name = "") =>
        double.IsFinite(value) && value >= limit
            ? value
            : throw OutOfRange(value, unit, string.Create(CultureInfo.InvariantCulture, $"{limit} or more"), name);

    /// <summary>Returns the value if it is finite.</summary>
    public static double Finite(double value, string unit, [CallerMemberName] string name = "") =>
        double.IsFinite(value) ? value : throw OutOfRange(value, unit, "a finite number", name);

    private static ArgumentOutOfRangeException OutOfRange(double value, string unit, string accepted, string name) =>
        new(name, value, string.Create(CultureInfo.InvariantCulture, $"{name} is {value} {unit}; it must be {accepted}."));
}
