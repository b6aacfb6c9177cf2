namespace RollRide.Numerics;

/// <summary>A number with its unit, as a sentence shows it: <c>$"{Unit.Millimetre.Show(travel):F1}"</c> reads "12.5 mm".</summary>
/// <param name="Number">How many of the unit.</param>
/// <param name="Unit">The unit.</param>
public readonly record struct Quantity(double Number, Unit Unit) : IFormattable
{
    /// <summary>The number and the unit's symbol.</summary>
    /// <param name="format">The format of the number.</param>
    /// <param name="formatProvider">The culture of the number.</param>
    public string ToString(string? format, IFormatProvider? formatProvider) => $"{Number.ToString(format, formatProvider)} {Unit.Symbol}".TrimEnd();
}
