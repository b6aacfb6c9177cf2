using System.Collections.Immutable;
using RollRide.Modes;
using RollRide.Roads;

namespace RollRide.Studies;

/// <summary>A layout on a random road as the linearised vehicle sees it, beside what was simulated.</summary>
/// <param name="Simulated">What was simulated; its ride was measured.</param>
/// <param name="DamperCoefficient">The coefficient that stands for the damper on this road, N·s/m.</param>
/// <param name="OnRoad">Root mean squares on this road, by integrating spectra.</param>
/// <param name="OnWhiteRoad">
/// Root mean squares on a white road velocity of the same roughness, all wavelengths and a point of contact, between tracks that are
/// unrelated and the same (Lyapunov's equation); empty where the road is not near such a one.
/// </param>
public sealed record LinearReference(LayoutResult Simulated, double DamperCoefficient, LinearRideResponse OnRoad, ImmutableArray<LinearRideResponse> OnWhiteRoad)
{
    /// <summary>Whether a road is near a white road velocity: only one with all the wavelengths that matter is.</summary>
    /// <param name="road">The road.</param>
    public static bool IsNearWhite(RandomRoad road)
    {
        ArgumentNullException.ThrowIfNull(road);
        return road.Spectrum is
        {
            Waviness: 2, BreakWavenumber: null,
            LowestWavenumber: <= RoadClasses.LowestWavenumber,
            HighestWavenumber: >= RoadClasses.HighestWavenumber,
        };
    }

    /// <summary>The references of all layouts.</summary>
    /// <param name="result">What was simulated, on a random road and with a ride before the corner.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="StudyException">A damper has no coefficient on this road.</exception>
    public static ImmutableArray<LinearReference> Of(ComparisonResult result, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(result);
        var road = result.Study.Manoeuvre.Road;
        return [.. result.Layouts.Select(layout =>
        {
            cancellation.ThrowIfCancellationRequested();
            return Of(result.Study, layout, road.Unevenness!, road.Speed);
        })];
    }

    private static LinearReference Of(StudyCase study, LayoutResult layout, RandomRoad road, double speed)
    {
        try
        {
            var (coefficient, shares, onRoad) = StatisticalLinearisation.OnRoad(layout.Car, road, speed);
            var intensity = road.Spectrum.VelocityIntensity(speed);
            var model = new RandomResponse(layout.Car, coefficient, shares);
            return new LinearReference(
                layout, coefficient, onRoad, IsNearWhite(road) ? [model.OnWhiteVelocity(intensity, 0), model.OnWhiteVelocity(intensity, 1)] : []);
        }
        catch (InvalidOperationException e)
        {
            throw new StudyException(layout.Name, e, study.Load?.Name);
        }
    }
}
