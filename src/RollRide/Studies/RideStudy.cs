using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>
/// Runs every layout over the same random roads, one a seed. All layouts meet the same roads, so their differences are not chance.
/// </summary>
public static class RideStudy
{
    /// <summary>Runs all layouts over all seeds, in parallel; the result does not depend on the number of cores.</summary>
    /// <param name="study">The case; its road has an unevenness.</param>
    /// <param name="seeds">Number of seeds, counted up from the scenario's; 2 or more.</param>
    /// <param name="progress">Is told the number of runs finished, of layouts times seeds.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <exception cref="ArgumentException">The road is not random, the manoeuvre leaves no ride to measure, or there are fewer than two seeds.</exception>
    /// <exception cref="StudyException">Runs could not be finished; the message names layout and seed of each.</exception>
    public static ImmutableArray<SeededRuns> Run(
        StudyCase study, int seeds, IProgress<int>? progress = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentOutOfRangeException.ThrowIfLessThan(seeds, 2);
        var random = study.Manoeuvre.Road.Unevenness
            ?? throw new ArgumentException("The road of this case is not random: seeds make no difference.", nameof(study));
        if (RideRecorder.MeasuredSpan(study.Manoeuvre) is null)
            throw new ArgumentException("This case leaves no ride to measure: it corners or ends before the ride has settled.", nameof(study));
        var runs = SideBySide.Run(
            study.Layouts.Length * seeds,
            i =>
            {
                var seed = unchecked(random.Seed + (i % seeds));
                var road = study.Manoeuvre.Road with { Unevenness = random with { Seed = seed } };
                return RunOne(study, study.Layouts[i / seeds], study.Manoeuvre with { Road = road }, seed, cancellation);
            },
            progress,
            cancellation);
        return [.. study.Layouts.Select((layout, l) => new SeededRuns(layout.Name, [.. runs.Skip(l * seeds).Take(seeds)]))];
    }

    private static SeededRun RunOne(StudyCase study, Vehicle.DamperLayout layout, Manoeuvre manoeuvre, int seed, CancellationToken cancellation)
    {
        try
        {
            var car = study.Assemble(layout);
            return Of(car) with { Mirrored = car.HasUnlikeSides ? Of(car.Mirrored()) : null };
        }
        catch (Exception e) when (e is IntegrationException or NoEquilibriumException or Mounting.UnreachableTravelException)
        {
            var load = study.Load is { Name: var name } ? $" in load state “{name}”" : "";
            throw StudyException.At(FormattableString.Invariant($"Layout “{layout.Name}”{load}, seed {seed}"), e, layout.Name);
        }

        SeededRun Of(AssembledHalfCar car)
        {
            var run = new MeasuredRun(car, manoeuvre, study.Solver, withCorner: false).Make(cancellation);

            // Thousands of runs are held: their spectra, by far the largest part of each, are not looked at.
            return new SeededRun(seed, run.Metrics, run.Ride! with { BodyAccelerationDensity = null, LoadDensity = null });
        }
    }
}
