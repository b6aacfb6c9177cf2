namespace RollRide.Mounting;

/// <summary>A vector in the rear view, m: y to the left, z upward. Turning is positive from y to z.</summary>
internal readonly record struct PlaneVector(double Y, double Z)
{
    public double Length => Math.Sqrt((Y * Y) + (Z * Z));

    /// <summary>The vector turned by a right angle: the velocity of its tip at unit rate of turn.</summary>
    public PlaneVector Turned => new(-Z, Y);

    public static PlaneVector Of(RearViewPoint point) => new(point.Y, point.Z);

    public static PlaneVector operator +(PlaneVector a, PlaneVector b) => new(a.Y + b.Y, a.Z + b.Z);

    public static PlaneVector operator -(PlaneVector a, PlaneVector b) => new(a.Y - b.Y, a.Z - b.Z);

    public static PlaneVector operator *(double factor, PlaneVector a) => new(factor * a.Y, factor * a.Z);

    public double Dot(PlaneVector other) => (Y * other.Y) + (Z * other.Z);

    /// <summary>The sine of the angle from this vector to another, times both lengths.</summary>
    public double Cross(PlaneVector other) => (Y * other.Z) - (Z * other.Y);

    public PlaneVector Rotate(double sin, double cos) => new((cos * Y) - (sin * Z), (sin * Y) + (cos * Z));
}
