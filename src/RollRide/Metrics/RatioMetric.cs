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
        var damper = side == Side.Left ? "the damper, of the left one where the sides differ," : "the right damper, where the sides differ,";
        return
        [
            new($"heaveRatio{suffix}", $"Motion ratio, heave{label}", $"Travel of {damper} over that of its wheel, both wheels moving together.", layout => layout.On(side).Fitting.HeaveRatio),
            new($"rollRatio{suffix}", $"Motion ratio, roll{label}", $"Travel of {damper} over that of its wheel, the wheels moving in opposite directions.", layout => layout.On(side).Fitting.RollRatio),
        ];
    }
}
