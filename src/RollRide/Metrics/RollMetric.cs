using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// The metrics of a corner in roll: its response from rest on a level smooth road, which <see cref="RollResponseRecorder"/> gathers, and what the whole manoeuvre does
/// beside it.
/// </summary>
public sealed record RollMetric : MetricDefinition<RunMetrics>
{
    private readonly Func<RunMetrics, double?> _value;

    private RollMetric(string name, string label, Unit unit, int decimals, Better better, string description, Func<RunMetrics, double?> value)
        : base(name, label, unit, decimals, better, description) => _value = value;

    /// <summary>Body roll of the static solution under the final lateral acceleration, on a level road. Empty where there is no stable position.</summary>
    public static RollMetric RollAngleSteady { get; } = new(
        "rollAngleSteady", "Roll angle, steady", Unit.Degree, 2, Better.Neither,
        "Body roll of the static solution under the final lateral acceleration, on a level road. Empty where there is no stable position.",
        run => run.RollResponse?.SteadyAngle);

    /// <summary>Steady roll over the final lateral acceleration, in degrees per g of 9.80665 m/s²; taken at 1 m/s² where the corner ends straight ahead. Empty where there is no stable position.</summary>
    public static RollMetric RollGradient { get; } = new(
        "rollGradient", "Roll gradient", Unit.DegreePerG, 2, Better.Neither,
        "Steady roll over the final lateral acceleration, in degrees per g of 9.80665 m/s²; taken at 1 m/s² where the corner ends straight ahead. Empty where there is no stable position.",
        run => run.RollResponse?.Gradient);

    /// <summary>Largest body roll in the corner from rest on a level smooth road, in the direction of the steady angle, with its sign. Empty where the vehicle rolls over.</summary>
    public static RollMetric RollAnglePeak { get; } = new(
        "rollAnglePeak", "Roll angle from rest, peak", Unit.Degree, 2, Better.Smaller,
        "Largest body roll in the corner from rest on a level smooth road, in the direction of the steady angle, with its sign. Empty where the vehicle rolls over.",
        run => run.RollResponse?.PeakAngle);

    /// <summary>Peak over steady roll in the corner from rest, both from the roll before the corner (zero unless a record begins within a turn), less 100 %. Empty where the corner ends straight ahead or as it began, there is no steady angle or the vehicle rolls over.</summary>
    public static RollMetric RollOvershoot { get; } = new(
        "rollOvershoot", "Roll overshoot from rest", Unit.Percent, 1, Better.Less,
        "Peak over steady roll in the corner from rest, both from the roll before the corner (zero unless a record begins within a turn), less 100 %. Empty where the corner ends straight ahead or as it began, there is no steady angle or the vehicle rolls over.",
        run => run.RollResponse?.Overshoot);

    /// <summary>The same for a step to the final lateral acceleration, reached in 10 ms. Given only where the corner itself takes longer than half a roll period to build up, which hides the damping; else empty.</summary>
    public static RollMetric RollOvershootToStep { get; } = new(
        "rollOvershootToStep", "Roll overshoot to a step", Unit.Percent, 1, Better.Less,
        "The same for a step to the final lateral acceleration, reached in 10 ms. Given only where the corner itself takes longer than half a roll period to build up, which hides the damping; else empty.",
        run => run.RollResponse?.OvershootToStep);

    /// <summary>In the corner from rest: from the instant the input passed half of its final value until roll first went 90 % of the way to steady.</summary>
    public static RollMetric RollResponseTime { get; } = new(
        "rollResponseTime", "Response time to 90 %", Unit.Second, 3, Better.Neither,
        "In the corner from rest: from the instant the input passed half of its final value until roll first went 90 % of the way to steady.",
        run => run.RollResponse?.ResponseTime);

    /// <summary>In the corner from rest: from the instant the input passed half of its final value until the peak. Empty where roll does not exceed its steady angle.</summary>
    public static RollMetric RollPeakTime { get; } = new(
        "rollPeakTime", "Peak time", Unit.Second, 3, Better.Neither,
        "In the corner from rest: from the instant the input passed half of its final value until the peak. Empty where roll does not exceed its steady angle.",
        run => run.RollResponse?.PeakTime);

    /// <summary>In the corner from rest: from the start of the input until roll entered the band of ±5 % around steady for the last time. Empty where it has not settled 10 s after the last change of the input.</summary>
    public static RollMetric RollSettlingTime { get; } = new(
        "rollSettlingTime", "Settling time to ±5 %", Unit.Second, 3, Better.Less,
        "In the corner from rest: from the start of the input until roll entered the band of ±5 % around steady for the last time. Empty where it has not settled 10 s after the last change of the input.",
        run => run.RollResponse?.SettlingTime);

    /// <summary>The largest body roll angle either way in the whole manoeuvre, with its sign, whatever caused it: bump, corner, or both together.</summary>
    public static RollMetric RollAngleLargestInManoeuvre { get; } = new(
        "rollAngleLargestInManoeuvre", "Roll angle in the manoeuvre, largest", Unit.Degree, 2, Better.Smaller,
        "The largest body roll angle either way in the whole manoeuvre, with its sign, whatever caused it: bump, corner, or both together.",
        run => run.Whole[PhaseMetric.RollAngleLargest]);

    /// <summary>Those of the corner from rest, in the order of tables.</summary>
    public static ImmutableArray<RollMetric> OfCorner { get; } =
        [RollAngleSteady, RollGradient, RollAnglePeak, RollOvershoot, RollOvershootToStep, RollResponseTime, RollPeakTime, RollSettlingTime];

    /// <summary>Those that are told of each turn where the sides differ.</summary>
    public static ImmutableArray<RollMetric> OfEachTurn { get; } = [RollAnglePeak, RollOvershoot];

    /// <summary>All of them, in the order of tables.</summary>
    public static ImmutableArray<RollMetric> All { get; } = [.. OfCorner, RollAngleLargestInManoeuvre];

    /// <inheritdoc/>
    public override double? Of(RunMetrics result) => _value(result);
}
