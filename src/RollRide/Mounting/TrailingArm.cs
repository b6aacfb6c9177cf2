using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>
/// A trailing or semi-trailing arm: the wheel's carrier turns rigidly about an axis fixed to the body. Across the vehicle the
/// axis makes a trailing arm, slanting a semi-trailing one, along the vehicle a swing axle.
/// </summary>
/// <remarks>
/// About the axis' unit vector <c>n</c> a point at <c>v</c> from it goes to
/// <c>n(n·v) + cos α (v − n(n·v)) + sin α n×v</c>; so the wheel's travel is <c>B(cos α − 1) + C sin α</c> and the angle follows
/// in closed form.
/// </remarks>
public sealed class TrailingArm : WheelLinkage
{
    // Where a turn of 1 rad lifts the wheel by less than this share of its distance from the axis, it counts as locked.
    private const double LeastLift = 1e-3;

    private readonly SpaceVector _pivot, _axis, _wheel, _spin;
    private readonly double _cosineShare, _radius, _highestAngle, _wheelRadius;

    /// <summary>Makes the arm from the left side's points at ride height.</summary>
    /// <param name="innerPivot">One pivot on the body.</param>
    /// <param name="outerPivot">The other pivot on the body; the axis runs through both.</param>
    /// <param name="wheelCentreHeight">Height of the wheel centre above the ground, m, above 0; it stands at x = 0.</param>
    /// <param name="halfTrack">Half the track, m, above 0.</param>
    /// <exception cref="ArgumentException">The pivots coincide, or the wheel does not rise when the arm turns.</exception>
    public TrailingArm(Point3 innerPivot, Point3 outerPivot, double wheelCentreHeight, double halfTrack)
        : this(innerPivot, outerPivot, new SpaceVector(0, halfTrack, wheelCentreHeight), new SpaceVector(0, 1, 0), halfTrack)
    {
    }

    private TrailingArm(Point3 innerPivot, Point3 outerPivot, SpaceVector wheelCentre, SpaceVector spin, double halfTrack)
        : base(wheelCentre.Z, halfTrack)
    {
        ArgumentNullException.ThrowIfNull(innerPivot);
        ArgumentNullException.ThrowIfNull(outerPivot);
        (InnerPivot, OuterPivot) = (innerPivot, outerPivot);
        _pivot = SpaceVector.Of(innerPivot);
        var axis = SpaceVector.Of(outerPivot) - _pivot;
        if (axis.Length < LiveAxleMountFitting.ShortestLength)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The arm's two pivots must lie at least {Unit.Millimetre.Show(LiveAxleMountFitting.ShortestLength)} apart; they lie {Unit.Millimetre.Show(axis.Length):0.###} apart."),
                nameof(outerPivot));
        }

        _axis = (1 / axis.Length) * axis;
        _wheel = wheelCentre - _pivot;
        _spin = spin;
        _wheelRadius = WheelCentreHeight / Down(spin).Length;

        // Turning is positive where it lifts the wheel.
        if (_axis.Cross(_wheel).Z < 0)
            _axis = -1.0 * _axis;
        double lift = _axis.Cross(_wheel).Z;
        if (lift < LeastLift * _wheel.Length)
        {
            throw new ArgumentException(
                "The wheel does not rise when the arm turns: its centre lies straight above, below or on the axis.",
                nameof(outerPivot));
        }

        _cosineShare = _wheel.Z - (_axis.Z * _axis.Dot(_wheel));
        _radius = Math.Sqrt((_cosineShare * _cosineShare) + (lift * lift));
        _highestAngle = Math.Atan2(lift, _cosineShare);
        Lowest = new TravelLimit(-_radius - _cosineShare, "the arm hangs at its lowest and the wheel turns back");
        Highest = new TravelLimit(_radius - _cosineShare, "the arm stands at its highest and the wheel turns back");
    }

    /// <summary>One pivot on the body.</summary>
    public Point3 InnerPivot { get; }

    /// <summary>The other pivot on the body.</summary>
    public Point3 OuterPivot { get; }

    /// <inheritdoc/>
    public override ImmutableArray<LinkagePart> Parts => [LinkagePart.TrailingArm];

    /// <inheritdoc/>
    public override TravelLimit Lowest { get; }

    /// <inheritdoc/>
    public override TravelLimit Highest { get; }

    /// <inheritdoc/>
    public override WheelLinkage WithHalfTrack(double halfTrack)
    {
        var centre = _pivot + _wheel;
        return new TrailingArm(InnerPivot, OuterPivot, centre with { Y = halfTrack + (centre.Y - HalfTrack) }, _spin, halfTrack);
    }

    /// <inheritdoc/>
    public override WheelLinkage Redrawn(RideHeightChange change)
    {
        var (sin, cos) = SinCos(change.Travel);
        var centre = _pivot + Turn(_wheel, sin, cos);
        return new TrailingArm(
            InnerPivot with { Z = InnerPivot.Z + change.Body },
            OuterPivot with { Z = OuterPivot.Z + change.Body },
            centre with { Z = centre.Z + change.Body },
            Turn(_spin, sin, cos),
            HalfTrack);
    }

    /// <inheritdoc/>
    public override WheelPosition WheelAt(double travel)
    {
        var (sin, cos) = SinCos(travel);
        var centre = _pivot + Turn(_wheel, sin, cos);
        double liftRate = _axis.Cross(centre - _pivot).Z;
        var spin = Turn(_spin, sin, cos);

        // The lowest point of a thin disc square to the spin axis; its velocity is that of the arm there.
        var down = Down(spin);
        var contact = centre + ((_wheelRadius / down.Length) * down);
        var rate = (1 / liftRate) * _axis.Cross(contact - _pivot);
        return new WheelPosition
        {
            Travel = travel,
            Camber = Math.Asin(_spin.Z) - Math.Asin(spin.Z),
            Toe = Math.Atan2(spin.X, spin.Y) - Math.Atan2(_spin.X, _spin.Y),
            Contact = new RearViewPoint(contact.Y, contact.Z),
            ContactRate = (rate.Y, rate.Z),
            InstantCentre = null,
        };
    }

    /// <inheritdoc/>
    internal override PointMotion PointAt(LinkagePart part, SpaceVector atRest, double travel)
    {
        var (sin, cos) = SinCos(travel);
        var wheel = Turn(_wheel, sin, cos);
        var point = Turn(atRest - _pivot, sin, cos);
        var first = _axis.Cross(point);
        return new PointMotion(_pivot + point, first, _axis.Cross(first))
            .ByTravel(_axis.Cross(wheel).Z, _axis.Cross(_axis.Cross(wheel)).Z);
    }

    /// <summary>From the centre of a disc towards its lowest point; its length is the cosine of the camber.</summary>
    private static SpaceVector Down(SpaceVector spin) => (spin.Z * spin) - new SpaceVector(0, 0, 1);

    private SpaceVector Turn(SpaceVector v, double sin, double cos)
    {
        var along = _axis.Dot(v) * _axis;
        return along + (cos * (v - along)) + (sin * _axis.Cross(v));
    }

    /// <summary>Sine and cosine of the arm's turn at a wheel travel.</summary>
    private (double Sin, double Cos) SinCos(double travel)
    {
        // cos(α − αhighest) = (d + B)/√(B² + C²). A travel that is not a number passes on as one.
        double cosine = (travel + _cosineShare) / _radius;
        if (Math.Abs(cosine) >= 1)
            throw new UnreachableTravelException(travel, Lowest, Highest);
        return Math.SinCos(_highestAngle - Math.Acos(cosine));
    }
}
