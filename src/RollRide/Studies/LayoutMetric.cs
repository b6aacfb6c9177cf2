using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;
using static System.FormattableString;

namespace RollRide.Studies;

/// <summary>What is said of a layout beside the metrics of its run: its ratios, its modes, and what its run leaves of its stroke.</summary>
public sealed record LayoutMetric : MetricDefinition<LayoutResult>
{
    private readonly Func<LayoutResult, double?> _value;

    private LayoutMetric(string name, string label, Unit unit, int decimals, Better better, string description, Func<LayoutResult, double?> value)
        : base(name, label, unit, decimals, better, description) => _value = value;

    /// <summary>Damper stroke left in compression where the run goes furthest; below 0 where the damper closed metal to metal.</summary>
    public static LayoutMetric CompressionStrokeLeft { get; } = new(
        "compressionStrokeLeft", "Damper stroke left, compression", Unit.Millimetre, 1, Better.More,
        "Stroke of the damper from its furthest compression in the run to its closed length, the less of both sides; below 0 where it closed metal to metal. Empty where the damper's lengths are not given.",
        layout => StrokeLeft(layout, damper => damper.CompressionTravel, peaks => peaks.CompressionTravel));

    /// <summary>Damper stroke left in rebound where the run goes furthest; below 0 where the damper was pulled to its end.</summary>
    public static LayoutMetric ReboundStrokeLeft { get; } = new(
        "reboundStrokeLeft", "Damper stroke left, extension", Unit.Millimetre, 1, Better.More,
        "Stroke of the damper from its furthest extension in the run to its extended length, the less of both sides; below 0 where it was pulled to its end. Empty where the damper's lengths are not given.",
        layout => StrokeLeft(layout, damper => damper.ReboundTravel, peaks => peaks.ReboundTravel));

    /// <summary>The damping ratio of roll of the whole vehicle.</summary>
    public static LayoutMetric RollDampingRatioOnVehicle { get; } = new(
        "rollDampingRatioOnVehicle", "Roll, damping ratio on the whole vehicle", Unit.One, 3, Better.Neither,
        "Damping ratio of roll with both axles, at the reference damper velocity. Empty where the axle is computed alone.",
        layout => layout.OnVehicle?.Modes.Roll.DampingRatio);

    /// <summary>The motion ratios that some layouts have; of each side where the sides of a layout differ.</summary>
    /// <param name="layouts">The layouts that are set side by side.</param>
    public static IEnumerable<LayoutMetric> Ratios(IEnumerable<DamperLayout> layouts) => RatioMetric.Of(layouts).Select(ratio =>
        new LayoutMetric(ratio.Name, ratio.Label, ratio.Unit, ratio.Decimals, ratio.Better, ratio.Description, layout => ratio.Of(layout.Car.Layout)));

    /// <summary>The natural frequency of a mode at the reference velocity.</summary>
    /// <param name="mode">The mode.</param>
    public static LayoutMetric NaturalFrequency(ModeName mode) => new(
        $"{ModeNames.Key(mode)}NaturalFrequency", $"{mode}, natural frequency |λ|/2π", Unit.Hertz, 2, Better.Neither,
        "Natural frequency of the mode at the reference damper velocity.", layout => layout.ReferenceModes[mode].NaturalFrequency);

    /// <summary>The damping ratio of a mode at the reference velocity.</summary>
    /// <param name="mode">The mode.</param>
    /// <param name="analysis">Names the reference velocity.</param>
    public static LayoutMetric DampingRatio(ModeName mode, AnalysisSettings analysis)
    {
        ArgumentNullException.ThrowIfNull(analysis);
        return new(
            $"{ModeNames.Key(mode)}DampingRatio", Invariant($"{mode}, damping ratio at {analysis.ReferenceVelocity:0.###} m/s"), Unit.One, 3, Better.Neither,
            "Damping ratio of the mode at the reference damper velocity.", layout => layout.ReferenceModes[mode].DampingRatio);
    }

    /// <summary>The damping ratio of a mode at the velocity of the targets.</summary>
    /// <param name="mode">The mode.</param>
    /// <param name="targets">Name the velocity.</param>
    public static LayoutMetric DampingRatioAtTargets(ModeName mode, DampingTargets targets)
    {
        ArgumentNullException.ThrowIfNull(targets);
        return new(
            $"{ModeNames.Key(mode)}DampingRatioAtTargets", Invariant($"{mode}, damping ratio at the targets' {targets.Velocity:0.###} m/s"), Unit.One, 3, Better.Neither,
            "Damping ratio of the mode at the damper velocity of the targets.", layout => layout.Window?.Modes[mode].DampingRatio);
    }

    /// <inheritdoc/>
    public override double? Of(LayoutResult result) => _value(result);

    private static double? StrokeLeft(LayoutResult result, Func<DamperSide, double?> stroke, Func<DamperPeaks, double> travel)
    {
        var driven = Sides(result.Car.Layout, result.Metrics);
        var mirrored = result.Mirrored is { } run ? Sides(result.Car.Layout.Mirrored(), run) : [];
        return driven.Concat(mirrored).Min(side => stroke(side.Damper) - travel(side.Peaks));

        static IEnumerable<(DamperSide Damper, DamperPeaks Peaks)> Sides(DamperLayout layout, RunMetrics run) =>
            ((Side[])[Side.Left, Side.Right]).Select(side => (layout.On(side), run.Whole.DamperOn(side)));
    }
}
