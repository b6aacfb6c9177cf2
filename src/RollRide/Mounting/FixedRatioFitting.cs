using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>A fitting given by its two motion ratios, the same at every travel: <c>X = Rh·q + s·Rr·T·r</c>.</summary>
public sealed class FixedRatioFitting : IFitting
{
    private readonly FittingLaw<OneLane> _law;

    /// <summary>Makes a fitting from ratios.</summary>
    /// <param name="heaveRatio">Element travel over wheel travel in heave, <c>Rh</c>, at least 0.</param>
    /// <param name="rollRatio">Element travel over wheel travel in roll, <c>Rr</c>, finite; 0 at the centre of a live axle.</param>
    /// <param name="halfTrack">Half the track, <c>T</c>, m, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value lies outside its limits.</exception>
    public FixedRatioFitting(double heaveRatio, double rollRatio, double halfTrack)
    {
        HeaveRatio = Require.NotNegative(heaveRatio);
        RollRatio = Require.Finite(rollRatio);
        HalfTrack = Require.Positive(halfTrack, "m");
        _law = FittingLaw.With(this);
    }

    /// <inheritdoc/>
    public double HeaveRatio { get; }

    /// <inheritdoc/>
    public double RollRatio { get; }

    /// <summary>Half the track, m.</summary>
    public double HalfTrack { get; }

    /// <inheritdoc/>
    public ElementMotion At(double q, double r, Side side) => _law.At(q, r, side);

    /// <inheritdoc/>
    public IFitting Redrawn(RideHeightChange change) => this;

    /// <inheritdoc/>
    public IFitting Turned(double roll) => this;
}
