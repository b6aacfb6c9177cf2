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
    /// <param name="axis">The unit vector from the one to the other along which the distance lies.</param>
    public static double Distance(in OrientedBox a, in OrientedBox b, out PlaneVector axis)
    {
        // Two convex bodies are apart if and only if a line square to one of their edges shows a gap (separating axis theorem);
        // the largest overlap's negative is the depth.
        PlaneVector alongA = new(a.AlongY, a.AlongZ), alongB = new(b.AlongY, b.AlongZ);
        axis = alongA;
        double gap = double.NegativeInfinity;
        foreach (var candidate in (ReadOnlySpan<PlaneVector>)[alongA, alongA.Turned, alongB, alongB.Turned])
        {
            double offset = candidate.Dot(new PlaneVector(b.Y - a.Y, b.Z - a.Z));
            double between = Math.Abs(offset) - a.Reach(candidate) - b.Reach(candidate);
            if (between > gap)
                (gap, axis) = (between, (offset < 0 ? -1 : 1) * candidate);
        }

        if (gap <= 0)
            return gap;

        // Apart, the shortest line between two polygons ends in a corner of one of them.
        double nearest = double.PositiveInfinity;
        PlaneVector shortest = default;
        for (int corner = 0; corner < 4; corner++)
        {
            var fromA = a.To(b.Corner(corner));
            if (fromA.Dot(fromA) < nearest)
                (nearest, shortest) = (fromA.Dot(fromA), fromA);
            var fromB = b.To(a.Corner(corner));
            if (fromB.Dot(fromB) < nearest)
                (nearest, shortest) = (fromB.Dot(fromB), -1.0 * fromB);
        }

        double distance = Math.Sqrt(nearest);
        axis = (1 / distance) * shortest;
        return distance;
    }

    /// <summary>The corners, one after the other around the box.</summary>
    public PlaneVector Corner(int index)
    {
        double along = index is 0 or 3 ? -HalfLength : HalfLength;
        double across = index < 2 ? -HalfWidth : HalfWidth;
        return new PlaneVector(Y + (along * AlongY) - (across * AlongZ), Z + (along * AlongZ) + (across * AlongY));
    }

    /// <summary>Half the box's extent along a unit vector.</summary>
    private double Reach(PlaneVector u) =>
        (HalfLength * Math.Abs((AlongY * u.Y) + (AlongZ * u.Z))) + (HalfWidth * Math.Abs((AlongY * u.Z) - (AlongZ * u.Y)));

    /// <summary>From the box's nearest point to a point.</summary>
    private PlaneVector To(PlaneVector point)
    {
        PlaneVector along = new(AlongY, AlongZ), from = point - new PlaneVector(Y, Z);
        return (Beyond(from.Dot(along), HalfLength) * along) + (Beyond(from.Dot(along.Turned), HalfWidth) * along.Turned);
    }

    private static double Beyond(double value, double half) => value - Math.Clamp(value, -half, half);
}
