using System.Globalization;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>What the figures of a study share.</summary>
internal static class FigureParts
{
    /// <summary>Scenario, load state, version, solver and caution.</summary>
    public static string Footer(StudyCase study) => Text(
        $"{study.Provenance.Scenario}{(study.Load is { } load ? $" · load state {load.Name}" : "")} · {study.Provenance.File} · {study.Provenance.Sha256[..8]} · RollRide {study.Provenance.Version} · relative tolerance {study.Solver.RelativeTolerance:0.#e+0}\n{Cautions.OneLine}");

    /// <summary>One curve a layout, of one channel.</summary>
    public static IReadOnlyList<PlotSeries> Series(RecordedComparison result, Channel channel, Unit unit, double start, double end) =>
        [.. result.Layouts.Select((layout, i) =>
        {
            var (time, value) = layout.History.Slice(channel, unit, start, end);
            return new PlotSeries(layout.Name, i, time, value);
        })];

    /// <summary>One curve a layout over the whole run.</summary>
    public static IReadOnlyList<PlotSeries> Series(RecordedComparison result, Channel channel, Unit unit) =>
        Series(result, channel, unit, 0, result.Study.Manoeuvre.Duration);

    /// <summary>The phases of the manoeuvre in ascending order.</summary>
    public static IReadOnlyList<PlotSpan> Phases(StudyCase study) =>
        [.. study.Manoeuvre.Phases.OrderBy(phase => phase.Start).Select(phase => new PlotSpan(phase.Start, phase.End, phase.Name))];

    /// <summary>The largest of the values by size, with its sign and time.</summary>
    public static (double X, double Y) Extreme(PlotSeries series)
    {
        var at = 0;
        for (var i = 1; i < series.Y.Count; i++)
        {
            if (Math.Abs(series.Y[i]) > Math.Abs(series.Y[at]))
                at = i;
        }

        return (series.X[at], series.Y[at]);
    }

    /// <summary>The names, joined as in a sentence.</summary>
    public static string Join(IReadOnlyList<string> names) =>
        names.Count < 2 ? string.Concat(names) : $"{string.Join(", ", names.SkipLast(1))} and {names[^1]}";

    public static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
