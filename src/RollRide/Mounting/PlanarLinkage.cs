using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>
/// A linkage that moves in the rear view and is driven by the angle of its lower arm: closed-form geometry gives every part
/// at an angle, and Newton's method the angle at a wheel travel, to rounding.
/// </summary>
public abstract class PlanarLinkage : WheelLinkage
{
    // The reach is found by turning the lower arm in these steps until something gives, and halving the last one.
    private static readonly double Step = 0.1 * Unit.Degree.InSi;
    private const double FurthestTurn = Math.PI;

    /// <summary>Where the square of a triangle's altitude over that of its link falls below this, links lie in line: about 0.002 degrees, closer than any bush holds.</summary>
    private protected const double InLine = 1e-9;

    // Newton starts within one step of the answer and doubles its digits each time; more means it was thrown out of the bracket.
    private const int MostIterations = 60;

    private readonly PlaneVector _lowerPivot;
    private readonly PlaneVector _lowerArm;
    private double[] _angles = [];
    private double[] _travels = [];
    private TravelLimit? _lowest, _highest;

    private protected PlanarLinkage(RearViewPoint lowerPivot, RearViewPoint lowerJoint, WheelStance wheel, double halfTrack)
        : base(wheel.Centre.Z, halfTrack)
    {
        ArgumentNullException.ThrowIfNull(lowerPivot);
        ArgumentNullException.ThrowIfNull(lowerJoint);
        (LowerPivot, LowerJoint, Wheel) = (lowerPivot, lowerJoint, wheel);
        _lowerPivot = PlaneVector.Of(lowerPivot);
        _lowerArm = PlaneVector.Of(lowerJoint) - _lowerPivot;
        RequireOutboard(lowerPivot, lowerJoint, "lower", nameof(lowerJoint));
    }

    /// <summary>The lower arm's pivot on the body.</summary>
    public RearViewPoint LowerPivot { get; }

    /// <summary>The joint of lower arm and upright.</summary>
    public RearViewPoint LowerJoint { get; }

    /// <inheritdoc/>
    public sealed override TravelLimit Lowest => _lowest!;

    /// <inheritdoc/>
    public sealed override TravelLimit Highest => _highest!;

    /// <summary>The wheel at rest, fixed to the upright.</summary>
    private protected WheelStance Wheel { get; }

    /// <summary>What happens where <see cref="TryUpright"/> fails, as the end of a sentence.</summary>
    private protected abstract string WhatLocks { get; }

    /// <summary>The body's point whose distance from the lower joint decides whether the linkage closes.</summary>
    private protected abstract PlaneVector Anchor { get; }

    /// <summary>The upright, its origin the lower joint, at an angle of the lower arm from rest; false out of reach.</summary>
    private protected abstract bool TryUpright(double angle, out PlanarPart upright);

    /// <summary>A part at an angle of the lower arm within reach.</summary>
    private protected abstract PlanarPart PartAt(LinkagePart part, double angle);

    /// <summary>Where the origin of a part is at rest.</summary>
    private protected abstract PlaneVector OriginOf(LinkagePart part);

    /// <inheritdoc/>
    public sealed override WheelPosition WheelAt(double travel)
    {
        var (_, _, upright) = Solve(travel);
        var joint = PlaneVector.Of(LowerJoint);
        var (centre, centreRate, _) = upright.PointAt(Wheel.Centre - joint);
        var (contact, contactRate, _) = upright.PointAt(Wheel.Contact - joint);
        double turnRate = upright.TurnRate / centreRate.Z;

        // No point of the upright farther than 1 km counts as a centre of its turning.
        const double leastTurn = 1e-3;
        var instantCentre = Math.Abs(turnRate) > leastTurn ? centre + ((1 / upright.TurnRate) * centreRate.Turned) : (PlaneVector?)null;
        return new WheelPosition
        {
            Travel = travel,
            Camber = -Math.Atan2(upright.Sin, upright.Cos),
            Toe = 0,
            Contact = new RearViewPoint(contact.Y, contact.Z),
            ContactRate = (contactRate.Y / centreRate.Z, contactRate.Z / centreRate.Z),
            InstantCentre = instantCentre is { } ic ? new RearViewPoint(ic.Y, ic.Z) : null,
        };
    }

    /// <inheritdoc/>
    internal sealed override PointMotion PointAt(LinkagePart part, SpaceVector atRest, double travel)
    {
        var (angle, slope, upright) = Solve(travel);
        var motion = part == LinkagePart.Upright ? upright : PartAt(part, angle);
        var (position, first, second) = motion.PointAt(new PlaneVector(atRest.Y, atRest.Z) - OriginOf(part));
        return new PointMotion(new(atRest.X, position.Y, position.Z), new(0, first.Y, first.Z), new(0, second.Y, second.Z))
            .ByTravel(slope.First, slope.Second);
    }

    /// <summary>Where a point of the upright stands at another ride height.</summary>
    private protected RearViewPoint OnUpright(RearViewPoint atRest, RideHeightChange change)
    {
        var moved = PointAt(LinkagePart.Upright, new SpaceVector(0, atRest.Y, atRest.Z), change.Travel).Position;
        return new RearViewPoint(moved.Y, moved.Z + change.Body);
    }

    /// <summary>Where a point of the body stands at another ride height.</summary>
    private protected static RearViewPoint OnBody(RearViewPoint atRest, RideHeightChange change) => atRest with { Z = atRest.Z + change.Body };

