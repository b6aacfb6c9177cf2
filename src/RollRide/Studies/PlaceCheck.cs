using System.Collections.Immutable;
using RollRide.Mounting;
using RollRide.Packaging;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Checks layouts as they are drawn against the room around them, over the whole travel.</summary>
public static class PlaceCheck
{
    /// <summary>Checks a layout: its own mounts and lengths, with the tubes and bushes that packaging gives.</summary>
    /// <param name="space">The room around the dampers.</param>
    /// <param name="layout">The layout.</param>
    /// <param name="cancellation">Stops the check.</param>
    /// <returns>Null where the layout has no mounts on a live axle, and so no place to check.</returns>
    public static DrawnPlace? Of(PackagingSpace space, DamperLayout layout, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(space);
        ArgumentNullException.ThrowIfNull(layout);

        // Of sides that differ, the one that does not fit.
        DrawnPlace?[] places = [.. layout.Places.Select(place => Of(space, layout.On(place.Side), cancellation))];
        return places.FirstOrDefault(place => place is { Fits: false }) ?? places[0];
    }

    /// <summary>Checks a layout of a case where it stands in the case's load state.</summary>
    /// <param name="study">The case, as it stands.</param>
    /// <param name="layout">The layout as written.</param>
    /// <param name="cancellation">Stops the check.</param>
    /// <returns>Null where the case gives no room, or the layout no place to check.</returns>
    public static DrawnPlace? Of(StudyCase study, DamperLayout layout, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        return study.Room(layout) is { } room ? Of(room, study.InRoom(layout), cancellation) : null;
    }

    /// <summary>What a layout that fits no longer keeps its clearance to when its dampers sit a little farther out or in, the worst; null where it keeps all, or has no place to check.</summary>
    /// <param name="study">The case, as it stands.</param>
    /// <param name="layout">The layout as written.</param>
    /// <param name="shift">How far either way, m.</param>
    /// <param name="cancellation">Stops the check.</param>
    public static Contact? InTheWayBeside(StudyCase study, DamperLayout layout, double shift, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        if (study.Room(layout) is not { } space)
            return null;
        var there = study.InRoom(layout);
        return (from place in there.Places
                let side = there.On(place.Side)
                let around = space.Around(side)
                where around is not null && side.Fitting is LiveAxleMountFitting
                from way in new[] { 1, -1 }
                from contact in FitCheck.Broken(around, ((LiveAxleMountFitting)side.Fitting).AxleEnd.Y + (way * shift), cancellation)
                select contact).MinBy(contact => contact.Margin);
    }

    /// <summary>Checks the damper of one side.</summary>
    /// <param name="space">The room around the dampers.</param>
    /// <param name="side">The side; a right one is looked at in the mirror.</param>
    /// <param name="cancellation">Stops the check.</param>
    internal static DrawnPlace? Of(PackagingSpace space, DamperSide side, CancellationToken cancellation) =>
        side.Fitting is LiveAxleMountFitting fitting && space.Around(side) is { } around
            ? new DrawnPlace(fitting.AxleEnd.Y, fitting.BodyEnd.Y, FitCheck.Broken(around, fitting.AxleEnd.Y, cancellation))
            : null;

    /// <summary>What moves with the axle and runs into what is fixed to the body, the deepest first.</summary>
    /// <param name="space">The room around the dampers.</param>
    /// <param name="cancellation">Stops the check.</param>
    public static ImmutableArray<Contact> OfRooms(PackagingSpace space, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(space);
        return FitCheck.BrokenByRooms(space, cancellation);
    }
}

/// <summary>The place of a damper as it is drawn.</summary>
/// <param name="AxleEnd">Lateral position of the damper's axle end, m, seen as on the left.</param>
/// <param name="BodyEnd">Lateral position of its body end, m.</param>
/// <param name="InTheWay">What does not keep its clearance over the whole travel, the worst first; none where the damper fits.</param>
public sealed record DrawnPlace(double AxleEnd, double BodyEnd, ImmutableArray<Contact> InTheWay)
{
    /// <summary>Whether everything keeps its clearance.</summary>
    public bool Fits => InTheWay.IsEmpty;
}
