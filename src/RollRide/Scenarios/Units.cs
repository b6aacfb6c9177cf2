namespace RollRide.Scenarios;

/// <summary>Factors between the units of the files and SI. The only place where a file's units are turned.</summary>
internal static class Units
{
    public const double MetresPerMm = 1e-3;

    public const double RadPerDeg = Math.PI / 180;

    public const double MetresPerSecondPerKmPerHour = 1 / 3.6;

    /// <summary>N/mm to N/m, and kN/rad to N/rad.</summary>
    public const double Kilo = 1e3;

    /// <summary>N·m/deg to N·m/rad.</summary>
    public const double PerDegToPerRad = 180 / Math.PI;
}