    /// <summary>The wheel at another ride height: its plane goes through the centre as the linkage holds it, and down to the road.</summary>
    private protected WheelStance WheelAfter(RideHeightChange change)
    {
        var wheel = WheelAt(change.Travel);
        var centre = PlaneVector.Of(OnUpright(new RearViewPoint(Wheel.Centre.Y, Wheel.Centre.Z), change));
        var down = new PlaneVector(wheel.Contact.Y, wheel.Contact.Z + change.Body) - centre;
        return new WheelStance(centre, centre - ((centre.Z / down.Z) * down));
    }

    /// <summary>The lower arm.</summary>
    private protected PlanarPart LowerArmAt(double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        return new PlanarPart(_lowerPivot, default, default, sin, cos, 1, 0);
    }

    /// <summary>The lower joint with its derivatives by the lower arm's angle.</summary>
    private protected (PlaneVector Position, PlaneVector First, PlaneVector Second) LowerJointAt(double angle) => LowerArmAt(angle).PointAt(_lowerArm);

    /// <summary>Finds the reach; to be called at the end of the constructor.</summary>
    private protected void FindReach()
    {
        if (Travel(0) is not { Slope: > 0 })
            throw new ArgumentException($"At ride height {WhatLocks}: the wheel cannot move.", nameof(LowerJoint));
        var nodes = new List<(double Angle, double Travel)>();
        _lowest = March(-Step, nodes);
        nodes.Reverse();
        nodes.Add((0, 0));
        _highest = March(Step, nodes);
        _angles = [.. nodes.Select(node => node.Angle)];
        _travels = [.. nodes.Select(node => node.Travel)];
    }

    private protected static void RequireOutboard(RearViewPoint pivot, RearViewPoint joint, string arm, string name)
    {
        if (joint.Y <= pivot.Y)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The {arm} arm's outer joint (y = {Unit.Millimetre.Show(joint.Y):0.#}) must lie outboard of its pivot (y = {Unit.Millimetre.Show(pivot.Y):0.#})."),
                name);
        }
    }

    /// <summary>Turns the lower arm until the linkage locks or the wheel no longer follows; adds the positions passed.</summary>
    private TravelLimit March(double step, List<(double, double)> nodes)
    {
        // Where the lower joint comes closest to the anchor or farthest from it, a linkage may lock for an instant only.
        var toAnchor = Anchor - _lowerPivot;
        double closest = Math.Atan2(_lowerArm.Cross(toAnchor), _lowerArm.Dot(toAnchor));
        double[] deadCentres = [closest, closest - (Math.Sign(closest) * Math.PI)];
        double angle = 0;
        double outside = step;
        while (Math.Abs(outside) < FurthestTurn)
        {
            double reached = angle;
            double ahead = outside;
            outside = deadCentres.FirstOrDefault(centre => (centre - reached) * (centre - ahead) < 0, ahead);
            if (Travel(outside) is not { Slope: > 0 } next)
                break;
            angle = outside;
            nodes.Add((angle, next.Travel));
            outside = angle + step;
        }

        // Halve the step between the last position that works and the first that does not.
        for (int i = 0; i < MostIterations; i++)
        {
            double middle = (angle + outside) / 2;
            if (Travel(middle) is { Slope: > 0 })
                angle = middle;
            else
                outside = middle;
        }

        double limit = Travel(angle)!.Value.Travel;
        nodes.Add((angle, limit));
        return new TravelLimit(limit, Travel(outside) is null ? WhatLocks : "the lower arm goes over centre and the wheel turns back");
    }

    /// <summary>Travel of the wheel centre at an angle of the lower arm, and its derivatives; null where the linkage does not close.</summary>
    private (double Travel, double Slope, double SlopeSlope)? Travel(double angle)
    {
        if (!TryUpright(angle, out var upright))
            return null;
        var (position, first, second) = upright.PointAt(Wheel.Centre - PlaneVector.Of(LowerJoint));
        return (position.Z - WheelCentreHeight, first.Z, second.Z);
    }

    private (double Angle, (double First, double Second) Slope, PlanarPart Upright) Solve(double travel)
    {
        if (travel <= Lowest.Travel || travel >= Highest.Travel)
            throw new UnreachableTravelException(travel, Lowest, Highest);
        int node = Array.BinarySearch(_travels, travel);
        int upper = Math.Clamp(node < 0 ? ~node : node, 1, _travels.Length - 1);
        double below = _angles[upper - 1], above = _angles[upper];
        double angle = below + ((above - below) * (travel - _travels[upper - 1]) / (_travels[upper] - _travels[upper - 1]));
        var wheel = Wheel.Centre - PlaneVector.Of(LowerJoint);
        for (int i = 0; ; i++)
        {
            TryUpright(angle, out var upright);
            var (position, first, second) = upright.PointAt(wheel);
            double error = position.Z - WheelCentreHeight - travel;

            // Rounding of a few coordinates of about 1 m; a travel that is not a number passes on as one.
            const double rounding = 4e-16;
            if (!(Math.Abs(error) > rounding) || i == MostIterations)
                return (angle, (first.Z, second.Z), upright);
            (below, above) = error > 0 ? (below, angle) : (angle, above);
            double newton = angle - (error / first.Z);
            double next = newton > below && newton < above ? newton : (below + above) / 2;
            if (next == angle)
                return (angle, (first.Z, second.Z), upright);
            angle = next;
        }
    }
}
