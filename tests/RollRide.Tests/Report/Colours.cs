using System.Globalization;

namespace RollRide.Tests.Report;

/// <summary>How well two colours can be told apart.</summary>
internal static class Colours
{
    /// <summary>Contrast of two colours after WCAG 2.1, from their relative luminance.</summary>
    public static double Contrast(string one, string other)
    {
        double[] luminances = [Luminance(one), Luminance(other)];
        return (luminances.Max() + 0.05) / (luminances.Min() + 0.05);
    }

    private static double Luminance(string rgb)
    {
        var parts = Enumerable.Range(0, 3).Select(i => int.Parse(rgb.AsSpan(2 * i, 2), NumberStyles.HexNumber, CultureInfo.InvariantCulture) / 255.0)
            .Select(part => part <= 0.03928 ? part / 12.92 : Math.Pow((part + 0.055) / 1.055, 2.4)).ToArray();
        return (0.2126 * parts[0]) + (0.7152 * parts[1]) + (0.0722 * parts[2]);
    }
}
