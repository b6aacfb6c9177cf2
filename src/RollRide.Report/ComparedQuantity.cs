using System.Collections.Immutable;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>Which way a quantity is better.</summary>
public enum Better
{
    /// <summary>Neither: too little is as wrong as too much.</summary>
    Neither,

    /// <summary>Less is better.</summary>
    Less,

    /// <summary>More is better.</summary>
    More,
}

/// <summary>A row of the comparison table.</summary>
/// <param name="Label">Its name.</param>
/// <param name="Unit">Its unit; "" for none.</param>
/// <param name="Decimals">Decimals shown.</param>
/// <param name="Better">Which way it is better.</param>
/// <param name="Value">Takes it from a layout's result; null where it is not defined.</param>
public sealed record ComparedQuantity(string Label, string Unit, int Decimals, Better Better, Func<LayoutResult, double?> Value)
{
    /// <summary>The quantities of a case, in the order of the argument.</summary>
    /// <param name="study">The case.</param>
    public static ImmutableArray<ComparedQuantity> Of(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        var speed = FormattableString.Invariant($"{study.Analysis.ReferenceVelocity:0.###} m/s");
        var quantities = ImmutableArray.CreateBuilder<ComparedQuantity>();
        quantities.Add(new("Motion ratio, heave", "", 3, Better.Neither, layout => layout.Car.Layout.Fitting.HeaveRatio));
        quantities.Add(new("Motion ratio, roll", "", 3, Better.Neither, layout => layout.Car.Layout.Fitting.RollRatio));
        foreach (var mode in (ModeName[])[ModeName.Heave, ModeName.Roll])
            quantities.Add(new($"{mode}: damping ratio at {speed}", "", 2, Better.Neither, layout => layout.ReferenceModes[mode].DampingRatio));
        for (var i = 0; i < study.Manoeuvre.Phases.Length; i++)
        {
            var (index, phase) = (i, study.Manoeuvre.Phases[i]);
            // Where the road is flat the body hardly moves up and down, and no layout is better for it.
            if (!study.Manoeuvre.Road.IsUneven(phase.Start, phase.End))
                continue;
            quantities.Add(OfPhase($"Phase '{phase.Name}': ", "bodyAccelerationRms_m_per_s2", Better.Less, layout => layout.Metrics.Phases[index]));
        }

        if (study.Manoeuvre.Cornering.StartTime < study.Manoeuvre.Duration)
        {
            quantities.Add(OfRoll("rollAngleSteady_deg", Better.Neither));
            quantities.Add(OfRoll("rollAnglePeak_deg", Better.Less, Math.Abs));
            quantities.Add(OfRoll("rollOvershoot_percent", Better.Less));
            quantities.Add(OfRoll("rollSettlingTime_s", Better.Less));
        }

        foreach (var (key, better) in (ReadOnlySpan<(string, Better)>)
        [
            ("seatWeightedRms_m_per_s2", Better.Less), ("dynamicLoadCoefficient", Better.Less), ("tyreLoadMinimum_N", Better.More),
            ("liftOffTime_s", Better.Less), ("bumpStopContacts", Better.Less), ("reboundStopContacts", Better.Less),
        ])
        {
            quantities.Add(OfPhase("", key, better, layout => layout.Metrics.Whole));
        }

        if (study.Manoeuvre.Road.Unevenness is not null)
        {
            foreach (var key in (ReadOnlySpan<string>)["rideSeatTotal_m_per_s2", "rideDynamicLoadCoefficient", "rideDamperPower_W"])
                quantities.Add(OfRide(key, Better.Less));
        }

        return quantities.ToImmutable();
    }

    private static ComparedQuantity OfPhase(string prefix, string key, Better better, Func<LayoutResult, PhaseMetrics> phase)
    {
        var metric = MetricCatalogue.Phase.Single(definition => definition.Key == key);
        return new(prefix + metric.Label, metric.Unit, metric.Decimals, better, layout => metric.Value(phase(layout)));
    }

    private static ComparedQuantity OfRide(string key, Better better)
    {
        var metric = MetricCatalogue.Ride.Single(definition => definition.Key == key);
        return new($"Random road: {metric.Label}", metric.Unit, metric.Decimals, better, layout => layout.Ride is { } ride ? metric.Value(ride) : null);
    }

    private static ComparedQuantity OfRoll(string key, Better better, Func<double, double>? shown = null)
    {
        var metric = MetricCatalogue.RollResponse.Single(definition => definition.Key == key);
        return new(metric.Label, metric.Unit, metric.Decimals, better, layout =>
            layout.Metrics.RollResponse is { } response && metric.Value(response) is { } value ? shown?.Invoke(value) ?? value : null);
    }
}
