using System.Collections.Immutable;
using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Sweeps;

/// <summary>What came of one variant.</summary>
/// <param name="Variant">The variant, from 0.</param>
/// <param name="Layouts">What came of each layout, in the plan's order.</param>
public sealed record VariantResult(long Variant, ImmutableArray<VariantLayout> Layouts)
{
    /// <summary>Runs a variant. A failure is a result too.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="variant">The variant, from 0.</param>
    /// <param name="cancellation">Stops the run.</param>
    public static VariantResult Run(SweepPlan plan, long variant, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        try
        {
            var scenario = plan.ScenarioOf(variant);
            return new VariantResult(variant, [.. plan.Layouts.Select(layout => RunLayout(plan, scenario, layout, cancellation))]);
        }
        catch (DataFileException e)
        {
            // Without its folder, so that the rows do not depend on where the scenario lies.
            var reason = string.Join("; ", e.Faults.Select(fault => fault with { File = Path.GetFileName(fault.File) }));
            return new VariantResult(variant, [.. plan.Layouts.Select(_ => VariantLayout.Failed(reason, plan.Metrics.Length))]);
        }
    }

    private static VariantLayout RunLayout(SweepPlan plan, Scenario scenario, int layout, CancellationToken cancellation)
    {
        try
        {
            var figures = Comparison.RunFigures(scenario.Study, scenario.Study.Layouts[layout], cancellation);
            var outputs = plan.Metrics.Select(metric => metric.Value(figures) ?? double.NaN).ToImmutableArray();
            var endless = plan.Metrics.Zip(outputs).FirstOrDefault(pair => double.IsInfinity(pair.Second)).First;
            return endless is null
                ? new VariantLayout(null, scenario.Warnings.Length + figures.Warnings.Length, outputs)
                : VariantLayout.Failed($"{endless.Key} is infinite", plan.Metrics.Length);
        }
        catch (StudyException e)
        {
            return VariantLayout.Failed(e.Message, plan.Metrics.Length);
        }
    }
}

/// <summary>What came of one layout of a variant.</summary>
/// <param name="Failure">Why there are no outputs; null where there are.</param>
/// <param name="Warnings">Number of warnings, of the scenario and of the run.</param>
/// <param name="Outputs">The metrics in the plan's order; NaN where one is not defined.</param>
public sealed record VariantLayout(string? Failure, int Warnings, ImmutableArray<double> Outputs)
{
    internal static VariantLayout Failed(string reason, int metrics) => new(reason, 0, [.. Enumerable.Repeat(double.NaN, metrics)]);
}
