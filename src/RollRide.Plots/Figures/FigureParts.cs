using System.Globalization;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>What the figures of a study share.</summary>
internal static class FigureParts
{
    /// <summary>Scenario, load state, version, solver and caution.</summary>
    public static string Footer(StudyCase study) => Text(
        $"{study.Provenance.Scenario}{(study.Load is { } load ? $" · load state {load.Name}" : "")} · {study.Provenance.File} · {study.Provenance.Sha256[..8]} · RollRide {study.Provenance.Version} · tolerances: relative {study.Solver.RelativeTolerance:0.#e+0}, absolute {study.Solver.AbsoluteTolerance:0.#e+0}\n{Cautions.OneLine}");

    /// <summary>One curve per layout, of one channel.</summary>
    public static IReadOnlyList<PlotSeries> Series(RecordedComparison result, Channel channel, Unit unit, double start, double end)
    {
        var styles = StudyStyles.Of(result.Study);
        return
        [
            .. result.Layouts.Select(layout =>
            {
                var (time, value) = layout.History.Slice(channel, unit, start, end);
                return new PlotSeries(layout.Name, styles[layout.Name], time, value);
            }),
        ];
    }

    /// <summary>One curve per layout over the whole run.</summary>
    public static IReadOnlyList<PlotSeries> Series(RecordedComparison result, Channel channel, Unit unit) =>
        Series(result, channel, unit, 0, result.Study.Manoeuvre.Duration);

    /// <summary>The part of a span in which an event shows: all of a short span, of a longer one as much as can be read, about the instant that matters.</summary>
    public static (double Start, double End) About(double instant, double start, double end, double longest)
    {
        const double leadIn = 0.3; // the share shown before the instant
        var length = Math.Min(longest, end - start);
        var from = Math.Max(start, Math.Min(instant - (leadIn * length), end - length));
        return (from, from + length);
    }

    /// <summary>Whether the road is one sample of a random one: then its peaks are those of this sample, and no finding.</summary>
    public static bool IsOneOfMany(StudyCase study) => study.Manoeuvre.Road.Unevenness is not null;

    /// <summary>The first phases that are long enough for a curve; the whole run where none is.</summary>
    public static Phase[] PhasesWithCurves(StudyCase study, int most) =>
        [.. study.Manoeuvre.Phases.Take(most).Where(phase => phase.End - phase.Start >= 2 / study.HistoryRate).DefaultIfEmpty(new Phase("run", 0, study.Manoeuvre.Duration))];

    /// <summary>The figures of a phase; of the whole run where it has no phase of this name.</summary>
    public static PhaseMetrics Of(LayoutResult layout, Phase phase) => layout.Metrics.Phases.FirstOrDefault(found => found.Name == phase.Name) ?? layout.Metrics.Whole;

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

    /// <summary>The targets, where they hold at the velocity for which single damping ratios are given; otherwise null.</summary>
    public static DampingTargets? TargetsAtReference(StudyCase study) =>
        study.Targets is { } targets && targets.Velocity == study.Analysis.ReferenceVelocity ? targets : null;

    /// <summary>The names, joined as in a sentence.</summary>
    public static string Join(IReadOnlyList<string> names) =>
        names.Count < 2 ? string.Concat(names) : $"{string.Join(", ", names.SkipLast(1))} and {names[^1]}";

    /// <summary>Whether two values differ by less than counts, so that one sentence holds for both.</summary>
    /// <param name="low">The lower value, not below 0.</param>
    /// <param name="high">The higher value.</param>
    public static bool AreSimilar(double low, double high) => high - low <= Noticeable.Share * high;

    /// <summary>Values from the least to the most, as one number where both are shown as the same.</summary>
    /// <param name="low">The least value.</param>
    /// <param name="high">The largest value.</param>
    public static string Range(double low, double high) => Range(PlotText.NotZero(low, 2), PlotText.NotZero(high, 2));

    /// <summary>The same for values as they are shown.</summary>
    /// <param name="low">The least value.</param>
    /// <param name="high">The largest value.</param>
    public static string Range(string low, string high) => low == high ? low : $"{low} to {high}";

    /// <summary>Of which layouts a sentence holds, where their values are alike: of every one, or of those that can be built; empty where there is but one.</summary>
    /// <param name="candidates">Names of those that the sentence is of.</param>
    /// <param name="shown">Number of layouts shown.</param>
    public static string WithAll(IReadOnlyList<string> candidates, int shown) =>
        shown == 1 ? "" : candidates.Count == shown ? " with every layout" : $" with {Join([.. candidates.Select(name => $"“{name}”")])}";

    /// <summary>Which layouts have a damper setting that serves, the shorter list named.</summary>
    /// <param name="candidates">The layouts that count, and whether each has such a setting.</param>
    /// <param name="shown">Number of layouts shown.</param>
    /// <param name="served">What the setting is to serve.</param>
    public static string WindowTitle(IReadOnlyList<(string Name, bool IsOpen)> candidates, int shown, string served)
    {
        const int mostListed = 3;
        string[] Names(bool isOpen) => [.. candidates.Where(layout => layout.IsOpen == isOpen).Select(layout => $"“{layout.Name}”")];
        var (open, closed, of) = (Names(true), Names(false), candidates.Count == shown ? "" : " that can be built");
        var among = of.Length == 0 ? "" : $", of the layouts{of}";
        return (open.Length, closed.Length) switch
        {
            (0, _) => $"No layout{of} has a setting that serves {served}",
            (_, 0) => $"Every layout{of} has settings that serve {served}",
            _ when open.Length <= Math.Min(closed.Length, mostListed) => $"One setting can serve {served} with {Join(open)} only{among}",
            _ when closed.Length <= mostListed => $"One setting can serve {served}, but not with {Join(closed)}{among}",
            _ => Text($"One setting can serve {served} with {open.Length} of {candidates.Count} layouts{of}"),
        };
    }

    /// <summary>Of a vehicle with two axles, that a setting window is that of the axle by itself.</summary>
    public static string OnThisAxle(StudyCase study) => study.Vehicle.SecondAxle is null ? "" : " on this axle alone";

    /// <summary>Of several load states the one that a figure shows, as a subtitle ends.</summary>
    public static string InLoad(StudyCase study) => study is { Load: { } load, Loads.Length: > 1 } ? $" Load state “{load.Name}”." : "";

    public static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
