using System.Collections.Immutable;
using RollRide.Packaging;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Says what cannot be where a file draws it: a damper with mounts, or a part of the axle that runs into the body.</summary>
internal static class PlaceReader
{
    /// <summary>Warns of everything in the way; null stands in the place of a layout with a fault.</summary>
    public static void WarnOfWhatIsInTheWay(ReadingContext context, PackagingSpace space, ImmutableArray<DamperLayout?> layouts)
    {
        foreach (var contact in PlaceCheck.OfRooms(space, context.Cancellation))
            context.Warn(contact.Name == PackagingReader.Tyre ? "packaging.tyre" : ReadingContext.PathOfEntry("packaging.onAxle", contact.Name!), $"seen from behind this runs into what is fixed to the body: {contact.Words}; one of them is not where it is drawn, unless they stand apart along the vehicle");
        for (int i = 0; i < layouts.Length; i++)
        {
            if (layouts[i] is { } layout)
                Warn(context, i, "", PlaceCheck.Of(space, layout, context.Cancellation));
        }
    }

    /// <summary>Warns of dampers that can work where they are drawn at the design load, but not in a load state.</summary>
    public static void WarnOfLoads(ReadingContext context, StudyCase study)
    {
        foreach (var layout in study.Layouts)
        {
            if (study.Placement is not { Space: { } space } || PlaceCheck.Of(space, layout, context.Cancellation) is not { Fits: true })
                continue;
            int index = context.File.Layouts.TakeWhile(file => file.Name != layout.Name).Count();
            foreach (var loaded in study.InEachLoad.Where(loaded => loaded.Load is not null))
                Warn(context, index, $"in load state “{loaded.Load!.Name}” ", PlaceCheck.Of(loaded.Room(layout)!, loaded.InRoom(layout), context.Cancellation));
        }
    }

    private static void Warn(ReadingContext context, int index, string when, DrawnPlace? place)
    {
        // What was placed fits.
        if (place is { Fits: false } && context.File.Layouts[index].Placement.Mounts is not null)
            context.Warn($"layouts[{index}].placement.mounts", $"{when}the damper cannot work where it is drawn: {string.Join("; ", place.InTheWay.Select(contact => contact.Words))}; rollride place shows where it fits");
    }
}
