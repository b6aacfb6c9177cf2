using RollRide.Damping;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>How warm a run makes the dampers once it goes on for long, and which of their curves then holds.</summary>
public static class HeatConclusions
{
    /// <summary>Draws the conclusions: none for dampers of which no two temperatures are known.</summary>
    /// <param name="result">What the layouts did.</param>
    public static IEnumerable<string> Of(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);

        // Said once for each load, of its dampers as written.
        if (result.Study.Load?.DamperState is not null && result.Study.Loads.Any(load => load.DamperState is null))
            return [];
        return
            from layout in result.Layouts
            let damper = result.Study.Layouts.First(written => written.Name == layout.Name).Damper.AsWritten
            where Known(damper).Skip(1).Any()
            select OnLayout(layout, damper);
    }

    /// <summary>Mean power that a damper takes up over the run, W: of the hotter one on a random road, otherwise half of both.</summary>
    /// <param name="layout">The run.</param>
    public static double MeanPower(LayoutResult layout)
    {
        ArgumentNullException.ThrowIfNull(layout);
        var whole = layout.Metrics.Whole;
        return layout.Ride is { } ride ? ride.DamperPower.Max() : whole.DamperEnergy / (2 * (whole.End - whole.Start));
    }

    private static IEnumerable<(string Name, double Temperature)> Known(Damper damper) =>
        damper.States.Select(state => (state.Name, state.Temperature)).Prepend((Name: "as written", damper.Temperature))
            .Where(state => state.Temperature is not null)
            .Select(state => (state.Name, state.Temperature!.Value));

    private static string OnLayout(LayoutResult layout, Damper damper)
    {
        var power = MeanPower(layout);
        var temperature = damper.Heat.SteadyTemperature(power);
        var (nearest, at) = Known(damper).MinBy(state => Math.Abs(state.Temperature - temperature));
        var (coldest, hottest) = (Known(damper).Min(state => state.Temperature), Known(damper).Max(state => state.Temperature));
        var beyond = temperature > hottest ? Invariant($"; that is above the {hottest:0.#} °C up to which its curves reach, so that the damper is softer than any of them")
            : temperature < coldest ? Invariant($"; that is below the {coldest:0.#} °C from which its curves reach")
            : "";
        return Invariant($"“{layout.Name}”: each damper takes up {power:F0} W on average; in a long run its oil would settle at {temperature:F0} °C ({damper.Heat.AirTemperature:0.#} °C air, {damper.Heat.Conductance:0.##} W/K{(damper.Heat.Conductance == DamperHeat.DefaultConductance ? ", a typical value" : "")}). The curve nearest to that is “{nearest}”, {at:0.#} °C{beyond}.");
    }
}
