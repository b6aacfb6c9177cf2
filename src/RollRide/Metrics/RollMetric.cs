using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The metrics of the roll response to a corner; <see cref="RollResponseRecorder"/> gathers them.</summary>
public sealed record RollMetric : MetricDefinition<RollResponse>
{
    private readonly Func<RollResponse, double?> _value;

    private RollMetric(string name, string label, Unit unit, int decimals, Better better, string description, Func<RollResponse, double?> value)
        : base(name, label, unit, decimals, better, description) => _value = value;

    /// <summary>Body roll of the static solution under the final lateral acceleration, on the road heights that the run leaves the wheels at. Empty where there is no stable position.</summary>
    public static RollMetric RollAngleSteady { get; } = new(
        "rollAngleSteady", "Roll angle, steady", Unit.Degree, 2, Better.Neither,
        "Body roll of the static solution under the final lateral acceleration, on the road heights that the run leaves the wheels at. Empty where there is no stable position.",
        r => r.SteadyAngle);

    /// <summary>Steady roll on a flat road over the final lateral acceleration, in degrees per g of 9.80665 m/s²; over 1 m/s² where the run ends straight ahead. Empty where there is no stable position.</summary>
    public static RollMetric RollGradient { get; } = new(
        "rollGradient", "Roll gradient", Unit.DegreePerG, 2, Better.Neither,
        "Steady roll on a flat road over the final lateral acceleration, in degrees per g of 9.80665 m/s²; over 1 m/s² where the run ends straight ahead. Empty where there is no stable position.",
        r => r.Gradient);

    /// <summary>Largest body roll after the cornering began, in the direction of the steady angle, with its sign.</summary>
    public static RollMetric RollAnglePeak { get; } = new(
        "rollAnglePeak", "Roll angle, peak", Unit.Degree, 2, Better.Smaller,
        "Largest body roll after the cornering began, in the direction of the steady angle, with its sign.",
        r => r.PeakAngle);

    /// <summary>Peak over steady roll, both from the roll before the corner (zero unless the road left the axle tilted), less 100 %; negative where the run ends before roll reaches its steady angle. Empty where the corner ends straight ahead or there is no steady angle.</summary>
    public static RollMetric RollOvershoot { get; } = new(
        "rollOvershoot", "Roll overshoot", Unit.Percent, 1, Better.Less,
        "Peak over steady roll, both from the roll before the corner (zero unless the road left the axle tilted), less 100 %; negative where the run ends before roll reaches its steady angle. Empty where the corner ends straight ahead or there is no steady angle.",
        r => r.Overshoot);

    /// <summary>From the instant the input passed half of its final value until roll first went 90 % of the way to steady.</summary>
    public static RollMetric RollResponseTime { get; } = new(
        "rollResponseTime", "Response time to 90 %", Unit.Second, 3, Better.Neither,
        "From the instant the input passed half of its final value until roll first went 90 % of the way to steady.",
        r => r.ResponseTime);

    /// <summary>From the same instant until the peak.</summary>
    public static RollMetric RollPeakTime { get; } = new(
        "rollPeakTime", "Peak time", Unit.Second, 3, Better.Neither,
        "From the same instant until the peak.",
        r => r.PeakTime);

    /// <summary>From the start of the input until roll entered the band of ±5 % around steady for the last time. Empty where it did not settle within the run.</summary>
    public static RollMetric RollSettlingTime { get; } = new(
        "rollSettlingTime", "Settling time to ±5 %", Unit.Second, 3, Better.Less,
        "From the start of the input until roll entered the band of ±5 % around steady for the last time. Empty where it did not settle within the run.",
        r => r.SettlingTime);

    /// <summary>All of them, in the order of tables.</summary>
    public static ImmutableArray<RollMetric> All { get; } =
    [
        RollAngleSteady, RollGradient, RollAnglePeak, RollOvershoot, RollResponseTime, RollPeakTime, RollSettlingTime,
    ];

    /// <inheritdoc/>
    public override double? Of(RollResponse result) => _value(result);
}
