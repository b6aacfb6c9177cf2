using RollRide.Mounting;

namespace RollRide.Packaging;

/// <summary>Both dampers at one lateral position, heave and roll, in the rear view and the body's frame.</summary>
internal sealed class Scene
{
    private readonly PackagingSpace _space;
    private readonly double _sin, _cos, _arm;

    public Scene(PackagingSpace space, double position, double heave, double roll)
    {
        (_space, Heave, Roll) = (space, heave, roll);
        (_sin, _cos) = Math.SinCos(roll);
        Damper = new DamperShape(space, position, heave, roll);
        Mirrored = new DamperShape(space, position, heave, -roll);
        var mounts = space.Mounts;
        _arm = Math.Max(
            new PlaneVector(position, mounts.AxleEndHeight - space.RollCentreHeight).Length,
            new PlaneVector(position + mounts.BodyEndOutboard, mounts.BodyEndHeight - space.RollCentreHeight - heave).Length);
    }

    public double Heave { get; }

    public double Roll { get; }

    /// <summary>The left damper.</summary>
    public DamperShape Damper { get; }

    /// <summary>The right damper as the left one of the opposite roll, which it mirrors.</summary>
    public DamperShape Mirrored { get; }

    /// <summary>A part of the left damper, or of the right one.</summary>
    public OrientedBox Part(DamperPart part, bool ofOther)
    {
        if (!ofOther)
            return Damper[part];
        var box = Mirrored[part];
        return box with { Y = -box.Y, AlongY = -box.AlongY };
    }

    /// <summary>A keep-out where it stands now.</summary>
    /// <param name="keepOut">The keep-out.</param>
    /// <param name="widened">What is added to either side of it, m.</param>
    public OrientedBox Place(KeepOut keepOut, double widened = 0)
    {
        double y = (keepOut.Inner + keepOut.Outer) / 2, z = (keepOut.Bottom + keepOut.Top) / 2;
        double halfWidth = ((keepOut.Outer - keepOut.Inner) / 2) + widened, halfHeight = (keepOut.Top - keepOut.Bottom) / 2;
        if (!keepOut.MovesWithAxle)
            return new OrientedBox(y, z, 1, 0, halfWidth, halfHeight);
        var fromCentre = new PlaneVector(y, z - _space.RollCentreHeight).Rotate(_sin, _cos);
        return new OrientedBox(fromCentre.Y, _space.RollCentreHeight + Heave + fromCentre.Z, _cos, _sin, halfWidth, halfHeight);
    }

    /// <summary>
    /// Upper bound of the motion of a damper's end, m, relative to where the other end is fixed: of the axle end against the body, or of the body
    /// end against the axle. The slide moves both ends by the same amount, in directions that differ by the roll angle.
    /// </summary>
    /// <param name="slide">How far the damper is slid, m; 0 or more.</param>
    /// <param name="heave">How far the axle is moved from here in heave, m; 0 or more.</param>
    /// <param name="roll">How far in roll, rad; 0 or more.</param>
    public double EndMotion(double slide, double heave, double roll) =>
        (2 * Math.Sin(Math.Abs(Roll) / 2) * slide) + heave + ((_arm + heave + slide) * roll);

    /// <summary>Upper bound of the motion of any point of a damper's part, m, relative to the axle or to the body, while the far end moves.</summary>
    /// <param name="part">The part.</param>
    /// <param name="seenFromAxle">Whether it is seen from the axle.</param>
    /// <param name="endMotion">How far the far end moves, m.</param>
    public double PartMotion(DamperPart part, bool seenFromAxle, double endMotion)
    {
        if (endMotion == 0)
            return 0;
        double own = DamperShape.IsAtAxle(part) == seenFromAxle ? 0 : endMotion;
        var damper = _space.Damper;
        return part switch
        {
            DamperPart.UpperTube => own + Turned(damper.UpperLength + damper.UpperDiameter),
            DamperPart.LowerTube => own + Turned(damper.LowerLength + damper.LowerDiameter),
            DamperPart.Rod => endMotion,
            _ => own,
        };

        // Where the damper stands upright in the side view, a tube turns with the damper's line, and its points move by no more than its length
        // and radius times the angle. Where it is inclined fore and aft, the tube's length in view and the ellipse at its end change as well, both
        // together by no more than another radius. Even where the ends pass each other, a point moves by no more than twice its reach.
        double Turned(double reach)
        {
            double shortest = Math.Min(Damper.LengthInView, Mirrored.LengthInView) - endMotion;
            return reach * (shortest > 0 ? Math.Min(2, endMotion / shortest) : 2);
        }
    }

    /// <summary>How far from the roll centre a keep-out reaches, m.</summary>
    public double ReachOf(KeepOut keepOut) => new PlaneVector(
        Math.Max(Math.Abs(keepOut.Inner), Math.Abs(keepOut.Outer)),
        Math.Max(Math.Abs(keepOut.Bottom - _space.RollCentreHeight), Math.Abs(keepOut.Top - _space.RollCentreHeight))).Length;
}
