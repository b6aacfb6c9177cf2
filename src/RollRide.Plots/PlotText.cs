using System.Globalization;
using System.Text.RegularExpressions;

namespace RollRide.Plots;

/// <summary>Numbers as they are written in figures.</summary>
public static partial class PlotText
{
    /// <summary>A space at which no line breaks.</summary>
    internal const char NoBreak = '\u00a0';

    private const int MostDecimals = 9;

    /// <summary>A number with a fixed count of decimals, a true minus sign, and no sign on a rounded zero.</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">Decimals, 0 to 9.</param>
    public static string Number(double value, int decimals)
    {
        var rounded = Math.Round(value, decimals);
        if (rounded == 0)
            rounded = 0; // drops the sign of −0
        return rounded.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture).Replace('-', '−');
    }

    /// <summary>The same, with "&lt;0.01" for a value above 0 that is less than one of the last decimal: no zero that it only rounds to.</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">Decimals, 0 to 9.</param>
    public static string NotZero(double value, int decimals) =>
        value > 0 && value < Math.Pow(10, -decimals) ? $"<{Number(Math.Pow(10, -decimals), decimals)}" : Number(value, decimals);

    /// <summary>A number with its unit, e.g. "−4.9 deg".</summary>
    /// <param name="value">The number.</param>
    /// <param name="decimals">Decimals, 0 to 9.</param>
    /// <param name="unit">The unit, or "" for none.</param>
    public static string Value(double value, int decimals, string unit) =>
        unit.Length == 0 ? Number(value, decimals) : $"{Number(value, decimals)} {unit}";

    /// <summary>A text in which no line breaks between a number and what follows it: its unit.</summary>
    /// <param name="text">The text.</param>
    public static string WithUnits(string text) => AfterNumber().Replace(text, NoBreak.ToString());

    [GeneratedRegex(@"(?<=(?:^| )[(−+±<]?\d[\d.]*) ")]
    private static partial Regex AfterNumber();

    /// <summary>The decimals that a scale with a given step needs, so that all its labels have the same.</summary>
    /// <param name="step">Distance between two labels; greater than 0.</param>
    public static int DecimalsFor(double step)
    {
        for (var decimals = 0; decimals < MostDecimals; decimals++)
        {
            var scaled = step * Math.Pow(10, decimals);
            // A step such as 0.25 is not exact in binary; a millionth of it is far below what a label shows.
            if (Math.Abs(scaled - Math.Round(scaled)) < 1e-6 * scaled)
                return decimals;
        }
        return MostDecimals;
    }
}
