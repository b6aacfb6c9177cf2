using System.Runtime.CompilerServices;
using RollRide.Mounting;

namespace RollRide.Packaging;

/// <summary>The left damper in the rear view, in the body's frame, at one lateral position, heave and roll.</summary>
/// <remarks>
/// A tube that is inclined fore and aft shows foreshortened, and its flat end as an ellipse; the rectangle around both is taken.
/// </remarks>
internal readonly struct DamperShape
{
    public const int Parts = 5;

    private readonly Boxes _boxes;
    private readonly DamperEnvelope _damper;
    private readonly PlaneVector _axleEnd, _bodyEnd, _along, _rollRate;
    private readonly double _foreshortening, _ellipse;

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
        (_foreshortening, _ellipse) = (inView / Length, Math.Abs(x) / Length);
        (_damper, _axleEnd, _bodyEnd, _along) = (damper, new(axleY, axleZ), new(bodyY, bodyZ), new(y, z));
        _rollRate = (_axleEnd - new PlaneVector(0, space.RollCentreHeight + heave)).Turned;

        _boxes[(int)DamperPart.UpperTube] = Tube(bodyY, bodyZ, y, z, damper.UpperLength * _foreshortening, damper.UpperDiameter / 2, _ellipse);
        _boxes[(int)DamperPart.LowerTube] = Tube(axleY, axleZ, -y, -z, damper.LowerLength * _foreshortening, damper.LowerDiameter / 2, _ellipse);
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

    /// <summary>Derivatives of the length by heave and by roll: <c>∂L = L_view/L · t·∂A</c>.</summary>
    public (double ByHeave, double ByRoll) LengthRates => (_foreshortening * _along.Z, _foreshortening * _along.Dot(_rollRate));

    /// <summary>How fast the damper's line turns, by heave (rad/m) and by roll (rad/rad): <c>t×∂A/L_view</c>.</summary>
    public (double ByHeave, double ByRoll) TurnRates => (_along.Y / LengthInView, _along.Cross(_rollRate) / LengthInView);

    /// <summary>A corner of a part with its derivatives by heave and by roll.</summary>
    public MovingPoint Corner(DamperPart part, int index)
    {
        var heaveRate = new PlaneVector(0, 1);
        switch (part)
        {
            case DamperPart.UpperBush:
            case DamperPart.Rod when index < 2:
                return new MovingPoint(_bodyEnd, default, default);
            case DamperPart.LowerBush or DamperPart.Rod:
                return new MovingPoint(_axleEnd, heaveRate, _rollRate);
        }

        bool upper = part == DamperPart.UpperTube;
        double radius = upper ? _damper.UpperDiameter / 2 : _damper.LowerDiameter / 2;
        double tube = upper ? _damper.UpperLength : _damper.LowerLength;
        bool far = index is 1 or 2;
        double sign = upper ? 1 : -1;
        double along = sign * (far ? (tube * _foreshortening) + (radius * _ellipse) : -radius * _ellipse);
        double across = index < 2 ? -radius : radius;
        var end = upper ? _bodyEnd : _axleEnd;
        var (t, inView, length, ellipse, foreshortening) = (_along, LengthInView, Length, _ellipse, _foreshortening);
        return new MovingPoint(end + (along * t) + (across * t.Turned), Rate(heaveRate), Rate(_rollRate));

        // P = E + s t + w Jt, the line turning at θ' = t×A'/L_view; s through foreshortening L_view/L and ellipse x/L.
        PlaneVector Rate(PlaneVector axleRate)
        {
            double turn = t.Cross(axleRate) / inView, stretch = t.Dot(axleRate) / length;
            double foreshorteningRate = stretch * ellipse * ellipse, ellipseRate = -stretch * ellipse * foreshortening;
            double alongRate = sign * (far ? (tube * foreshorteningRate) + (radius * ellipseRate) : -radius * ellipseRate);
            return (upper ? default : axleRate) + (alongRate * t) + (turn * ((along * t.Turned) - (across * t)));
        }
    }

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
