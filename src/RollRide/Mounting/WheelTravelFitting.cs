using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>
/// An element of an independent suspension: its compression is a function of its own wheel's vertical travel
/// <c>d = q + s·T·r</c> alone, so that its heave and roll ratios are equal at every travel.
/// </summary>
/// <remarks>A linkage gives the function and its two derivatives; how they enter heave and roll, <see cref="WheelTravelLaw{T}"/> says.</remarks>
public abstract class WheelTravelFitting : IFitting
{
    /// <summary>Makes the fitting of a vehicle with a given half-track.</summary>
    /// <param name="halfTrack">Half the track, <c>T</c>, m, above 0.</param>
    protected WheelTravelFitting(double halfTrack) =>
        HalfTrack = Require.Positive(halfTrack, "m");

    /// <summary>Half the track, m.</summary>
    public double HalfTrack { get; }

    /// <inheritdoc/>
    public double HeaveRatio => Ratio(0);

    /// <inheritdoc/>
    public double RollRatio => Ratio(0);

    /// <summary>Compression <c>X</c> of the element from ride height, m. Allocates nothing.</summary>
    /// <param name="travel">Vertical travel <c>d</c> of the wheel centre, m, positive in bump.</param>
    public abstract double Compression(double travel);

    /// <summary>Motion ratio <c>dX/dd</c>. Allocates nothing.</summary>
    /// <param name="travel">Vertical travel <c>d</c> of the wheel centre, m, positive in bump.</param>
    public abstract double Ratio(double travel);

    /// <summary>Change of the motion ratio with travel, <c>d²X/dd²</c>, 1/m. Allocates nothing.</summary>
    /// <param name="travel">Vertical travel <c>d</c> of the wheel centre, m, positive in bump.</param>
    public abstract double RatioSlope(double travel);

    /// <inheritdoc/>
    public ElementMotion At(double q, double r, Side side)
    {
        var wheelArm = (int)side * HalfTrack;
        var (compression, ratio) = CompressionAndRatio(q + (wheelArm * r));
        return new ElementMotion(compression, ratio, ratio * wheelArm);
    }

    /// <inheritdoc/>
    public abstract IFitting Redrawn(RideHeightChange change);

    /// <inheritdoc/>
    public IFitting Turned(double roll) => Redrawn(new RideHeightChange(0, HalfTrack * roll, 0));

    /// <summary>Compression, m, and motion ratio together, where one solution of the linkage gives both. Allocates nothing.</summary>
    /// <param name="travel">Vertical travel <c>d</c> of the wheel centre, m, positive in bump.</param>
    protected internal virtual (double Compression, double Ratio) CompressionAndRatio(double travel) => (Compression(travel), Ratio(travel));
}
