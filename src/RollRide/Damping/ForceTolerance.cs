using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>By how much the forces of the dampers made may differ from their curve, as a share, either way: one number, or one for each test speed. Immutable.</summary>
public sealed record ForceTolerance
{
    private readonly PiecewiseLinear? _overSpeed;

    /// <summary>One tolerance at every speed.</summary>
    /// <param name="share">The share, above 0.</param>
    public ForceTolerance(double share) => Shares = [Require.Positive(share, "1")];

    /// <summary>A tolerance for each test speed; straight between them, and held beyond.</summary>
    /// <param name="speeds">The speeds, m/s, ascending, each once.</param>
    /// <param name="shares">The share at each, above 0.</param>
    public ForceTolerance(IReadOnlyList<double> speeds, IReadOnlyList<double> shares)
    {
        ArgumentNullException.ThrowIfNull(speeds);
        ArgumentNullException.ThrowIfNull(shares);
        Shares = [.. shares.Select(share => Require.Positive(share, "1", nameof(shares))).Distinct()];
        if (Shares.Length > 1)
            _overSpeed = PiecewiseLinear.Through([.. speeds], [.. shares]);
    }

    /// <summary>The different shares, in the order of their speeds.</summary>
    public ImmutableArray<double> Shares { get; }

    /// <summary>Whether it is the same at every speed.</summary>
    public bool IsOne => Shares.Length == 1;

    /// <summary>The share at a speed.</summary>
    /// <param name="speed">Size of the damper's velocity, m/s.</param>
    public double At(double speed) => _overSpeed is { } line ? line.Value(Math.Clamp(speed, line.X[0], line.X[^1])) : Shares[0];
}
