using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>The travel that a suspension is laid out for: heave between rebound and bump, and roll either way.</summary>
/// <remarks>Counted from the rest position. Under a load that stands beyond the travel, what is left to that end is negative.</remarks>
public sealed record TravelRange
{
    /// <summary>Travel of both wheels upward against the body, m.</summary>
    public required double Bump { get; init => field = Require.Finite(value, "m", nameof(Bump)); }

    /// <summary>Travel of both wheels downward, m.</summary>
    public required double Rebound { get; init => field = Require.Finite(value, "m", nameof(Rebound)); }

    /// <summary>Roll of the wheels against the body, either way, rad; 0 or more, below a right angle.</summary>
    public required double Roll
    {
        get;
        init => field = Require.NotNegative(value, "rad", nameof(Roll)) < Math.PI / 2
            ? value
            : throw new ArgumentOutOfRangeException(nameof(Roll), value, "Roll must be below a right angle (unit: rad).");
    }

    /// <summary>The same travel counted from another rest position.</summary>
    /// <param name="travel">Where the wheels stand against the body there, m, positive in bump.</param>
    internal TravelRange From(double travel) => this with { Bump = Bump - travel, Rebound = Rebound + travel };

    /// <summary>Which combinations of heave and roll within it count.</summary>
    public TravelCombinations Combinations { get; init; }
}
