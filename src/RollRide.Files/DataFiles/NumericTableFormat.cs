using System.Globalization;

namespace RollRide.DataFiles;

/// <summary>How fields and decimals are written in a table that is not in the standard form. It is always declared, never guessed.</summary>
/// <param name="Separator">What stands between fields: comma, semicolon or tab.</param>
/// <param name="DecimalComma">Whether numbers have a decimal comma.</param>
public sealed record NumericTableFormat(char Separator, bool DecimalComma)
{
    /// <summary>Commas between fields, decimal points.</summary>
    public static NumericTableFormat Standard { get; } = new(',', false);

    /// <summary>What stands between fields.</summary>
    public char Separator { get; } = Separator is ',' or ';' or '\t'
        ? Separator
        : throw new ArgumentOutOfRangeException(nameof(Separator), Separator, "The separator must be a comma, a semicolon or a tab.");

    /// <summary>Whether numbers have a decimal comma.</summary>
    public bool DecimalComma { get; } = !(DecimalComma && Separator == ',')
        ? DecimalComma
        : throw new ArgumentException("Fields and decimals cannot both be told by a comma.", nameof(DecimalComma));

    internal NumberFormatInfo Numbers => DecimalComma
        ? new NumberFormatInfo { NumberDecimalSeparator = ",", NumberGroupSeparator = " " }
        : NumberFormatInfo.InvariantInfo;

    internal string DecimalName => DecimalComma ? "comma" : "point";
}
