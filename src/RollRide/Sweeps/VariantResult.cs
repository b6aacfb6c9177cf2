using System.Collections.Immutable;
using RollRide.Studies;

namespace RollRide.Sweeps;

/// <summary>What came of one variant.</summary>
/// <param name="Variant">The variant, from 0.</param>
/// <param name="Layouts">What came of each layout, in the plan's order.</param>
public sealed record VariantResult(long Variant, ImmutableArray<VariantLayout> Layouts)
{
    /// <summary>Runs some variants in a row, side by side where their equations allow it. A failure is a result too.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="first">The first variant, from 0.</param>
    /// <param name="count">How many.</param>
    /// <param name="cancellation">Stops the runs.</param>
    /// <returns>One result per variant, in order; none depends on how many are run together.</returns>
    public static ImmutableArray<VariantResult> Run(SweepPlan plan, long first, int count, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(plan);
        var cases = new SweptCase[count];
        for (var i = 0; i < count; i++)
            cases[i] = plan.CaseOf(first + i);
        var figures = Comparison.RunFigures(
            [.. cases.Select(made => made.Study).OfType<StudyCase>().SelectMany(study => plan.Layouts.Select(layout => (study, study.Layouts[layout])))],
            cancellation);
        var results = ImmutableArray.CreateBuilder<VariantResult>(count);
        var next = 0;
        for (var i = 0; i < count; i++)
        {
            var layouts = ImmutableArray.CreateBuilder<VariantLayout>(plan.Layouts.Length);
            for (var layout = 0; layout < plan.Layouts.Length; layout++)
            {
                layouts.Add(cases[i].Study is not null
                    ? Outcome(plan, cases[i], figures[next++])
                    : VariantLayout.Failed(cases[i].Refusal!, plan.Metrics.Length));
            }

            results.Add(new VariantResult(first + i, layouts.MoveToImmutable()));
        }

        return results.MoveToImmutable();
    }

    private static VariantLayout Outcome(SweepPlan plan, SweptCase made, (LayoutFigures? Figures, StudyException? Failure) run)
    {
        if (run.Figures is not { } figures)
            return VariantLayout.Failed(run.Failure!.Message, plan.Metrics.Length);
        var outputs = plan.Metrics.Select(metric => metric.Value(figures) ?? double.NaN).ToImmutableArray();
        var endless = outputs.AsSpan().IndexOfAny(double.PositiveInfinity, double.NegativeInfinity);
        return endless < 0
            ? new VariantLayout(null, made.CountWarnings(figures), outputs)
            : VariantLayout.Failed($"{plan.Metrics[endless].Key} is infinite", plan.Metrics.Length);
    }
}

/// <summary>What came of one layout of a variant.</summary>
/// <param name="Failure">Why there are no outputs; null where there are.</param>
/// <param name="Warnings">Number of warnings, of the scenario, of where the vehicle stands under its load, and of the run.</param>
/// <param name="Outputs">The metrics in the plan's order; NaN where one is not defined.</param>
public sealed record VariantLayout(string? Failure, int Warnings, ImmutableArray<double> Outputs)
{
    internal static VariantLayout Failed(string reason, int metrics) => new(reason, 0, [.. Enumerable.Repeat(double.NaN, metrics)]);
}
