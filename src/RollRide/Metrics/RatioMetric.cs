using System.Collections.Immutable;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Metrics;

/// <summary>The motion ratios of a layout's dampers at ride height.</summary>
public sealed record RatioMetric : MetricDefinition<DamperLayout>
{
    private readonly Func<DamperLayout, double> _value;

    private RatioMetric(string name, string label, string description, Func<DamperLayout, double> value)
        : base(name, label, Unit.One, 3, Better.Neither, description) => _value = value;

    /// <summary>Those of both dampers, which mirror each other.</summary>
    private static ImmutableArray<RatioMetric> OfBoth { get; } = On(Side.Left, "", "");

    /// <summary>Those of each damper, left before right; the left ones keep the names of <see cref="OfBoth"/>.</summary>
    public static ImmutableArray<RatioMetric> OfEachSide { get; } = [.. On(Side.Left, "", ", left"), .. On(Side.Right, "Right", ", right")];

    /// <summary>The ratios that some layouts have: those of each side where the dampers of any of them do not mirror each other.</summary>
    /// <param name="layouts">The layouts.</param>
    public static ImmutableArray<RatioMetric> Of(IEnumerable<DamperLayout> layouts) => layouts.Any(layout => layout.Places.Count > 1) ? OfEachSide : OfBoth;

    /// <inheritdoc/>
    public override double? Of(DamperLayout result) => _value(result);

    private static ImmutableArray<RatioMetric> On(Side side, string suffix, string label)
    {
        var which = side == Side.Left ? "on the left where the sides differ" : "on the right, where the sides differ";
        return
        [
            new($"heaveRatio{suffix}", $"Motion ratio, heave{label}", $"Damper travel over wheel travel, both wheels moving together; {which}.", layout => layout.On(side).Fitting.HeaveRatio),
            new($"rollRatio{suffix}", $"Motion ratio, roll{label}", $"Damper travel over wheel travel, the wheels moving in opposite directions; {which}.", layout => layout.On(side).Fitting.RollRatio),
        ];
    }
}
