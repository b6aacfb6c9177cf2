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

    private readonly double _height; // ζ: the axle end above the roll centre.

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
        _height = axleEnd.Z - rollCentreHeight;

        Length = LengthAt(0, 0, Side.Left);
        MountLength.Require(Length, ShortestLength, nameof(bodyEnd));
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

    /// <inheritdoc/>
    public bool IsConstant => false;

    /// <summary>Distance between the mount points, m. Allocates nothing.</summary>
    /// <param name="q">Relative heave, m.</param>
    /// <param name="r">Relative roll, rad.</param>
    /// <param name="side">The side of the vehicle.</param>
    public double LengthAt(double q, double r, Side side) => Place(q, (int)side * r).Length;

    /// <inheritdoc/>
    public ElementMotion At(double q, double r, Side side)
    {
        int s = (int)side;
        var p = Place(q, s * r);
        return new ElementMotion(Length - p.Length, -p.LengthByHeave, -s * p.LengthByRoll);
    }

    /// <inheritdoc/>
    public ElementCurvature Curvature(double q, double r, Side side)
    {
        int s = (int)side;
        var p = Place(q, s * r);

        // L² = D·D with D = A − B, differentiated twice; ∂A/∂q = (0, 0, 1) and ∂²A/∂r² = −(0, armY, armZ).
        double heaveHeave = (1 - p.LengthByHeave * p.LengthByHeave) / p.Length;
        double heaveRoll = (p.ArmY - p.LengthByHeave * p.LengthByRoll) / p.Length;
        double armSquared = p.ArmY * p.ArmY + p.ArmZ * p.ArmZ;
        double rollRoll = (armSquared - p.ArmY * p.Dy - p.ArmZ * p.Dz - p.LengthByRoll * p.LengthByRoll) / p.Length;
        return new ElementCurvature(-heaveHeave, -s * heaveRoll, -rollRoll);
    }

    /// <summary>The left element with the axle at a relative heave and roll.</summary>
    private Placement Place(double q, double r)
    {
        var (sin, cos) = Math.SinCos(r);
        double armY = AxleEnd.Y * cos - _height * sin;
        double armZ = AxleEnd.Y * sin + _height * cos;
        double dx = AxleEnd.X - BodyEnd.X;
        double dy = armY - BodyEnd.Y;
        double dz = RollCentreHeight + q + armZ - BodyEnd.Z;
        double length = Math.Sqrt(dx * dx + dy * dy + dz * dz);
        return new Placement(armY, armZ, dy, dz, length);
    }

    /// <summary>Axle end seen from the roll centre (arm) and from the body end (D), and the element's length.</summary>
    private readonly record struct Placement(double ArmY, double ArmZ, double Dy, double Dz, double Length)
    {
        /// <summary><c>∂L/∂q = D·(0, 0, 1)/L</c>.</summary>
        public double LengthByHeave => Dz / Length;

        /// <summary><c>∂L/∂r = D·(0, −armZ, armY)/L</c>.</summary>
        public double LengthByRoll => (Dz * ArmY - Dy * ArmZ) / Length;
    }
}
