using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>A variation as it stands in every state of load and dampers, and the damper settings that serve it in all of them.</summary>
/// <param name="Cars">The vehicle in each state.</param>
/// <param name="Settings">What its dampers give in each state.</param>
/// <param name="Window">The window that they share, in coefficients of the first state.</param>
internal sealed record StandingVariation(ImmutableArray<AssembledHalfCar> Cars, ImmutableArray<DamperSetting> Settings, SettingWindow Window)
{
    /// <summary>The window of a variation in several states; null where it <see cref="IsImpossible">is impossible</see> in one of them.</summary>
    /// <param name="states">The case in each load state, at least one.</param>
    /// <param name="variation">Builds the vehicle and the layout as written.</param>
    /// <param name="targets">The damping ratios to be met.</param>
    public static StandingVariation? Of(IReadOnlyList<StudyCase> states, Func<AssembledHalfCar> variation, DampingTargets targets)
    {
        try
        {
            var written = variation();
            ImmutableArray<AssembledHalfCar> cars = [.. states.Select(state => state.Stand(written))];
            ImmutableArray<DamperSetting> settings = [.. cars.Select((car, i) => DamperSetting.Of(car.Layout, targets.Velocity, states[i].Analysis.IncludeFriction))];

            // Dampers in another state stand where the others do, and the modes know their coefficient only: one search does for all of them.
            var windows = new Dictionary<(LoadState?, (double, double)), SettingWindow>();
            return new(cars, settings, SettingWindow.Common([.. cars.Select((car, i) =>
            {
                var same = (states[i].Load?.Weights, car.Layout.SideShares(targets.Velocity));
                if (!windows.TryGetValue(same, out var window))
                    windows[same] = window = SettingWindow.Find(car, targets);
                return settings[i].WindowIn(window, settings[0]);
            })]));
        }
        catch (Exception e) when (IsImpossible(e))
        {
            return null;
        }
    }

    /// <summary>The same with the window that serves the whole vehicle too; null where that is impossible in one of the states.</summary>
    /// <param name="targets">The damping ratios to be met.</param>
    /// <param name="includeFriction">Whether friction counts in the coefficients.</param>
    public StandingVariation? WithVehicle(DampingTargets targets, bool includeFriction)
    {
        try
        {
            return this with { Window = SettingWindow.Common([Window, .. Cars.Zip(Settings, (car, setting) => setting.WindowIn(SettingWindow.OnVehicle(car, targets, includeFriction), Settings[0]))]) };
        }
        catch (Exception e) when (IsImpossible(e))
        {
            return null;
        }
    }

    /// <summary>
    /// Whether an exception says that a variation cannot be built, cannot stand, is unstable, or its axle does not swing: a linkage locks, or a spring table
    /// ends short of the load.
    /// </summary>
    public static bool IsImpossible(Exception e) => e is ArgumentException or NoRestPositionException or UnstableBodyException or UnnamedModesException;

    /// <summary>The steady roll of the body in the state in which it is largest, rad per m/s².</summary>
    public static double RollGradient(IEnumerable<AssembledHalfCar> cars) => cars.Max(car => Math.Abs(FrequencyResponse.SteadyRoll(LinearHalfCar.AtRest(car))));
}
