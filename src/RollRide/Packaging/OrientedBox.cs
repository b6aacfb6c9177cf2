namespace RollRide.Packaging;

/// <summary>A rectangle in the rear view, turned: its centre, the unit vector along it, and half its length and width. A line or a point are thin ones.</summary>
internal readonly record struct OrientedBox(double Y, double Z, double AlongY, double AlongZ, double HalfLength, double HalfWidth)
{
    /// <summary>
    /// Distance between two boxes, m; where they overlap, minus the depth: the shortest way to part them. The distance changes by
    /// no more than the boxes' points move.
    /// </summary>
    public static double Distance(in OrientedBox a, in OrientedBox b)
    {
        // Two convex bodies are apart if and only if a line square to one of their edges shows a gap (separating axis theorem);
        // the largest overlap's negative is the depth.
        double gap = Math.Max(
            Math.Max(Gap(a, b, a.AlongY, a.AlongZ), Gap(a, b, -a.AlongZ, a.AlongY)),
            Math.Max(Gap(a, b, b.AlongY, b.AlongZ), Gap(a, b, -b.AlongZ, b.AlongY)));
        if (gap <= 0)
            return gap;

        // Apart, the shortest line between two polygons ends in a corner of one of them.
        double nearest = double.PositiveInfinity;
        for (int corner = 0; corner < 4; corner++)
        {
            nearest = Math.Min(nearest, a.SquareTo(b.Corner(corner)));
            nearest = Math.Min(nearest, b.SquareTo(a.Corner(corner)));
        }

        return Math.Sqrt(nearest);
    }

    /// <summary>The corners, one after the other around the box.</summary>
    public (double Y, double Z) Corner(int index)
    {
        double along = index is 0 or 3 ? -HalfLength : HalfLength;
        double across = index < 2 ? -HalfWidth : HalfWidth;
        return (Y + (along * AlongY) - (across * AlongZ), Z + (along * AlongZ) + (across * AlongY));
    }

    private static double Gap(in OrientedBox a, in OrientedBox b, double y, double z) =>
        Math.Abs(((b.Y - a.Y) * y) + ((b.Z - a.Z) * z)) - a.Reach(y, z) - b.Reach(y, z);

    /// <summary>Half the box's extent along a unit vector.</summary>
    private double Reach(double y, double z) =>
        (HalfLength * Math.Abs((AlongY * y) + (AlongZ * z))) + (HalfWidth * Math.Abs((AlongY * z) - (AlongZ * y)));

    private double SquareTo((double Y, double Z) point)
    {
        double y = point.Y - Y, z = point.Z - Z;
        double along = Math.Max(0, Math.Abs((y * AlongY) + (z * AlongZ)) - HalfLength);
        double across = Math.Max(0, Math.Abs((z * AlongY) - (y * AlongZ)) - HalfWidth);
        return (along * along) + (across * across);
    }
}
