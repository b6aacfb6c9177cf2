using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>What guides one wheel of an independent suspension: given for the left, mirrored on the right. Immutable and thread-safe.</summary>
/// <remarks>
/// The wheel centre stands at half the track and at its height above the ground at ride height, at x = 0. Every point of the
/// linkage is an exact function of the wheel centre's vertical travel <c>d</c>.
/// </remarks>
public abstract class WheelLinkage
{
    private protected WheelLinkage(double wheelCentreHeight, double halfTrack)
    {
        WheelCentreHeight = Require.Positive(wheelCentreHeight, "m");
        HalfTrack = Require.Positive(halfTrack, "m");
    }

    /// <summary>Height of the wheel centre above the ground at ride height, m.</summary>
    public double WheelCentreHeight { get; }

    /// <summary>Half the track, m.</summary>
    public double HalfTrack { get; }

    /// <summary>The parts that can carry an element's outer end.</summary>
    public abstract ImmutableArray<LinkagePart> Parts { get; }

    /// <summary>The end of travel in rebound.</summary>
    public abstract TravelLimit Lowest { get; }

    /// <summary>The end of travel in bump.</summary>
    public abstract TravelLimit Highest { get; }

    /// <summary>Where the wheel stands at a travel.</summary>
    /// <param name="travel">Vertical travel of the wheel centre, m, positive in bump.</param>
    /// <exception cref="UnreachableTravelException">The linkage cannot reach the travel.</exception>
    public abstract WheelPosition WheelAt(double travel);

    /// <summary>The same joints with the wheel further out or in: another offset of the wheel, nothing else.</summary>
    /// <param name="halfTrack">Half the track, m, above 0.</param>
    /// <exception cref="ArgumentException">With the wheel there, the linkage cannot move.</exception>
    public abstract WheelLinkage WithHalfTrack(double halfTrack);

    /// <summary>The same linkage drawn at another ride height; travel, camber and toe count from there, and the half-track stays.</summary>
    /// <remarks>
    /// The wheel's contact is where its plane meets the road there. Its centre need no longer stand at half the track and at x = 0: both are
    /// where the linkage has taken it.
    /// </remarks>
    /// <param name="change">Where body and wheels stand then.</param>
    /// <exception cref="UnreachableTravelException">The linkage cannot reach it.</exception>
    /// <exception cref="ArgumentException">There the linkage cannot move, or the wheel's centre is not above the road.</exception>
    public abstract WheelLinkage Redrawn(RideHeightChange change);

    /// <summary>The motion of a point fixed to a part, with derivatives by wheel travel. Allocates nothing.</summary>
    /// <param name="part">The part, one of <see cref="Parts"/>.</param>
    /// <param name="atRest">Where the point is at ride height.</param>
    /// <param name="travel">Vertical travel of the wheel centre, m.</param>
    /// <exception cref="UnreachableTravelException">The linkage cannot reach the travel.</exception>
    internal abstract PointMotion PointAt(LinkagePart part, SpaceVector atRest, double travel);
}
