using RollRide.Numerics;
using RollRide.Vehicle;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>The travel looked at, as every command says it.</summary>
public static class TravelWords
{
    /// <summary>How far it goes, and which combinations count.</summary>
    /// <param name="travel">The travel.</param>
    public static string Of(TravelEnvelope travel)
    {
        ArgumentNullException.ThrowIfNull(travel);
        var toEitherSide = travel.LeastRoll is { } least
            ? Invariant($", with the same roll to either side: the sides, which differ, leave {Unit.Degree.Show(travel.MostArticulated.Roll):F2} one way and {Unit.Degree.Show(least):F2} the other, and more travel is looked at than can be reached")
            : "";
        return $"{Range(travel)}, {Combinations(travel)}{toEitherSide}";
    }

    /// <summary>How far it goes.</summary>
    /// <param name="travel">The travel.</param>
    public static string Range(TravelEnvelope travel)
    {
        ArgumentNullException.ThrowIfNull(travel);
        return Invariant($"{Unit.Millimetre.Show(travel.Range.Bump):F1} bump, {Unit.Millimetre.Show(travel.Range.Rebound):F1} rebound, {Unit.Degree.Show(travel.Range.Roll):F2} roll");
    }

    private static string Combinations(TravelEnvelope travel) =>
        travel.Range.Combinations == TravelCombinations.All ? "every combination of heave and roll"
        : travel.Range.Combinations == TravelCombinations.UntilStopsTouch ? "as the stops allow"
        : "as stops and tyres allow";
}
