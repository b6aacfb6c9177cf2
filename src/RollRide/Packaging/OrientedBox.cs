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
        axis = a.Along;
        double gap = double.NegativeInfinity;
        foreach (var side in (ReadOnlySpan<PlaneVector>)[a.Along, a.Along.Turned, b.Along, b.Along.Turned])
        {
            var outward = (side.Dot(b.Centre - a.Centre) < 0 ? -1 : 1) * side;
            double between = Gap(a, b, outward);
            if (between > gap)
                (gap, axis) = (between, outward);
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

    /// <summary>Its centre.</summary>
    public PlaneVector Centre => new(Y, Z);

    /// <summary>The unit vector along it.</summary>
    public PlaneVector Along => new(AlongY, AlongZ);

    /// <summary>Distance of its corners from its centre, m.</summary>
    public double Radius => Math.Sqrt((HalfLength * HalfLength) + (HalfWidth * HalfWidth));

    /// <summary>The gap between two boxes along a unit vector from the one to the other, m; negative where they overlap along it.</summary>
    public static double Gap(in OrientedBox a, in OrientedBox b, PlaneVector axis) => axis.Dot(b.Centre - a.Centre) - a.Reach(axis) - b.Reach(axis);

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

    /// <summary>From the box's nearest point to a point.</summary>
    private PlaneVector To(PlaneVector point)
    {
        var from = point - Centre;
        return (Beyond(from.Dot(Along), HalfLength) * Along) + (Beyond(from.Dot(Along.Turned), HalfWidth) * Along.Turned);
    }

    private static double Beyond(double value, double half) => value - Math.Clamp(value, -half, half);
}
