using RollRide.Mounting;

namespace RollRide.Packaging;

/// <summary>A rectangle in the rear view, turned: its centre, the unit vector along it, and half its length and width. A line or a point are thin ones.</summary>
internal readonly record struct OrientedBox(double Y, double Z, double AlongY, double AlongZ, double HalfLength, double HalfWidth)
{
    /// <summary>
    /// Distance between two boxes, m; where they overlap, minus the depth: the shortest way to part them. The distance changes by
    /// no more than the boxes' points move.
    /// </summary>
    /// <param name="a">One box.</param>
    /// <param name="b">The other.</param>
    public static double Distance(in OrientedBox a, in OrientedBox b)
    {
        // Two convex bodies are apart if and only if a line square to one of their edges shows a gap (separating axis theorem);
        // the largest overlap's negative is the depth.
        double gap = double.NegativeInfinity;
        foreach (var side in (ReadOnlySpan<PlaneVector>)[a.Along, a.Along.Turned, b.Along, b.Along.Turned])
            gap = Math.Max(gap, Math.Abs(side.Dot(b.Centre - a.Centre)) - a.Reach(side) - b.Reach(side));
        if (gap <= 0)
            return gap;

        // Apart, the shortest line between two polygons ends in a corner of one of them.
        double nearest = double.PositiveInfinity;
        for (int corner = 0; corner < 4; corner++)
            nearest = Math.Min(nearest, Math.Min(a.SquareTo(b.Corner(corner)), b.SquareTo(a.Corner(corner))));
        return Math.Sqrt(nearest);
    }

    /// <summary>Its centre.</summary>
    public PlaneVector Centre => new(Y, Z);

    /// <summary>The unit vector along it.</summary>
    public PlaneVector Along => new(AlongY, AlongZ);

    /// <summary>The corners, one after the other around the box.</summary>
    public PlaneVector Corner(int index)
    {
        double along = index is 0 or 3 ? -HalfLength : HalfLength;
        double across = index < 2 ? -HalfWidth : HalfWidth;
        return new PlaneVector(Y + (along * AlongY) - (across * AlongZ), Z + (along * AlongZ) + (across * AlongY));
    }

    /// <summary>Half the box's extent along a unit vector.</summary>
    private double Reach(PlaneVector u) =>
        (HalfLength * Math.Abs(Along.Dot(u))) + (HalfWidth * Math.Abs(Along.Cross(u)));

    /// <summary>Square of the distance to a point, m².</summary>
    private double SquareTo(PlaneVector point)
    {
        var from = point - Centre;
        double along = Beyond(from.Dot(Along), HalfLength), across = Beyond(from.Dot(Along.Turned), HalfWidth);
        return (along * along) + (across * across);
    }

    private static double Beyond(double value, double half) => value - Math.Clamp(value, -half, half);
}
