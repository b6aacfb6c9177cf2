using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>
/// The gas that a damper's rod compresses as it moves in: a spring between the mounts, whose force at ride height carries part of the body.
/// Immutable and thread-safe.
/// </summary>
/// <remarks>
/// The rod displaces its own volume. With the stroke <c>X</c> from ride height, positive in compression,
/// <code>
/// p V^n = p0 V0^n,   V = V0 − A X,   G = (p − pa) A,   dG/dX = n p A²/V
/// </code>
/// In motion the gas keeps its heat (<c>n</c> as given, 1.4 for a diatomic gas without any exchange); at rest it has the temperature around it (<c>n = 1</c>).
/// </remarks>
/// <param name="Pressure">Absolute pressure at ride height <c>p0</c>, Pa; greater than 0. Below that of the atmosphere the rod is sucked in.</param>
/// <param name="Volume">Volume of the gas at ride height <c>V0</c>, m³; greater than 0.</param>
/// <param name="RodArea">Cross-section of the rod <c>A</c>, m²; greater than 0.</param>
public sealed record GasChamber(double Pressure, double Volume, double RodArea)
{
    /// <summary>Pressure of the atmosphere <c>pa</c>, Pa (ISO 2533, standard atmosphere at sea level).</summary>
    public const double Atmosphere = 101_325;

    /// <summary>The default of <see cref="PolytropicIndex"/>: the ratio of specific heats of nitrogen and of air, which are diatomic.</summary>
    public const double DefaultPolytropicIndex = 1.4;

    /// <summary>Absolute pressure at ride height <c>p0</c>, Pa.</summary>
    public double Pressure { get; init => field = Require.Positive(value, "Pa", nameof(Pressure)); } = Require.Positive(Pressure, "Pa");

    /// <summary>Volume of the gas at ride height <c>V0</c>, m³.</summary>
    public double Volume { get; init => field = Require.Positive(value, "m³", nameof(Volume)); } = Require.Positive(Volume, "m³");

    /// <summary>Cross-section of the rod <c>A</c>, m².</summary>
    public double RodArea { get; init => field = Require.Positive(value, "m²", nameof(RodArea)); } = Require.Positive(RodArea, "m²");

    /// <summary>Exponent of the gas in motion <c>n</c>, at least 1.</summary>
    public double PolytropicIndex
    {
        get;
        init => field = value >= 1 ? Require.Finite(value, "", nameof(PolytropicIndex)) : throw new ArgumentOutOfRangeException(nameof(PolytropicIndex), value, "A polytropic index is at least 1, that of a gas at one temperature.");
    } = DefaultPolytropicIndex;

    /// <summary>
    /// Area of the piston on the side of the rod, m²: a pressure on the other side of the piston that is no more than the gas's can hold there only so much force of
    /// the compression valves. Null if not known.
    /// </summary>
    public double? PistonRingArea { get; init => field = value is { } area ? Require.Positive(area, "m²", nameof(PistonRingArea)) : null; }

    /// <summary>Force at ride height <c>(p0 − pa) A</c>, N.</summary>
    public double Force => (Pressure - Atmosphere) * RodArea;

    /// <summary>Stroke from ride height at which nothing is left of the gas's volume, m: no damper gets there.</summary>
    public double LongestStroke => Volume / RodArea;

    /// <summary>Absolute pressure in motion, Pa; not a number at the <see cref="LongestStroke"/> and beyond.</summary>
    /// <param name="stroke">Stroke from ride height, m, positive in compression.</param>
    public double PressureAt(double stroke)
    {
        GasLaw<OneLane>.Pressure(new(Pressure), new(RodArea / Volume), new(-PolytropicIndex), new(stroke), out var pressure);
        return pressure.Value;
    }

    /// <summary>Force in motion, N; not a number at the <see cref="LongestStroke"/> and beyond.</summary>
    /// <param name="stroke">Stroke from ride height, m, positive in compression.</param>
    public double ForceAt(double stroke) => (PressureAt(stroke) - Atmosphere) * RodArea;

    /// <summary>The same gas at rest at one temperature, with the same laws about another ride height.</summary>
    /// <param name="stroke">Where that is, m, positive in compression.</param>
    /// <exception cref="ArgumentOutOfRangeException">The stroke is the <see cref="LongestStroke"/> or more.</exception>
    public GasChamber SettledAt(double stroke)
    {
        var volume = Volume - (RodArea * stroke);
        return stroke == 0 ? this : this with { Pressure = Pressure * Volume / volume, Volume = volume };
    }

    /// <summary>The same gas, moved so slowly that it keeps the temperature around it.</summary>
    public GasChamber Isothermal => this with { PolytropicIndex = 1 };
}
