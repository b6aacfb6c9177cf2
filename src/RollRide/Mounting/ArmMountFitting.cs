using System.Globalization;
using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>
/// An element between the body and the lower arm of an independent suspension, in the rear view: a rigid arm turns about
/// a pivot fixed to the body, and its outer joint travels vertically as the wheel does.
/// </summary>
/// <remarks>
/// With the arm's length <c>R</c> and its angle <c>α</c> above the horizontal, the travel is
/// <c>d = R (sin α − sin α0)</c>, so <c>α(d)</c> is known in closed form; the element's lower mount turns with the arm
/// and the compression is <c>|M(0) − B| − |M(d) − B|</c>, exactly.
/// </remarks>
public sealed class ArmMountFitting : WheelTravelFitting, IMountedElement
{
    private readonly double _armLength;
    private readonly double _sinAtRest, _cosAtRest;

    /// <summary>Makes a fitting from the left side's points.</summary>
    /// <param name="pivot">The arm's pivot on the body.</param>
    /// <param name="outerJoint">The arm's outer joint, outboard of the pivot.</param>
    /// <param name="armMount">The element's mount on the arm.</param>
    /// <param name="bodyMount">The element's mount on the body.</param>
    /// <param name="halfTrack">Half the track, <c>T</c>, m, above 0.</param>
    /// <exception cref="ArgumentException">The joint is not outboard of the pivot, the mounts coincide, or the half-track
    /// is out of range.</exception>
    public ArmMountFitting(
        RearViewPoint pivot, RearViewPoint outerJoint, RearViewPoint armMount, RearViewPoint bodyMount, double halfTrack)
        : base(halfTrack)
    {
        ArgumentNullException.ThrowIfNull(pivot);
        ArgumentNullException.ThrowIfNull(outerJoint);
        ArgumentNullException.ThrowIfNull(armMount);
        ArgumentNullException.ThrowIfNull(bodyMount);
        if (outerJoint.Y <= pivot.Y)
        {
            throw new ArgumentException(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The arm's outer joint (y = {Unit.Millimetre.Show(outerJoint.Y):0.#}) must lie outboard of its pivot (y = {Unit.Millimetre.Show(pivot.Y):0.#})."),
                nameof(outerJoint));
        }

        (Pivot, OuterJoint, LowerMount, UpperMount) = (pivot, outerJoint, armMount, bodyMount);
        double y = outerJoint.Y - pivot.Y, z = outerJoint.Z - pivot.Z;
        _armLength = Math.Sqrt(y * y + z * z);
        (_sinAtRest, _cosAtRest) = (z / _armLength, y / _armLength);
        Length = LengthAt(0);
        MountLength.Require(Length, LiveAxleMountFitting.ShortestLength, nameof(bodyMount));
    }

    /// <summary>The arm's pivot on the body.</summary>
    public RearViewPoint Pivot { get; }

    /// <summary>The arm's outer joint.</summary>
    public RearViewPoint OuterJoint { get; }

    /// <summary>The element's mount on the arm.</summary>
    public RearViewPoint LowerMount { get; }

    /// <summary>The element's mount on the body.</summary>
    public RearViewPoint UpperMount { get; }

    /// <summary>Distance between the element's mounts at rest, m.</summary>
    public double Length { get; }

    /// <summary>The lowest wheel travel the arm could reach, hanging straight down, m; itself out of reach.</summary>
    public double LowestTravel => _armLength * (-1 - _sinAtRest);

    /// <summary>The highest wheel travel the arm could reach, standing straight up, m; itself out of reach.</summary>
    public double HighestTravel => _armLength * (1 - _sinAtRest);

    /// <summary>Distance between the element's mounts, m. Allocates nothing.</summary>
    /// <param name="travel">Vertical travel <c>d</c> of the wheel centre, m, positive in bump.</param>
    /// <exception cref="UnreachableTravelException">The arm cannot reach the travel.</exception>
    public double LengthAt(double travel) => Place(travel).Length;

