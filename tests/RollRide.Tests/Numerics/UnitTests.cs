using System.Text.RegularExpressions;
using RollRide.Numerics;
using RollRide.Tests.Docs;

namespace RollRide.Tests.Numerics;

public partial class UnitTests
{
    /// <summary>Units that are defined, not measured: the SI brochure, 9th ed. 2019, tables 7 and 8; km/h from 1000 m and 3600 s.</summary>
    public static TheoryData<string, double, double> Defined => new()
    {
        { "mm", 0.0125, 12.5 },
        { "km", 1250, 1.25 },
        { "ms", 0.25, 250 },
        { "µs", 0.25, 250_000 },
        { "deg", Math.PI / 6, 30 },
        { "deg/s", Math.PI, 180 },
        { "km/h", 10, 36 },
        { "kN", 7527, 7.527 },
        { "N/mm", 35_000, 35 },
        { "kN·s/m", 2500, 2.5 },
        { "kN/rad", 120_000, 120 },
        { "N·m/deg", 18_000 / Math.PI, 100 },
        { "deg/g", Math.PI / 180 / 9.80665, 1 },
        { "%", 0.05, 5 },
    };

    private static IEnumerable<Unit> All => typeof(Unit).GetProperties().Where(property => property.PropertyType == typeof(Unit)).Select(property => (Unit)property.GetValue(null)!);

    [Theory]
    [MemberData(nameof(Defined))]
    public void Of_IsTheQuantityInTheUnit_AndInSiTheWayBack(string symbol, double si, double number)
    {
        var unit = All.Single(unit => unit.Symbol == symbol);
        Assert.Equal(number, unit.Of(si), 1e-12 * number);
        Assert.Equal(si, number * unit.InSi, 1e-12 * si);
        Assert.Null(unit.Of(null));
    }

    [Fact]
    public void Of_WholeThousands_IsExact()
    {
        // Times 0.001, which binary fractions only come near, both would end in a digit of their own.
        Assert.Equal(4.6, Unit.Kilonewton.Of(4600.0));
        Assert.Equal(5.1, Unit.KilonewtonSecondPerMetre.Of(5100.0));
    }

    [Fact]
    public void Symbols_AndEndsOfKeys_NameOneUnitEach()
    {
        Assert.Equal(All.Count(), All.Select(unit => unit.Symbol).Distinct().Count());
        Assert.Equal(All.Count(), All.Select(unit => unit.Suffix).Distinct().Count());
    }

    [Fact]
    public void Show_WritesNumberAndSymbolAsAsked()
    {
        double? none = null;
        Assert.Equal("12.5 mm, -3 deg, +7 mm, 0.04, ", FormattableString.Invariant(
            $"{Unit.Millimetre.Show(0.01249):F1}, {Unit.Degree.Show(-Math.PI / 60):F0}, {Unit.Millimetre.Show(0.007):+0;-0;0}, {Unit.One.Show(0.04)}, {Unit.Millimetre.Show(none):F1}"));
    }

    [Fact]
    public void Conversions_StandInOneFile()
    {
        var offenders = SourceFiles.All
            .Where(file => Path.GetFileName(file) != "Unit.cs")
            .SelectMany(file => File.ReadLines(file).Where(line => Conversion().IsMatch(line)).Select(line => $"{Path.GetFileName(file)}: {line.Trim()}"));

        Assert.Empty(offenders);
    }

    // Degrees, km/h, thousands, and ways out other than Of and Show; 1e3 and 1e-3 as amounts of their own are no conversion.
    [GeneratedRegex(@"\bPI\s*/\s*180|\b180(\.0)?\s*/\s*Math\.PI|[*/]\s*3\.6\b|\b3\.6\s*\*|[*/]\s*(1000|1e3)\b|[\w)\]]\s*\*\s*1e-3\b|\b(Mm|DegPerRad|RadPerDeg)\s*=|/\s*Unit\.\w+\.InSi\b")]
    private static partial Regex Conversion();
}
