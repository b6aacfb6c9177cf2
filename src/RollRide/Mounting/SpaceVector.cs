namespace RollRide.Mounting;

/// <summary>A vector in vehicle axes, m: x forward, y to the left, z upward.</summary>
internal readonly record struct SpaceVector(double X, double Y, double Z)
{
    public double Length => Math.Sqrt(Dot(this));

    public static SpaceVector Of(Point3 point) => new(point.X, point.Y, point.Z);

    public static SpaceVector operator +(SpaceVector a, SpaceVector b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static SpaceVector operator -(SpaceVector a, SpaceVector b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static SpaceVector operator *(double factor, SpaceVector a) => new(factor * a.X, factor * a.Y, factor * a.Z);

    public double Dot(SpaceVector other) => (X * other.X) + (Y * other.Y) + (Z * other.Z);

    public SpaceVector Cross(SpaceVector other) =>
        new((Y * other.Z) - (Z * other.Y), (Z * other.X) - (X * other.Z), (X * other.Y) - (Y * other.X));
}
