using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary><c>X = Rh·q + s·Rr·T·r</c>.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class FixedRatioLaw<T> : FittingLaw<T>
    where T : struct, ILanes<T>
{
    private readonly LaneBuffer<T> _ratios = new(2);

    /// <inheritdoc/>
    public override void Load(int lane, IFitting fitting)
    {
        var ratios = (FixedRatioFitting)fitting;
        _ratios[0, lane] = ratios.HeaveRatio;
        _ratios[1, lane] = ratios.RollRatio * ratios.HalfTrack;
    }

    /// <inheritdoc/>
    public override void At(in RelativePosition<T> position, Side side, out ElementMotion<T> motion)
    {
        motion.HeaveRatio = _ratios[0];
        motion.RollArm = side == Side.Left ? _ratios[1] : -_ratios[1];
        motion.Compression = (motion.HeaveRatio * position.Heave) + (motion.RollArm * position.Roll);
    }

    /// <inheritdoc/>
    public override void AtBoth(in RelativePosition<T> position, out ElementMotion<T> left, out ElementMotion<T> right)
    {
        var (ratio, arm) = (_ratios[0], _ratios[1]);
        var (together, apart) = (ratio * position.Heave, arm * position.Roll);
        (left.Compression, left.HeaveRatio, left.RollArm) = (together + apart, ratio, arm);
        (right.Compression, right.HeaveRatio, right.RollArm) = (together - apart, ratio, -arm);
    }
}
