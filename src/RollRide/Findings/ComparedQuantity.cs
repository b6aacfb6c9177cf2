using System.Collections.Immutable;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Findings;

/// <summary>A row of the comparison table.</summary>
/// <param name="Label">Its name.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Decimals">Decimals shown.</param>
/// <param name="Better">Which way it is better.</param>
/// <param name="Value">Takes it from a layout's result; null where it is not defined.</param>
/// <param name="OfRoad">Takes it from a run over one of several random roads; null where the road has no part in it.</param>
public sealed record ComparedQuantity(
    string Label, Unit Unit, int Decimals, Better Better, Func<LayoutResult, double?> Value, Func<SeededRun, double?>? OfRoad = null)
{
    /// <summary>Of a damping ratio its mode: it is shown as everywhere else; null for every other quantity.</summary>
    public ModeName? Mode { get; init; }

    /// <summary>Whether it is an extreme of the run, which on one random road is chance.</summary>
    public bool IsExtreme { get; init; }

    /// <summary>The value that stands for more than itself, where a run is followed no longer; null where every value is exact.</summary>
    public double? Beyond { get; init; }

    /// <summary>Whether any of it is a fault: only none of it may be called best, and where no layout has any there is nothing to show.</summary>
    public bool IsFault { get; init; }

    /// <summary>The quantities of a case, in the order of the argument. One with a better way is told as a price too: <see cref="DecidingQuantity.PricedOnly"/>.</summary>
    /// <param name="study">The case.</param>
    public static ImmutableArray<ComparedQuantity> Of(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        var speed = FormattableString.Invariant($"{study.Analysis.ReferenceVelocity:0.###} m/s");
        var quantities = ImmutableArray.CreateBuilder<ComparedQuantity>();
        quantities.AddRange(RatioMetric.Of(study.Layouts.Select(layout => study.Assemble(layout).Layout)).Select(metric => new ComparedQuantity(metric.Label, metric.Unit, metric.Decimals, metric.Better, layout => metric.Shown(layout.Car.Layout))));
        foreach (var mode in (ModeName[])[ModeName.Heave, ModeName.Roll])
            quantities.Add(new($"{mode}: damping ratio at {speed}", Unit.One, 2, Better.Neither, layout => layout.ReferenceModes[mode].DampingRatio) { Mode = mode });
        for (var i = 0; i < study.Manoeuvre.Phases.Length; i++)
        {
            var (index, phase) = (i, study.Manoeuvre.Phases[i]);
            // Where the road is flat the body hardly moves up and down, and no layout is better for it.
            if (!study.Manoeuvre.Road.IsUneven(phase.Start, phase.End))
                continue;
            foreach (var metric in (ReadOnlySpan<PhaseMetric>)[PhaseMetric.BodyAccelerationRms, PhaseMetric.RollAccelerationRms])
                quantities.Add(OfPhase($"Phase “{phase.Name}”: ", metric, metrics => metrics.Phases[index]));
        }

        if (study.Manoeuvre.HasCorner)
        {
            RollMetric[] ofCorner = [RollMetric.RollAngleSteady, RollMetric.RollAnglePeak, RollMetric.RollOvershoot, RollMetric.RollOvershootToStep];
            quantities.AddRange(ofCorner.Select(OfRoll));
            quantities.Add(OfSettling(study.Manoeuvre.Cornering.Alone.Duration));
            quantities.AddRange(RollMetric.OfEachTurn.SelectMany(metric => new[] { OfTurn(metric, mirrored: false), OfTurn(metric, mirrored: true) }));
        }

        foreach (var metric in (ReadOnlySpan<PhaseMetric>)
        [
            PhaseMetric.SeatWeightedRms, PhaseMetric.DynamicLoadCoefficient, PhaseMetric.TyreLoadMinimum, PhaseMetric.LiftOffTime,
            PhaseMetric.BumpStopContacts, PhaseMetric.ReboundStopContacts,
        ])
        {
            quantities.Add(OfPhase("Whole run: ", metric, metrics => metrics.Whole) with { IsFault = metric == PhaseMetric.LiftOffTime || metric == PhaseMetric.BumpStopContacts || metric == PhaseMetric.ReboundStopContacts });
        }

        if (study.Manoeuvre.Road.Unevenness is not null)
        {
            var road = (study.Manoeuvre.Road.HasEvents ? "Random road with obstacles" : "Random road") + RideWords.Window(study.Manoeuvre);
            foreach (var metric in (ReadOnlySpan<RideMetric>)[RideMetric.RideSeatTotal, RideMetric.RideDynamicLoadCoefficient, RideMetric.RideDamperPower])
                quantities.Add(OfRide(road, metric));
        }

        return quantities.ToImmutable();
    }

    private static ComparedQuantity OfPhase(string prefix, PhaseMetric metric, Func<RunMetrics, PhaseMetrics> phase) =>
        new(prefix + metric.Label, metric.Unit, metric.Decimals, metric.Better, layout => metric.Shown(phase(layout.Metrics)), run => metric.Shown(phase(run.Metrics))) { IsExtreme = metric == PhaseMetric.TyreLoadMinimum };

    private static ComparedQuantity OfRide(string road, RideMetric metric) => new(
        $"{road}: {metric.Label}", metric.Unit, metric.Decimals, metric.Better,
        layout => layout.Ride is { } ride ? metric.Shown(ride) : null, run => metric.Shown(run.Ride));

    /// <summary>The corner from rest one way; of sides that are the same it is not told apart.</summary>
    private static ComparedQuantity OfTurn(RollMetric metric, bool mirrored) =>
        new($"{metric.Label}, turn {(mirrored ? "mirrored" : "as written")}", metric.Unit, metric.Decimals, Better.Neither, layout => layout.Metrics.BothTurns is null ? null : metric.Shown(layout.Metrics.OfTurn(mirrored)));

    private static ComparedQuantity OfSettling(double followed) => OfRoll(RollMetric.RollSettlingTime) with
    {
        Value = layout => layout.Metrics.RollResponse?.SettlingTimeOr(followed),
        Beyond = followed,
    };

    private static ComparedQuantity OfRoll(RollMetric metric) =>
        new(metric.Label, metric.Unit, metric.Decimals, metric.Better, layout =>
            layout.Metrics.RollResponse is null ? null : metric.Shown(layout.Metrics));
}
