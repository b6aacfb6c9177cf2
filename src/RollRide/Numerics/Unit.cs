namespace RollRide.Numerics;

/// <summary>A unit in which a quantity enters or leaves the program: the one place that turns units. Inside everything is SI.</summary>
/// <param name="Symbol">As it stands in tables and on axes; empty for a mere number.</param>
/// <param name="Suffix">As it ends the keys of files; empty for a mere number.</param>
/// <param name="PerSi">How many of it make one SI unit of the quantity.</param>
public sealed record Unit(string Symbol, string Suffix, double PerSi)
{
    /// <summary>How much one of it is in SI.</summary>
    public double InSi { get; } = 1 / PerSi;

    /// <summary>A mere number.</summary>
    public static Unit One { get; } = new("", "", 1);

    /// <summary>Per cent, of a ratio.</summary>
    public static Unit Percent { get; } = new("%", "percent", 100);

    /// <summary>Seconds.</summary>
    public static Unit Second { get; } = new("s", "s", 1);

    /// <summary>Milliseconds.</summary>
    public static Unit Millisecond { get; } = new("ms", "ms", 1e3);

    /// <summary>Microseconds.</summary>
    public static Unit Microsecond { get; } = new("µs", "us", 1e6);

    /// <summary>Hertz.</summary>
    public static Unit Hertz { get; } = new("Hz", "Hz", 1);

    /// <summary>Millimetres.</summary>
    public static Unit Millimetre { get; } = new("mm", "mm", 1e3);

    /// <summary>Cubic centimetres.</summary>
    public static Unit CubicCentimetre { get; } = new("cm³", "cm3", 1e6);

    /// <summary>Bar, of pressures.</summary>
    public static Unit Bar { get; } = new("bar", "bar", 1e-5);

    /// <summary>Kilometres.</summary>
    public static Unit Kilometre { get; } = new("km", "km", 1e-3);

    /// <summary>Metres a second.</summary>
    public static Unit MetrePerSecond { get; } = new("m/s", "m_per_s", 1);

    /// <summary>Kilometres an hour.</summary>
    public static Unit KilometrePerHour { get; } = new("km/h", "km_per_h", 3.6);

    /// <summary>Metres a second squared.</summary>
    public static Unit MetrePerSecondSquared { get; } = new("m/s²", "m_per_s2", 1);

    /// <summary>The unit of vibration dose values.</summary>
    public static Unit VibrationDose { get; } = new("m/s^1.75", "m_per_s1_75", 1);

    /// <summary>Degrees.</summary>
    public static Unit Degree { get; } = new("deg", "deg", 180 / Math.PI);

    /// <summary>Degrees a second.</summary>
    public static Unit DegreePerSecond { get; } = new("deg/s", "deg_per_s", Degree.PerSi);

    /// <summary>Degrees per g of lateral acceleration, g being 9.80665 m/s².</summary>
    public static Unit DegreePerG { get; } = new("deg/g", "deg_per_g", Degree.PerSi * 9.80665);

    /// <summary>Radians a second squared.</summary>
    public static Unit RadianPerSecondSquared { get; } = new("rad/s²", "rad_per_s2", 1);

    /// <summary>Newtons.</summary>
    public static Unit Newton { get; } = new("N", "N", 1);

    /// <summary>Kilonewtons.</summary>
    public static Unit Kilonewton { get; } = new("kN", "kN", 1e-3);

    /// <summary>Newtons a millimetre.</summary>
    public static Unit NewtonPerMillimetre { get; } = new("N/mm", "N_per_mm", 1e-3);

    /// <summary>Kilonewtons per metre a second.</summary>
    public static Unit KilonewtonSecondPerMetre { get; } = new("kN·s/m", "kN_s_per_m", 1e-3);

    /// <summary>Kilonewtons a radian.</summary>
    public static Unit KilonewtonPerRadian { get; } = new("kN/rad", "kN_per_rad", 1e-3);

    /// <summary>Newton metres a degree.</summary>
    public static Unit NewtonMetrePerDegree { get; } = new("N·m/deg", "N_m_per_deg", Degree.InSi);

    /// <summary>Joules.</summary>
    public static Unit Joule { get; } = new("J", "J", 1);

    /// <summary>Watts.</summary>
    public static Unit Watt { get; } = new("W", "W", 1);

    /// <summary>Times a kilometre.</summary>
    public static Unit PerKilometre { get; } = new("1/km", "per_km", 1e3);

    /// <summary>A quantity in this unit.</summary>
    /// <param name="si">The quantity in SI.</param>
    public double Of(double si) => PerSi < 1 ? si / InSi : si * PerSi; // of the two factors the greater is whole where one is

    /// <summary>A quantity in this unit; null for none.</summary>
    /// <param name="si">The quantity in SI, or null.</param>
    public double? Of(double? si) => si is { } known ? Of(known) : null;

    /// <summary>A quantity to be shown with its unit, in a format for its number.</summary>
    /// <param name="si">The quantity in SI.</param>
    public Quantity Show(double si) => new(Of(si), this);

    /// <summary>A quantity to be shown with its unit, in a format for its number; null for none.</summary>
    /// <param name="si">The quantity in SI, or null.</param>
    public Quantity? Show(double? si) => si is { } known ? Show(known) : null;

    /// <summary>The key of a quantity in files.</summary>
    /// <param name="name">The quantity's name, such as <c>rollAngleSteady</c>.</param>
    public string KeyOf(string name) => Suffix.Length == 0 ? name : $"{name}_{Suffix}";
}