    /// <inheritdoc/>
    /// <exception cref="UnreachableTravelException">The arm cannot reach the travel.</exception>
    public override double Compression(double travel) => CompressionAndRatio(travel).Compression;

    /// <inheritdoc/>
    /// <exception cref="UnreachableTravelException">The arm cannot reach the travel.</exception>
    public override double Ratio(double travel) => CompressionAndRatio(travel).Ratio;

    /// <inheritdoc/>
    /// <exception cref="UnreachableTravelException">The arm cannot reach the travel.</exception>
    public override double RatioSlope(double travel)
    {
        var p = Place(travel);

        // L² = D·D with D = M − B, differentiated twice; ∂²M/∂α² points back to the pivot, −ρ.
        double rhoSquared = p.RhoY * p.RhoY + p.RhoZ * p.RhoZ;
        double lengthByAngleTwice =
            (rhoSquared - p.RhoY * p.Dy - p.RhoZ * p.Dz - p.LengthByAngle * p.LengthByAngle) / p.Length;

        // dα/dd = 1/(R cos α), so d²α/dd² = sin α/(R² cos³ α) = tan α (dα/dd)².
        double angleByTravelSquared = p.AngleByTravel * p.AngleByTravel;
        return -(lengthByAngleTwice + p.LengthByAngle * p.TanAngle) * angleByTravelSquared;
    }

    /// <inheritdoc/>
    public override IFitting Redrawn(RideHeightChange change)
    {
        var p = Place(change.Travel);
        return new ArmMountFitting(
            Pivot with { Z = Pivot.Z + change.Body },
            new RearViewPoint(Pivot.Y + (1 / p.AngleByTravel), OuterJoint.Z + change.Unsprung),
            new RearViewPoint(Pivot.Y + p.RhoY, Pivot.Z + p.RhoZ + change.Body),
            UpperMount with { Z = UpperMount.Z + change.Body },
            HalfTrack);
    }

    /// <inheritdoc/>
    /// <exception cref="UnreachableTravelException">The arm cannot reach the travel.</exception>
    protected internal override (double Compression, double Ratio) CompressionAndRatio(double travel)
    {
        var p = Place(travel);
        return (Length - p.Length, -p.LengthByAngle * p.AngleByTravel);
    }

    /// <summary>The arm and the element at a wheel travel.</summary>
    private Placement Place(double travel)
    {
        // A travel that is not a number passes on as one: the integrator reports it with its time and state.
        double sin = _sinAtRest + travel / _armLength;
        if (Math.Abs(sin) >= 1)
            throw new UnreachableTravelException(travel, LowestTravel, HighestTravel);
        double cos = Math.Sqrt((1 - sin) * (1 + sin));

        // The arm has turned by α − α0.
        double turnCos = cos * _cosAtRest + sin * _sinAtRest;
        double turnSin = sin * _cosAtRest - cos * _sinAtRest;
        double y = LowerMount.Y - Pivot.Y, z = LowerMount.Z - Pivot.Z;
        double rhoY = y * turnCos - z * turnSin;
        double rhoZ = y * turnSin + z * turnCos;

        double dy = Pivot.Y + rhoY - UpperMount.Y;
        double dz = Pivot.Z + rhoZ - UpperMount.Z;
        return new Placement(rhoY, rhoZ, dy, dz, Math.Sqrt(dy * dy + dz * dz), 1 / (_armLength * cos), sin / cos);
    }

    /// <summary>
    /// Lower mount seen from the pivot (ρ) and from the upper mount (D), the element's length, and how the arm's angle
    /// changes with travel.
    /// </summary>
    private readonly record struct Placement(
        double RhoY, double RhoZ, double Dy, double Dz, double Length, double AngleByTravel, double TanAngle)
    {
        /// <summary><c>∂L/∂α = D·(−ρz, ρy)/L</c>.</summary>
        public double LengthByAngle => (Dz * RhoY - Dy * RhoZ) / Length;
    }
}
