using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>
/// An element between a live axle and the body, from its mount points, with its exact length at every travel.
/// The axle moves by the relative heave <c>q</c> and turns by the relative roll <c>r</c> about the roll centre, which
/// travels with it; the body end stays fixed.
/// </summary>
/// <remarks>
/// With <c>ζ = z − hrc</c> the axle end of the left side is
/// <c>A(q, r) = (x, y cos r − ζ sin r, hrc + q + y sin r + ζ cos r)</c>, and the compression is <c>|A(0,0) − B| − |A − B|</c>.
/// For small motions, with the unit vector <c>u</c> from axle end to body end, <c>Rh = uz</c> and
/// <c>Rr·T = uz·y − uy·(z − hrc)</c>.
/// </remarks>
public sealed class LiveAxleMountFitting : IMountedElement
{
    /// <summary>The shortest distance between the mount points at rest that is accepted, m.</summary>
    public const double ShortestLength = 1e-3;

    private readonly FittingLaw<OneLane> _law;

    /// <summary>Makes a fitting from mount points.</summary>
    /// <param name="axleEnd">The left element's mount on the axle.</param>
    /// <param name="bodyEnd">The left element's mount on the body.</param>
    /// <param name="rollCentreHeight">Height of the roll centre above the ground, m, finite.</param>
    /// <param name="halfTrack">Half the track, <c>T</c>, m, above 0.</param>
    /// <exception cref="ArgumentException">The mount points coincide, or a value lies outside its limits.</exception>
    public LiveAxleMountFitting(Point3 axleEnd, Point3 bodyEnd, double rollCentreHeight, double halfTrack)
    {
        ArgumentNullException.ThrowIfNull(axleEnd);
        ArgumentNullException.ThrowIfNull(bodyEnd);
        AxleEnd = axleEnd;
        BodyEnd = bodyEnd;
        RollCentreHeight = Require.Finite(rollCentreHeight, "m");
        HalfTrack = Require.Positive(halfTrack, "m");

        // Seen from a length of zero the compression is the length with the other sign.
        Length = Math.Abs(FittingLaw.With(this).At(0, 0, Side.Left).Compression);
        MountLength.Require(Length, ShortestLength, nameof(bodyEnd));
        _law = FittingLaw.With(this);
        var atRest = At(0, 0, Side.Left);
        HeaveRatio = atRest.HeaveRatio;
        RollRatio = atRest.RollArm / halfTrack;
    }

    /// <summary>The left element's mount on the axle.</summary>
    public Point3 AxleEnd { get; }

    /// <summary>The left element's mount on the body.</summary>
    public Point3 BodyEnd { get; }

    /// <summary>Height of the roll centre above the ground, m.</summary>
    public double RollCentreHeight { get; }

    /// <summary>Half the track, m.</summary>
    public double HalfTrack { get; }

    /// <summary>Distance between the mount points at rest, m.</summary>
    public double Length { get; }

    /// <inheritdoc/>
    public double HeaveRatio { get; }

    /// <inheritdoc/>
    public double RollRatio { get; }

    /// <summary>Distance between the mount points, m. Allocates nothing.</summary>
    /// <param name="q">Relative heave, m.</param>
    /// <param name="r">Relative roll, rad.</param>
    /// <param name="side">The side of the vehicle.</param>
    public double LengthAt(double q, double r, Side side) => Length - At(q, r, side).Compression;

    /// <inheritdoc/>
    public ElementMotion At(double q, double r, Side side) => _law.At(q, r, side);

    /// <inheritdoc/>
    public IFitting Redrawn(RideHeightChange change) => new LiveAxleMountFitting(
        AxleEnd with { Z = AxleEnd.Z + change.Unsprung }, BodyEnd with { Z = BodyEnd.Z + change.Body }, RollCentreHeight + change.RollCentre, HalfTrack);

    /// <inheritdoc/>
    public IFitting Turned(double roll)
    {
        // The axle end goes round the roll centre; two turns one after the other are the turn by their sum.
        var (sin, cos) = Math.SinCos(roll);
        var above = AxleEnd.Z - RollCentreHeight;
        var turned = AxleEnd with { Y = (AxleEnd.Y * cos) - (above * sin), Z = RollCentreHeight + (AxleEnd.Y * sin) + (above * cos) };
        return new LiveAxleMountFitting(turned, BodyEnd, RollCentreHeight, HalfTrack);
    }
}
