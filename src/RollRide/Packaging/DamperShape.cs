using System.Runtime.CompilerServices;

namespace RollRide.Packaging;

/// <summary>The left damper in the rear view, in the body's frame, at one lateral position, heave and roll.</summary>
/// <remarks>
/// A tube that is inclined fore and aft shows foreshortened, and its flat end as an ellipse; the rectangle around both is taken.
/// </remarks>
internal sealed class DamperShape
{
    public const int Parts = 5;

    private Boxes _boxes;
    private readonly DamperEnvelope _damper;

    public DamperShape(PackagingSpace space, double position, double heave, double roll)
    {
        var (mounts, damper) = (space.Mounts, space.Damper);
        var (sin, cos) = Math.SinCos(roll);
        double zeta = mounts.AxleEndHeight - space.RollCentreHeight;
        double axleY = (position * cos) - (zeta * sin);
        double axleZ = space.RollCentreHeight + heave + (position * sin) + (zeta * cos);
        double bodyY = position + mounts.BodyEndOutboard, bodyZ = mounts.BodyEndHeight;
        double x = mounts.BodyEndForward - mounts.AxleEndForward, y = axleY - bodyY, z = axleZ - bodyZ;
        double inView = Math.Sqrt((y * y) + (z * z));
        LengthInView = inView;
        Length = Math.Sqrt((x * x) + (inView * inView));
        (y, z) = inView > 0 ? (y / inView, z / inView) : (0, -1);
        double foreshortening = inView / Length, ellipse = Math.Abs(x) / Length;
        _damper = damper;

        _boxes[(int)DamperPart.UpperTube] = Tube(bodyY, bodyZ, y, z, damper.UpperLength * foreshortening, damper.UpperDiameter / 2, ellipse);
        _boxes[(int)DamperPart.LowerTube] = Tube(axleY, axleZ, -y, -z, damper.LowerLength * foreshortening, damper.LowerDiameter / 2, ellipse);
        _boxes[(int)DamperPart.Rod] = new OrientedBox((axleY + bodyY) / 2, (axleZ + bodyZ) / 2, y, z, inView / 2, 0);
        _boxes[(int)DamperPart.UpperBush] = new OrientedBox(bodyY, bodyZ, y, z, 0, 0);
        _boxes[(int)DamperPart.LowerBush] = new OrientedBox(axleY, axleZ, y, z, 0, 0);
    }

    /// <summary>Distance between the ends, m.</summary>
    public double Length { get; }

    /// <summary>The same as seen from behind, m.</summary>
    public double LengthInView { get; }

    public OrientedBox this[DamperPart part] => _boxes[(int)part];

    /// <summary>What is added around a part's box: a bush is a disc about a point.</summary>
    public double Radius(DamperPart part) => part switch
    {
        DamperPart.UpperBush => _damper.UpperBush / 2,
        DamperPart.LowerBush => _damper.LowerBush / 2,
        _ => 0,
    };

    /// <summary>Whether a part is fixed to the axle end.</summary>
    public static bool IsAtAxle(DamperPart part) => part is DamperPart.LowerTube or DamperPart.LowerBush;

    private static OrientedBox Tube(double y, double z, double alongY, double alongZ, double length, double radius, double ellipse)
    {
        double half = length / 2;
        return new OrientedBox(y + (half * alongY), z + (half * alongZ), alongY, alongZ, half + (radius * ellipse), radius);
    }

    [InlineArray(Parts)]
    private struct Boxes
    {
        private OrientedBox _first;
    }
}
