using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Live.Answers;

/// <summary>Where the dampers of a layout are drawn, and the paths of the text that a drag changes.</summary>
internal static class MountAnswer
{
    /// <summary>The ends of both dampers as written; null where neither has a place of its own.</summary>
    /// <param name="layout">The layout as written.</param>
    /// <param name="node">The layout in the text.</param>
    public static JsonObject? Of(DamperLayout layout, LocatedNode node)
    {
        var left = OfSide(layout.On(Side.Left).Fitting, node.Find("left")?.Find("placement") ?? node.Find("placement"));
        var right = OfSide(layout.On(Side.Right).Fitting, node.Find("right")?.Find("placement") ?? node.Find("placement"));
        return left is null && right is null ? null : new JsonObject { ["left"] = left, ["right"] = right };
    }

    private static JsonObject? OfSide(IFitting fitting, LocatedNode? placement)
    {
        (JsonArray Axle, JsonArray Body, string Key, string AxleKey, string BodyKey, string Axes)? found = fitting switch
        {
            LiveAxleMountFitting mounts => (Point(mounts.AxleEnd), Point(mounts.BodyEnd), "mounts", "axleEnd_mm", "bodyEnd_mm", "xyz"),
            ArmMountFitting arm => (Point(arm.LowerMount), Point(arm.UpperMount), "arm", "armMount_mm", "bodyMount_mm", "yz"),
            LinkageMountFitting mounts => (Point(mounts.LinkageEnd), Point(mounts.BodyEnd), "onLinkage", "partEnd_mm", "bodyEnd_mm", "xyz"),
            _ => null,
        };
        if (found is not { } ends)
            return null;

        // A damper that packaging places, or that is a strut, has no points in the text.
        var written = placement?.Find(ends.Key)?.Path;
        return new JsonObject
        {
            ["axleEnd_mm"] = ends.Axle,
            ["bodyEnd_mm"] = ends.Body,
            ["axleEndPath"] = written is null ? null : $"{written}.{ends.AxleKey}",
            ["bodyEndPath"] = written is null ? null : $"{written}.{ends.BodyKey}",
            ["axes"] = ends.Axes,
        };
    }

    private static JsonArray Point(Point3 point) => [Drawing.Millimetres(point.X), Drawing.Millimetres(point.Y), Drawing.Millimetres(point.Z)];

    private static JsonArray Point(RearViewPoint point) => [0, Drawing.Millimetres(point.Y), Drawing.Millimetres(point.Z)];
}

/// <summary>Lengths as they are drawn.</summary>
internal static class Drawing
{
    /// <summary>A length in mm, to a thousandth: what rounding adds beyond is no part of it.</summary>
    /// <param name="metres">The length, m.</param>
    public static double Millimetres(double metres) => Math.Round(Unit.Millimetre.Of(metres), 3);

    /// <summary>The corners of an outline in the rear view, y and z in mm.</summary>
    /// <param name="corners">The corners.</param>
    public static JsonArray Outline(IEnumerable<RearViewPoint> corners) => [.. corners.Select(corner => new JsonArray(Millimetres(corner.Y), Millimetres(corner.Z)))];

    /// <summary>A rectangle in the rear view.</summary>
    /// <param name="inner">Its inner face, m.</param>
    /// <param name="outer">Its outer face, m.</param>
    /// <param name="bottom">Its lower face, m.</param>
    /// <param name="top">Its upper face, m.</param>
    public static JsonArray Rectangle(double inner, double outer, double bottom, double top) =>
        Outline([new(inner, bottom), new(outer, bottom), new(outer, top), new(inner, top)]);
}
