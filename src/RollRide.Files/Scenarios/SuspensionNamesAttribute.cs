using RollRide.DataFiles;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>The kinds of suspension by their names in a file. A new kind is listed here, and nowhere else.</summary>
internal sealed class SuspensionNamesAttribute : NamesAttribute
{
    private static readonly IReadOnlyList<NamedValue> Listed =
    [
        Of("liveAxle", new LiveAxleSuspension()),
        Of("independent", new IndependentSuspension()),
    ];

    internal override IReadOnlyList<NamedValue> Values => Listed;

    private static NamedValue Of(string name, Suspension suspension) => new(name, suspension.Meaning, suspension);
}
