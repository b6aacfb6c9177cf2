using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>What a whole sweep found, taken from its table.</summary>
public sealed class SweepAnalysis
{
    // Numbers held at once while the statistics are taken: 64 MB.
    internal const long MostNumbersAtOnce = 8_000_000;

    private readonly double[][] _shown;

    private SweepAnalysis(SweepPlan plan, ImmutableArray<SweepGroup> groups, double[][] shown) => (Plan, Groups, _shown) = (plan, groups, shown);

    /// <summary>The plan.</summary>
    public SweepPlan Plan { get; }

    /// <summary>What was found, load state by load state, in each layout by layout.</summary>
    public ImmutableArray<SweepGroup> Groups { get; }

    /// <summary>The group of a layout in a load state.</summary>
    /// <param name="state">Place of the load state; 0 where none is named.</param>
    /// <param name="layout">Place of the layout in the plan.</param>
    public SweepGroup GroupOf(int state, int layout) => Groups[(state * Plan.Layouts.Length) + layout];

    /// <summary>A shown metric by point of the design; NaN where it is not defined.</summary>
    /// <param name="shown">Place of the metric among <see cref="SweepPlan.Shown"/>.</param>
    /// <param name="state">Place of the load state; 0 where none is named.</param>
    /// <param name="layout">Place of the layout in the plan.</param>
    public double[] ValuesOf(int shown, int state, int layout) => Group(Plan, _shown[shown], state, layout);

    /// <summary>
    /// How far each parameter alone moves a shown metric, the one that moves it furthest first; empty unless the design changes one at
    /// a time. A parameter with a level at which the metric is not defined is left out.
    /// </summary>
    /// <param name="shown">Place of the metric among <see cref="SweepPlan.Shown"/>.</param>
    /// <param name="state">Place of the load state; 0 where none is named.</param>
    /// <param name="layout">Place of the layout in the plan.</param>
    public ImmutableArray<Swing> SwingsOf(int shown, int state, int layout)
    {
        if (Plan.Design is not OneAtATime)
            return [];
        var values = ValuesOf(shown, state, layout);
        var swings = ImmutableArray.CreateBuilder<Swing>();
        var first = 1;
        foreach (var parameter in Plan.Parameters)
        {
            var levels = parameter.Values.OneAtATimeLevels;
            swings.Add(new Swing(parameter, values[0], values[first + levels.IndexOf(levels.Min())], values[first + levels.IndexOf(levels.Max())]));
            first += levels.Length;
        }

        return [.. swings.Where(swing => !double.IsNaN(swing.Extent)).OrderByDescending(swing => swing.Extent)];
    }

    /// <summary>Analyses the results of a whole sweep.</summary>
    /// <param name="plan">The plan.</param>
    /// <param name="read">Reads the metrics at some places among the plan's, in all rows.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <remarks>Reads as often as it takes to keep few columns in memory at once.</remarks>
    internal static SweepAnalysis Of(SweepPlan plan, Func<IReadOnlyList<int>, SweepColumns> read, CancellationToken cancellation)
    {
        var failures = Array.Empty<bool>();
        var shown = new double[plan.Shown.Length][];
        var groups = plan.StateCount * plan.Layouts.Length;
        var findings = Enumerable.Range(0, groups).Select(_ => new MetricFinding[plan.Metrics.Length]).ToArray();
        var influences = new InfluenceMeter(plan);
        foreach (var block in Enumerable.Range(0, plan.Metrics.Length).Chunk((int)Math.Max(1, MostNumbersAtOnce / (plan.VariantCount * plan.Layouts.Length))))
        {
            (failures, var columns) = read(block);
            for (var i = 0; i < shown.Length; i++)
            {
                if (Array.IndexOf(block, plan.Metrics.IndexOf(plan.Shown[i])) is >= 0 and var place)
                    shown[i] = columns[place];
            }

            var work = from i in Enumerable.Range(0, block.Length) from g in Enumerable.Range(0, groups) select (Column: i, Group: g);
            Parallel.ForEach(work, new ParallelOptions { CancellationToken = cancellation }, item =>
            {
                var values = Group(plan, columns[item.Column], item.Group / plan.Layouts.Length, item.Group % plan.Layouts.Length);
                findings[item.Group][block[item.Column]] = FindingOf(plan, plan.Metrics[block[item.Column]], values, influences);
            });
        }

        var names = plan.LayoutNames.ToArray();
        return new SweepAnalysis(
            plan,
            [.. Enumerable.Range(0, groups).Select(g =>
            {
                var (state, layout) = (g / names.Length, g % names.Length);
                var failed = Group(plan, failures, state, layout).Count(value => value);
                return new SweepGroup(names[layout], plan.LoadStates.IsEmpty ? null : plan.LoadStates[state].Name, (int)plan.Design.Count, failed, [.. findings[g]]);
            })],
            shown);
    }

    private static MetricFinding FindingOf(SweepPlan plan, SweepMetric metric, double[] values, InfluenceMeter influences)
    {
        double[] independent = [.. values.Where((_, i) => plan.Design.CountsInStatistics(i))];
        return new MetricFinding(
            metric,
            MetricStatistics.Of(independent),
            influences.Measure(values),
            [.. plan.Targets.Where(target => target.Metric == metric.Key).Select(target =>
                new TargetMiss(target, independent.Count(target.IsMissedBy), independent.Length))]);
    }

    private static T[] Group<T>(SweepPlan plan, T[] rows, int state, int layout)
    {
        var points = (int)plan.Design.Count;
        var values = new T[points];
        for (var i = 0; i < points; i++)
            values[i] = rows[(((state * points) + i) * plan.Layouts.Length) + layout];
        return values;
    }
}
