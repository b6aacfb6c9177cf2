using System.ComponentModel;
using RollRide.DataFiles;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

[Description("The travel that the suspension is laid out for: heave between rebound and bump, and roll either way.")]
internal sealed record TravelFile
{
    [Key("bump_mm", "travel of both wheels upward from ride height")]
    [Between(0, 1000)]
    public required double BumpMm { get; init; }

    [Key("rebound_mm", "travel of both wheels downward from ride height")]
    [Between(0, 1000)]
    public required double ReboundMm { get; init; }

    [Key("roll_deg", "roll of the wheels against the body, either way")]
    [Between(0, 45)]
    public required double RollDeg { get; init; }

    [Key("combinations", "which combinations of heave and roll count: all; untilStopsTouch: only as far as no bump or rebound stop, left or right, is past its contact; or untilStopsTouchOrTyresLift: of these, only as far as no tyre would have to pull to hold the suspension there against springs and bar")]
    public TravelCombinations Combinations { get; init; } = TravelCombinations.All;
}
