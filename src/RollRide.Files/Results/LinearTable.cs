using System.Collections.Immutable;
using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Results;

/// <summary>Writes the linear reference as <c>linear.csv</c>: one row per layout and quantity.</summary>
public static class LinearTable
{
    /// <summary>The quantities, in the order in which they are shown.</summary>
    public static ImmutableArray<LinearQuantity> Quantities { get; } =
    [
        new("bodyAccelerationRms", "body acceleration, RMS", Unit.MetrePerSecondSquared, 3, (r, _) => r.BodyAcceleration, ride => ride.BodyAccelerationRms),
        new("rollAccelerationRms", "roll acceleration, RMS", Unit.RadianPerSecondSquared, 3, (r, _) => r.RollAcceleration, ride => ride.RollAccelerationRms),
        new("wheelTravelRms", "wheel travel, RMS", Unit.Millimetre, 2, (r, _) => r.WheelTravel, ride => ride.WheelTravelRms),
        new("damperVelocityRms", "damper velocity, RMS", Unit.MetrePerSecond, 3, (r, _) => r.DamperVelocity, ride => ride.DamperVelocityRms),
        new("dynamicLoadCoefficient", "dynamic load coefficient", Unit.One, 3, (r, staticLoad) => r.TyreLoad / staticLoad, ride => ride.DynamicLoadCoefficient),
    ];

    /// <summary>Writes the table. Where a value on a white road has no limit, its field is empty.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="states">What was found in each load state, or in the only one.</param>
    public static void Write(TextWriter output, IReadOnlyList<ComparisonFindings> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        using var table = new CsvTableWriter(output, [.. LoadStates.Columns(states[0].Study), "layout", "quantity", "linear", "whiteRoadLower", "whiteRoadUpper", "simulated"]);
        foreach (var state in states)
        {
            foreach (var layout in state.Linear)
                WriteLayout(table, state.Study, layout);
        }
    }

    private static void WriteLayout(CsvTableWriter table, StudyCase study, LinearReference layout)
    {
        void Row(string quantity, double linear, double lower, double upper, double simulated) =>
            table.WriteRow([.. LoadStates.Fields(study), layout.Simulated.Name, quantity], [linear, lower, upper, simulated]);
        Row("damperCoefficient_N_s_per_m", layout.DamperCoefficient, double.NaN, double.NaN, double.NaN);
        foreach (var quantity in Quantities)
        {
            var white = quantity.OnWhiteRoad(layout);
            Row(
                quantity.Key, quantity.Linear(layout),
                white is [var lower, _] ? FiniteOrNone(lower) : double.NaN, white is [_, var upper] ? FiniteOrNone(upper) : double.NaN,
                quantity.Simulated(layout));
        }
    }

    private static double FiniteOrNone(double value) => double.IsFinite(value) ? value : double.NaN;
}
