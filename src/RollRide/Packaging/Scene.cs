using RollRide.Mounting;

namespace RollRide.Packaging;

/// <summary>Both dampers at one lateral position, heave and roll, in the rear view and the body's frame.</summary>
internal sealed class Scene
{
    private readonly PackagingSpace _space;
    private readonly double _sin, _cos;

    public Scene(PackagingSpace space, double position, double heave, double roll)
    {
        (_space, Heave, Roll) = (space, heave, roll);
        (_sin, _cos) = Math.SinCos(roll);
        Damper = new DamperShape(space, position, heave, roll);
        Mirrored = new DamperShape(space, position, heave, -roll);
    }

    public double Heave { get; }

    public double Roll { get; }

    /// <summary>The left damper.</summary>
    public DamperShape Damper { get; }

    /// <summary>The right damper as the left one of the opposite roll, which it mirrors.</summary>
    public DamperShape Mirrored { get; }

    /// <summary>The shorter of the two as seen from behind, m.</summary>
    public double ShorterInView => Math.Min(Damper.LengthInView, Mirrored.LengthInView);

    /// <summary>A part of the left damper, or of the right one.</summary>
    public OrientedBox Part(DamperPart part, bool ofOther)
    {
        if (!ofOther)
            return Damper[part];
        var box = Mirrored[part];
        return box with { Y = -box.Y, AlongY = -box.AlongY };
    }

    /// <summary>A keep-out where it stands now.</summary>
    public OrientedBox Place(KeepOut keepOut)
    {
        double y = (keepOut.Inner + keepOut.Outer) / 2, z = (keepOut.Bottom + keepOut.Top) / 2;
        double halfWidth = (keepOut.Outer - keepOut.Inner) / 2, halfHeight = (keepOut.Top - keepOut.Bottom) / 2;
        if (!keepOut.MovesWithAxle)
            return new OrientedBox(y, z, 1, 0, halfWidth, halfHeight);
        var fromCentre = new PlaneVector(y, z - _space.RollCentreHeight).Rotate(_sin, _cos);
        return new OrientedBox(fromCentre.Y, _space.RollCentreHeight + Heave + fromCentre.Z, _cos, _sin, halfWidth, halfHeight);
    }
}
