using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>The pressure of the gas in a damper over its stroke, <c>p = p0 (1 − A X/V0)^(−n)</c>, with a chamber of its own in each lane.</summary>
/// <remarks>
/// The power is worked out in the lanes' own operations, exact to a few roundings: a table of the force over the stroke would be no faster in lanes, where each one looks
/// up its own place, and would give the modes the slope of the table instead of that of the gas.
/// </remarks>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class GasLaw<T>
    where T : struct, ILanes<T>
{
    private const int AtRest = 0, AreaPerVolume = 1, Exponent = 2, RodArea = 3;

    private readonly LaneBuffer<T> _numbers = new(4);

    /// <summary>Puts a chamber into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="gas">The chamber.</param>
    public void Load(int lane, GasChamber gas)
    {
        _numbers[AtRest, lane] = gas.Pressure;
        _numbers[AreaPerVolume, lane] = gas.RodArea / gas.Volume;
        _numbers[Exponent, lane] = -gas.PolytropicIndex;
        _numbers[RodArea, lane] = gas.RodArea;
    }

    /// <summary>Pressure and force.</summary>
    /// <param name="stroke">Stroke from ride height, m, positive in compression.</param>
    /// <param name="pressure">Receives the absolute pressure, Pa; not a number where nothing is left of the volume.</param>
    /// <param name="force">Receives the force <c>(p − pa) A</c>, N.</param>
    public void At(in T stroke, out T pressure, out T force)
    {
        Pressure(_numbers[AtRest], _numbers[AreaPerVolume], _numbers[Exponent], stroke, out pressure);
        force = (pressure - T.All(GasChamber.Atmosphere)) * _numbers[RodArea];
    }

    /// <summary>The pressure, written once.</summary>
    public static void Pressure(in T atRest, in T areaPerVolume, in T exponent, in T stroke, out T pressure)
    {
        LaneMath.Power(T.NegatedFma(stroke, areaPerVolume, T.All(1)), exponent, out pressure);
        pressure *= atRest;
    }
}
