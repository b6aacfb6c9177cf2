using System.Globalization;

namespace RollRide.Studies;

/// <summary>A closed range of values.</summary>
/// <param name="Lowest">Lowest value.</param>
/// <param name="Highest">Highest value, not below the lowest.</param>
public sealed record ValueRange(double Lowest, double Highest)
{
    /// <summary>Highest value.</summary>
    public double Highest { get; } = double.IsFinite(Lowest) && double.IsFinite(Highest) && Highest >= Lowest
        ? Highest
        : throw new ArgumentOutOfRangeException(nameof(Highest), Highest, string.Create(
            CultureInfo.InvariantCulture, $"A range needs a highest value that is not below its lowest, {Lowest}."));

    /// <summary>Whether a value lies in it.</summary>
    /// <param name="value">The value.</param>
    public bool Contains(double value) => value >= Lowest && value <= Highest;

    /// <summary>The value of the range nearest to a value.</summary>
    internal double Nearest(double value) => Math.Clamp(value, Lowest, Highest);

    /// <summary>The value at a share of the range, evenly in the value.</summary>
    internal double At(double share) => Lowest + share * (Highest - Lowest);

    /// <summary>The value at a share of the range, evenly in its logarithm; the lowest must be above 0.</summary>
    internal double AtLog(double share) => Lowest * Math.Pow(Highest / Lowest, share);
}
