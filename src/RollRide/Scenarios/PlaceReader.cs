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
            // What was placed fits.
            if (layouts[i] is { } layout && context.File.Layouts[i].Placement.Mounts is not null && PlaceCheck.Of(space, layout, context.Cancellation) is { Fits: false } place)
                context.Warn($"layouts[{i}].placement.mounts", $"the damper cannot work where it is drawn: {string.Join("; ", place.InTheWay.Select(contact => contact.Words))}; rollride place shows where it fits");
        }
    }
}
