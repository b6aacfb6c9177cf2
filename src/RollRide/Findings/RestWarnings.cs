using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Findings;

/// <summary>What a reader must know about where a loaded vehicle stands.</summary>
public static class RestWarnings
{
    /// <summary>Less clearance than this, m, is used up by any road; common practice, no source.</summary>
    private const double LittleClearance = 0.010;

    /// <summary>A lean at rest beyond this, rad, is worth a word; common practice, no source.</summary>
    private static readonly double LargeLean = 2 * Unit.Degree.InSi;

    /// <summary>Finds the warnings of a vehicle at rest under a load: of the axle that the layouts are for, and of the other one where it is loaded too.</summary>
    /// <param name="loaded">The vehicle, its layout and the load.</param>
    public static ImmutableArray<string> Of(LoadedHalfCar loaded)
    {
        ArgumentNullException.ThrowIfNull(loaded);
        var state = $"Under load state “{loaded.Load.Name}”";
        return
        [
            .. Of(loaded, $"{state} with layout “{loaded.Car.Layout.Name}”", "vehicle.travel"),
            .. loaded.Second is null ? [] : Of(loaded.Second, $"{state} on the {VehicleConclusions.OtherAxle(loaded.Car.Vehicle)}", "the travel given for that axle"),
        ];
    }

    private static List<string> Of(LoadedHalfCar loaded, string where, string travelName)
    {
        var warnings = new List<string>();
        void Warn(FormattableString text) => warnings.Add($"{where} {FormattableString.Invariant(text)}");

        void Look(StopAtRest? stop, string side, string name)
        {
            if (stop is null)
                return;
            if (stop.Compression > 0)
                Warn(side.Length == 0
                    ? $"the {name} stops touch at rest: each is compressed by {Unit.Millimetre.Show(stop.Compression):F1} and carries {stop.Force:F0} N. The ride begins on the stops."
                    : (FormattableString)$"the {side} {name} stop touches at rest: it is compressed by {Unit.Millimetre.Show(stop.Compression):F1} and carries {stop.Force:F0} N. The ride begins on the stop.");
            else if (stop.Clearance < LittleClearance)
                Warn($"only {Unit.Millimetre.Show(stop.Clearance):F1} are left at rest until the {(side.Length == 0 ? $"{name} stops touch" : $"{side} {name} stop touches")}. Any road uses that up.");
        }

        var rest = loaded.Rest;
        foreach (var (name, side) in rest.Sides)
        {
            Look(side.BumpStop, name, "bump");
            Look(side.ReboundStop, name, "rebound");
            if (side.Spring.Force < 0)
                Warn($"{(name.Length == 0 ? "the springs pull" : $"the {name} spring pulls")} with {-side.Spring.Force:F0} N at rest: gas and stops lift more than the body weighs. Loose springs would come off their seats.");
        }

        if (Math.Abs(rest.BodyRoll) > LargeLean)
            Warn($"the body leans by {Unit.Degree.Show(Math.Abs(rest.BodyRoll)):F2} to the {(rest.BodyRoll > 0 ? "right" : "left")} at rest. More than {Unit.Degree.Show(LargeLean):F0} is seen from outside, and takes travel from that side.");
        if (loaded.Car.Vehicle.Travel is { } travel && Math.Min(travel.Bump, travel.Rebound) < 0)
            Warn($"the vehicle stands {Unit.Millimetre.Show(-Math.Min(travel.Bump, travel.Rebound)):F1} beyond the end of {travelName} in {(travel.Bump < 0 ? "bump" : "rebound")}.");
        return warnings;
    }
}
