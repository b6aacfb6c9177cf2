using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>One way to fit the axle's two dampers: where they sit and how they are valved. The question is always which of these to choose.</summary>
public sealed record DamperLayout
{
    /// <summary>The layout's name, as the scenario gives it.</summary>
    public required string Name { get; init; }

    /// <summary>Where the left damper sits; the right mirrors it, unless <see cref="RightSide"/> says otherwise.</summary>
    public required IFitting Fitting { get; init; }

    /// <summary>The damper on the left, and on the right unless <see cref="RightSide"/> says otherwise.</summary>
    public required Damper Damper { get; init; }

    /// <summary>Whether it can be built and so be recommended; otherwise it is shown for comparison only.</summary>
    public bool IsCandidate { get; init; } = true;

    /// <summary>Travel in compression from ride height until the damper is closed, m; null if not known.</summary>
    public double? CompressionTravel { get; init => field = value is { } travel ? Require.Positive(travel, "m", nameof(CompressionTravel)) : null; }

    /// <summary>Travel in rebound from ride height until the damper is fully extended, m; null if not known.</summary>
    public double? ReboundTravel { get; init => field = value is { } travel ? Require.Positive(travel, "m", nameof(ReboundTravel)) : null; }

    /// <summary>The right side where it is not the left one mirrored, as with one worn damper; null where it is.</summary>
    public DamperSide? RightSide { get; init; }

    /// <summary>The damper's name; of unlike sides both, each with its side.</summary>
    public string DamperName => RightSide is { } right && right.Damper != Damper ? $"{Damper.Name} left, {right.Damper.Name} right" : Damper.Name;

    /// <summary>The places of its dampers, each with a name: one for both where they mirror each other in ratios and length, as the left one is seen.</summary>
    public IReadOnlyList<(string Name, Side Side)> Places => EachSide(RightSide is { } right
        && (right.Fitting.HeaveRatio, right.Fitting.RollRatio, LengthOf(right), right.CompressionTravel, right.ReboundTravel)
            != (Fitting.HeaveRatio, Fitting.RollRatio, LengthOf(On(Side.Left)), CompressionTravel, ReboundTravel));

    /// <summary>The force–velocity curves of its dampers, each with a name: one for both where they are the same.</summary>
    public IReadOnlyList<(string Name, Side Side)> Curves => EachSide(RightSide is { } right && right.Damper.Curve != Damper.Curve);

    /// <summary>What stands on one side.</summary>
    /// <param name="side">The side of the vehicle.</param>
    public DamperSide On(Side side) => side == Side.Right && RightSide is { } right
        ? right
        : new DamperSide(Fitting, Damper) { CompressionTravel = CompressionTravel, ReboundTravel = ReboundTravel };

    /// <summary>The layout with its dampers in one of their states; those that have none of that name stay as they are.</summary>
    /// <param name="state">Name of the state; null for the dampers as they are.</param>
    public DamperLayout InDamperState(string? state)
    {
        if (state is null)
            return this;
        var left = Damper.In(state);
        return this with
        {
            Damper = left,
            RightSide = RightSide is { } right ? right with { Damper = right.Damper == Damper ? left : right.Damper.In(state) } : null,
        };
    }

    /// <summary>The layout with another damper on both sides, each in the state in which that side's is now.</summary>
    /// <param name="damper">The damper as written.</param>
    public DamperLayout Fitted(Damper damper)
    {
        ArgumentNullException.ThrowIfNull(damper);
        return With(side => side with { Damper = damper.KeptIn(side.Damper.State) });
    }

    /// <summary>The layout with something changed on either side; sides that are the same stay so.</summary>
    /// <param name="change">Makes the changed side of one as it is.</param>
    public DamperLayout With(Func<DamperSide, DamperSide> change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return With(change(On(Side.Left)), RightSide is null ? null : change(RightSide));
    }

    /// <summary>The layout with other sides.</summary>
    /// <param name="left">The left side.</param>
    /// <param name="right">The right side; null where it is the left one mirrored.</param>
    public DamperLayout With(DamperSide left, DamperSide? right)
    {
        ArgumentNullException.ThrowIfNull(left);
        return this with
        {
            Fitting = left.Fitting,
            Damper = left.Damper,
            CompressionTravel = left.CompressionTravel,
            ReboundTravel = left.ReboundTravel,
            RightSide = right,
        };
    }

    /// <summary>The mirror image: left and right exchanged.</summary>
    public DamperLayout Mirrored() => With(On(Side.Right), On(Side.Left));

    /// <summary>Equivalent coefficient of the dampers at a velocity amplitude, the mean of both sides, N·s/m.</summary>
    /// <param name="velocity">Velocity amplitude, m/s, at least 0.</param>
    /// <param name="direction">Compression, rebound or both.</param>
    /// <param name="includeFriction">Whether friction counts.</param>
    public double EquivalentCoefficient(double velocity, DampingDirection direction = DampingDirection.Both, bool includeFriction = false)
    {
        var left = Damper.EquivalentCoefficient(velocity, direction, includeFriction);
        return RightSide is { } right ? 0.5 * (left + right.Damper.EquivalentCoefficient(velocity, direction, includeFriction)) : left;
    }

    /// <summary>What the left and the right damper have of the mean coefficient of both at a velocity amplitude: 1 and 1 where they are the same.</summary>
    /// <param name="velocity">Velocity amplitude, m/s, at least 0.</param>
    /// <param name="direction">Compression, rebound or both.</param>
    /// <param name="includeFriction">Whether friction counts.</param>
    public (double Left, double Right) SideShares(double velocity, DampingDirection direction = DampingDirection.Both, bool includeFriction = false)
    {
        if (RightSide is null || RightSide.Damper == Damper)
            return (1, 1);
        var mean = EquivalentCoefficient(velocity, direction, includeFriction);
        if (!(mean > 0))
            return (1, 1);
        var left = Damper.EquivalentCoefficient(velocity, direction, includeFriction) / mean;
        return (left, 2 - left);
    }

    private static double? LengthOf(DamperSide side) => (side.Fitting as IMountedElement)?.Length;

    private (string Name, Side Side)[] EachSide(bool isApart) => isApart ? [($"{Name}, left", Side.Left), ($"{Name}, right", Side.Right)] : [(Name, Side.Left)];
}
