using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>
/// The exact length of an element between a live axle and the body. With <c>ζ = z − hrc</c> the axle end of the left side is
/// <c>A(q, r) = (x, y cos r − ζ sin r, hrc + q + y sin r + ζ cos r)</c>, seen from the body end it is <c>D = A − B</c>, and the
/// element's length <c>L = |D|</c>; so <c>∂L/∂q = Dz/L</c> and <c>∂L/∂r = D·(0, −armZ, armY)/L</c> with the axle end seen from the roll centre.
/// The right side mirrors it.
/// </summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class LiveAxleMountLaw<T> : FittingLaw<T>
    where T : struct, ILanes<T>
{
    private const int AxleEndY = 0, AxleEndAboveRollCentre = 1, DistanceXSquared = 2, BodyEndY = 3, RollCentreAboveBodyEnd = 4, Length = 5;

    private readonly LaneBuffer<T> _points = new(6);

    /// <inheritdoc/>
    public override bool TurnsMounts => true;

    /// <inheritdoc/>
    public override void Load(int lane, IFitting fitting)
    {
        var mounts = (LiveAxleMountFitting)fitting;
        var (axle, body) = (mounts.AxleEnd, mounts.BodyEnd);
        _points[AxleEndY, lane] = axle.Y;
        _points[AxleEndAboveRollCentre, lane] = axle.Z - mounts.RollCentreHeight;
        _points[DistanceXSquared, lane] = (axle.X - body.X) * (axle.X - body.X);
        _points[BodyEndY, lane] = body.Y;
        _points[RollCentreAboveBodyEnd, lane] = mounts.RollCentreHeight - body.Z;
        _points[Length, lane] = mounts.Length;
    }

    /// <inheritdoc/>
    public override void At(in RelativePosition<T> position, Side side, out ElementMotion<T> motion)
    {
        var (y, zeta) = (_points[AxleEndY], _points[AxleEndAboveRollCentre]);
        var sin = side == Side.Left ? position.SinRoll : -position.SinRoll;
        var armY = T.NegatedFma(zeta, sin, y * position.CosRoll);
        var armZ = T.Fma(y, sin, zeta * position.CosRoll);
        var dy = armY - _points[BodyEndY];
        var dz = _points[RollCentreAboveBodyEnd] + position.Heave + armZ;
        var length = T.Sqrt(T.Fma(dz, dz, T.Fma(dy, dy, _points[DistanceXSquared])));
        var inverse = T.All(1) / length;
        motion.Compression = _points[Length] - length;
        motion.HeaveRatio = -dz * inverse;
        var byRoll = T.NegatedFma(dz, armY, dy * armZ) * inverse;
        motion.RollArm = side == Side.Left ? byRoll : -byRoll;
    }
}
