using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Mounting;
using RollRide.Sweeps;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>What a scenario's own sweep assumes of the dampers' forces, told as a tolerance.</summary>
public static class AssumedTolerances
{
    /// <summary>The share of the dampers made that keeps the tolerance told of a distribution; common practice, no source.</summary>
    public const double Kept = 0.95;

    /// <summary>Reads them.</summary>
    /// <param name="sweep">The sweep; null where there is none. What it says wrongly it says to the commands that sweep: here it says nothing.</param>
    /// <param name="layouts">The layouts.</param>
    /// <returns>By the damper's name; none for dampers of which the sweep gives no distribution of the factor on the force.</returns>
    internal static ImmutableDictionary<string, ForceTolerance> Of(SweepFile? sweep, IEnumerable<DamperLayout> layouts) => sweep is null
        ? ImmutableDictionary<string, ForceTolerance>.Empty
        : (from damper in layouts.SelectMany(layout => new[] { layout.Damper, layout.On(Side.Right).Damper }).Select(damper => damper.Name).Distinct()
           let path = $"{ReadingContext.PathOfEntry("dampers", damper)}.forceScale"
           from parameter in sweep.Parameters
           where parameter.Path == path
           let tolerance = Of(parameter)
           where tolerance is not null
           select KeyValuePair.Create(damper, tolerance)).DistinctBy(pair => pair.Key).ToImmutableDictionary();

    /// <summary>Half of the range around the median that most dampers keep, as a share of the median.</summary>
    /// <param name="factor">The distribution of the factor on the force.</param>
    public static ForceTolerance Of(SweptValues factor)
    {
        ArgumentNullException.ThrowIfNull(factor);
        return new ForceTolerance((factor.Quantile((1 + Kept) / 2) - factor.Quantile((1 - Kept) / 2)) / (2 * factor.Quantile(0.5)));
    }

    private static ForceTolerance? Of(SweepParameterFile parameter)
    {
        try
        {
            var values = SweepPlanReader.ValuesOf(parameter);
            return values.Levels.IsEmpty ? Of(values) : null;
        }
        catch (ArgumentException)
        {
            return null;
        }
    }
}
