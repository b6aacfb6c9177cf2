using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Which differences between layouts count: for the decision and its price, in sentences, and for the marks in tables.</summary>
public static class Noticeable
{
    /// <summary>The share from which a difference counts.</summary>
    /// <remarks>
    /// A driver or passenger tells two vibrations apart from about 10 % on (difference thresholds of Morioka and Griffin 2000, Mansfield and Griffin 2000;
    /// from memory). Half of that counts; the runs' own error is far below it.
    /// </remarks>
    public const double Share = 0.05;

    /// <summary>That of which the difference of two values is a share: of percentages 100 points, of tyre loads a side's load at rest, of all others the larger value.</summary>
    /// <param name="unit">The unit of the values.</param>
    /// <param name="vehicle">The vehicle that they were measured on.</param>
    /// <param name="one">A value.</param>
    /// <param name="other">The other one.</param>
    public static double Whole(Unit unit, HalfCar vehicle, double one, double other)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        return unit == Unit.Percent ? Unit.Percent.PerSi
            : unit == Unit.Newton ? SideLoad(vehicle)
            : Math.Max(Math.Abs(one), Math.Abs(other));
    }

    /// <summary>The load of a side at rest, N.</summary>
    internal static double SideLoad(HalfCar vehicle) => vehicle.StaticTyreLoad * vehicle.ContactPositions.Count / 2;
}
