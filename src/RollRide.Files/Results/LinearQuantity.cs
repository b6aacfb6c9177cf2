using System.Collections.Immutable;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>A figure of the ride that the linear reference has too.</summary>
/// <param name="name">Its name in files without the unit.</param>
/// <param name="label">Its name in tables.</param>
/// <param name="unit">Its unit.</param>
/// <param name="decimals">Decimals in tables.</param>
/// <param name="linear">Its value from the linear response and the static load of a side's tyres, N.</param>
/// <param name="simulated">Its value from what was simulated.</param>
public sealed class LinearQuantity(
    string name, string label, Unit unit, int decimals, Func<LinearRideResponse, double, double> linear, Func<RideMetrics, double> simulated)
{
    /// <summary>Its key in files, with the unit.</summary>
    public string Key { get; } = unit.KeyOf(name);

    /// <summary>Its name in tables.</summary>
    public string Label => label;

    /// <summary>Its unit, in which all its values are.</summary>
    public Unit Unit => unit;

    /// <summary>Decimals in tables.</summary>
    public int Decimals => decimals;

    /// <summary>Its value on the linearised vehicle.</summary>
    /// <param name="layout">A layout's reference.</param>
    public double Linear(LinearReference layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        return Unit.Of(linear(layout.OnRoad, StaticLoad(layout)));
    }

    /// <summary>The lower and the upper value on a white road, which may be infinite; empty where there is none.</summary>
    /// <param name="layout">A layout's reference.</param>
    public ImmutableArray<double> OnWhiteRoad(LinearReference layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        return [.. layout.OnWhiteRoad.Select(response => Unit.Of(linear(response, StaticLoad(layout)))).Order()];
    }

    /// <summary>Its value as simulated.</summary>
    /// <param name="layout">A layout's reference.</param>
    public double Simulated(LinearReference layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        return Unit.Of(simulated(layout.Simulated.Ride!));
    }

    private static double StaticLoad(LinearReference layout) => layout.Simulated.Ride!.Loads[0].Static;
}
