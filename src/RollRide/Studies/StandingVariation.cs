using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Modes;

namespace RollRide.Studies;

/// <summary>A variation as it stands in every load state, and the damper settings that serve it in all of them.</summary>
/// <param name="Cars">The vehicle in each load state.</param>
/// <param name="Window">The window that they share.</param>
internal sealed record StandingVariation(ImmutableArray<AssembledHalfCar> Cars, SettingWindow Window)
{
    /// <summary>The window of a variation in several load states; null where it has none in one of them.</summary>
    /// <param name="states">The case in each load state, at least one.</param>
    /// <param name="variation">Builds the vehicle and the layout as written.</param>
    /// <param name="targets">The damping ratios to be met.</param>
    public static StandingVariation? Of(IEnumerable<StudyCase> states, Func<AssembledHalfCar> variation, DampingTargets targets) => Of(
        () =>
        {
            var written = variation();
            return states.Select(state => state.Stand(written));
        },
        targets);

    /// <summary>
    /// The window of a variation; null where it cannot be built, cannot stand, is unstable, or its axle does not swing in one of the load
    /// states: a linkage locks, or a spring table ends short of the load.
    /// </summary>
    /// <param name="cars">Builds it as it stands in each load state, at least one.</param>
    /// <param name="targets">The damping ratios to be met.</param>
    public static StandingVariation? Of(Func<IEnumerable<AssembledHalfCar>> cars, DampingTargets targets)
    {
        try
        {
            var (standing, windows) = (ImmutableArray.CreateBuilder<AssembledHalfCar>(), new List<SettingWindow>());
            foreach (var car in cars())
            {
                standing.Add(car);
                windows.Add(SettingWindow.Find(car, targets));
            }

            return new(standing.ToImmutable(), SettingWindow.Common(windows));
        }
        catch (Exception e) when (e is ArgumentException or NoRestPositionException or UnstableBodyException or UnnamedModesException)
        {
            return null;
        }
    }

    /// <summary>The steady roll of the body in the state in which it is largest, rad per m/s².</summary>
    public static double RollGradient(IEnumerable<AssembledHalfCar> cars) => cars.Max(car => Math.Abs(FrequencyResponse.SteadyRoll(LinearHalfCar.AtRest(car))));
}
