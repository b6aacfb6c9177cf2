using System.Collections.Immutable;
using RollRide.Mounting;

namespace RollRide.Packaging;

/// <summary>Outlines of the left side in the rear view, in the body's frame, for drawings.</summary>
public static class RearViewOutline
{
    /// <summary>The damper: upper tube, lower tube and the line between the ends, each as its corners.</summary>
    /// <param name="space">What stands where.</param>
    /// <param name="position">Lateral position of the axle end, m.</param>
    /// <param name="heave">Relative heave, m.</param>
    /// <param name="roll">Relative roll, rad.</param>
    public static ImmutableArray<ImmutableArray<RearViewPoint>> Damper(PackagingSpace space, double position, double heave, double roll)
    {
        ArgumentNullException.ThrowIfNull(space);
        var shape = new DamperShape(space, position, heave, roll);
        return [.. new[] { DamperPart.UpperTube, DamperPart.LowerTube, DamperPart.Rod }.Select(part => Corners(shape[part]))];
    }

    /// <summary>A keep-out.</summary>
    /// <param name="space">What stands where.</param>
    /// <param name="keepOut">The keep-out.</param>
    /// <param name="heave">Relative heave, m.</param>
    /// <param name="roll">Relative roll, rad.</param>
    public static ImmutableArray<RearViewPoint> Of(PackagingSpace space, KeepOut keepOut, double heave, double roll)
    {
        ArgumentNullException.ThrowIfNull(space);
        ArgumentNullException.ThrowIfNull(keepOut);
        return Corners(new Scene(space, 0, heave, roll).Place(keepOut));
    }

    private static ImmutableArray<RearViewPoint> Corners(OrientedBox box) =>
        [.. Enumerable.Range(0, 4).Select(box.Corner).Select(corner => new RearViewPoint(corner.Y, corner.Z))];
}
