using System.Globalization;
using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>A wheel travel that the suspension's linkage cannot reach.</summary>
public sealed class UnreachableTravelException : InvalidOperationException
{
    /// <summary>Makes the exception with a message that names the travel and the linkage's reach in mm.</summary>
    /// <param name="travel">The wheel travel asked for, m, positive in bump.</param>
    /// <param name="lowest">The lowest travel of the linkage, m.</param>
    /// <param name="highest">The highest travel of the linkage, m.</param>
    public UnreachableTravelException(double travel, double lowest, double highest)
        : this(travel, lowest, highest, "")
    {
    }

    /// <summary>Makes the exception with a message that also says what happens at the limit passed.</summary>
    /// <param name="travel">The wheel travel asked for, m, positive in bump.</param>
    /// <param name="lowest">The lower limit of the linkage.</param>
    /// <param name="highest">The upper limit of the linkage.</param>
    public UnreachableTravelException(double travel, TravelLimit lowest, TravelLimit highest)
        : this(
            travel,
            (lowest ?? throw new ArgumentNullException(nameof(lowest))).Travel,
            (highest ?? throw new ArgumentNullException(nameof(highest))).Travel,
            $", where {(travel <= lowest.Travel ? lowest : highest).Reason}")
    {
    }

    private UnreachableTravelException(double travel, double lowest, double highest, string reason)
        : base(string.Create(
            CultureInfo.InvariantCulture,
            $"The suspension cannot reach a wheel travel of {Unit.Millimetre.Show(travel):F1}: its linkage moves from {Unit.Millimetre.Of(lowest):F1} to {Unit.Millimetre.Show(highest):F1}{reason}."))
    {
        Travel = travel;
        Lowest = lowest;
        Highest = highest;
    }

    /// <summary>The wheel travel asked for, m, positive in bump.</summary>
    public double Travel { get; }

    /// <summary>The lowest travel of the linkage, m.</summary>
    public double Lowest { get; }

    /// <summary>The highest travel of the linkage, m.</summary>
    public double Highest { get; }
}
