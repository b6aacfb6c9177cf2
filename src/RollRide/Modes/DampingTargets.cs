using RollRide.Numerics;

namespace RollRide.Modes;

/// <summary>The damping ratios that a setting must give at one damper velocity. Immutable, checked when made.</summary>
public sealed record DampingTargets
{
    /// <summary>Makes targets.</summary>
    /// <param name="rollMinimum">Least damping ratio of roll, between 0 and 1.</param>
    /// <param name="heaveMinimum">Least damping ratio of heave, between 0 and 1.</param>
    /// <param name="heaveMaximum">Greatest damping ratio of heave, between the least one and 1.</param>
    /// <param name="velocity">Damper velocity amplitude at which they hold, m/s; greater than 0.</param>
    /// <exception cref="ArgumentException">A ratio is out of its range, or the targets contradict each other.</exception>
    public DampingTargets(double rollMinimum, double heaveMinimum, double heaveMaximum, double velocity)
    {
        RollMinimum = Ratio(rollMinimum, nameof(rollMinimum));
        HeaveMinimum = Ratio(heaveMinimum, nameof(heaveMinimum));
        HeaveMaximum = Ratio(heaveMaximum, nameof(heaveMaximum));
        Velocity = Require.Positive(velocity, "m/s");
        if (heaveMinimum >= heaveMaximum)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The targets contradict each other: heave needs at least {heaveMinimum} and may have at most {heaveMaximum}."),
                nameof(heaveMinimum));
        }
    }

    /// <summary>Least damping ratio of roll.</summary>
    public double RollMinimum { get; }

    /// <summary>Least damping ratio of heave.</summary>
    public double HeaveMinimum { get; }

    /// <summary>Greatest damping ratio of heave.</summary>
    public double HeaveMaximum { get; }

    /// <summary>Least damping ratio of axle hop; null for none.</summary>
    public double? HopMinimum { get; init => field = value is { } ratio ? Ratio(ratio, nameof(HopMinimum)) : null; }

    /// <summary>Least damping ratio of axle tramp; null for none.</summary>
    public double? TrampMinimum { get; init => field = value is { } ratio ? Ratio(ratio, nameof(TrampMinimum)) : null; }

    /// <summary>Damper velocity amplitude at which they hold, m/s.</summary>
    public double Velocity { get; }

    /// <summary>The targets that are set.</summary>
    public IEnumerable<DampingTarget> All => Enum.GetValues<DampingTarget>().Where(target => Limit(target) is not null);

    /// <summary>The ratio that a target asks for; null if it is not set.</summary>
    /// <param name="target">The target.</param>
    public double? Limit(DampingTarget target) => target switch
    {
        DampingTarget.RollMinimum => RollMinimum,
        DampingTarget.HeaveMinimum => HeaveMinimum,
        DampingTarget.HeaveMaximum => HeaveMaximum,
        DampingTarget.HopMinimum => HopMinimum,
        _ => TrampMinimum,
    };

    /// <summary>By how much modes meet a target that is set: 0 or more if they do.</summary>
    /// <param name="target">The target.</param>
    /// <param name="modes">The modes at a setting.</param>
    public double Margin(DampingTarget target, ModeSet modes)
    {
        ArgumentNullException.ThrowIfNull(modes);
        var limit = Limit(target) ?? throw new ArgumentException($"The {DampingTargetNames.Words(target)} is not set.", nameof(target));
        return target == DampingTarget.HeaveMaximum ? limit - modes.Heave.DampingRatio : modes[ModeOf(target)].DampingRatio - limit;
    }

    /// <summary>The mode that a target is about.</summary>
    /// <param name="target">The target.</param>
    public static ModeName ModeOf(DampingTarget target) => target switch
    {
        DampingTarget.RollMinimum => ModeName.Roll,
        DampingTarget.HopMinimum => ModeName.Hop,
        DampingTarget.TrampMinimum => ModeName.Tramp,
        _ => ModeName.Heave,
    };

    private static double Ratio(double value, string name) =>
        value is > 0 and < 1
            ? value
            : throw new ArgumentOutOfRangeException(name, value, $"{name} must be a damping ratio between 0 and 1.");
}
