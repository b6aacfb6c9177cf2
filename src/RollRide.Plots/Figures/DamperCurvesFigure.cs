using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>Force–velocity curves of the dampers, with the part that each layout really used.</summary>
public static class DamperCurvesFigure
{
    // More panels side by side leave their axes too narrow to read.
    private const int MostColumns = 4;

    // The reach of more phases than this cannot be told apart on one curve.
    private const int MostPhases = 2;

    // Share of the axis, so that markers at its ends are whole.
    private const double RoomForMarkers = 0.04;

    // Of more panels in a row each is too narrow for the names of phases.
    private const int MostWithPhases = 2;

    // A path of more samples is a blot long before its end, and the time to draw it grows with their square.
    private const int MostDrawn = 20_000;

    // So many points draw a cubic as smooth as the eye sees it.
    private const int FinePoints = 161;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);

        var columns = Math.Min(result.Layouts.Length, MostColumns);
        var styles = StudyStyles.Of(result.Study);
        var paths = result.Layouts.Select(layout => PathsOf(layout, styles[layout.Name])).ToArray();
        var curves = result.Layouts.Select(layout => CurveOf(layout, styles[layout.Name])).ToArray();
        var extensions = result.Layouts.Select((layout, i) => ExtensionsOf(layout, styles[layout.Name], paths[i])).ToArray();
        PlotSeries[] all = [.. paths.SelectMany(two => two), .. curves, .. extensions.SelectMany(some => some)];
        var (velocities, forces) = (PlotRange.Of(all.SelectMany(one => one.X), RoomForMarkers), PlotRange.Of(all.SelectMany(one => one.Y)));
        var panels = result.Layouts.Select((layout, i) => new Panel(new CurvePanel(layout.Name, "Damper velocity", "m/s", "Damper force", "kN", [curves[i]])
        {
            Runs = [.. paths[i].Select(Drawn)],
            Extensions = extensions[i],
            Peaks = ReachOf(layout, styles[layout.Name], columns <= MostWithPhases ? MostPhases : 0),
            XRange = velocities,
            YRange = forces,
            Labels = LabelPlacement.None,
        }.Build(), i / columns, i % columns)).ToArray();
        var dotted = extensions.Any(some => some.Count > 0) ? " Dotted: beyond the points." : "";
        var history = result.Layouts[0].History;
        var cut = history.Count > MostDrawn ? FigureParts.Text($" over the first {history.Time(MostDrawn - 1):F0} s") : "";
        return new Figure("damper-curves.png", Title(result),
            $"Which part of the force–velocity curve does each layout use? Symbols: the points given. Pale: the paths of its dampers{cut}, friction in them.{dotted}",
            FigureParts.Footer(result.Study), panels);
    }

    private static PlotSeries CurveOf(LayoutResult layout, SeriesStyle style)
    {
        var curve = layout.Car.Layout.Damper.Curve;
        double[] velocities = curve.Interpolation == CurveInterpolation.MonotoneCubic
            ? EvenSteps.Of(curve.MinimumVelocity, curve.MaximumVelocity, FinePoints - 1)
            : [.. curve.Points.Select(point => point.Velocity)];
        return new PlotSeries(layout.Name, style, velocities, [.. velocities.Select(v => Unit.Kilonewton.Of(curve.Force(v)))])
        {
            Marks = [.. curve.Points.Select(point => (point.Velocity, Unit.Kilonewton.Of(point.Force)))],
        };
    }

    /// <summary>From the ends of the points to where the damper went beyond them.</summary>
    private static IReadOnlyList<PlotSeries> ExtensionsOf(LayoutResult layout, SeriesStyle style, IReadOnlyList<PlotSeries> paths)
    {
        var curve = layout.Car.Layout.Damper.Curve;
        PlotSeries Line(double from, double to) => new(layout.Name, style, [from, to], [Unit.Kilonewton.Of(curve.Force(from)), Unit.Kilonewton.Of(curve.Force(to))]);
        var (low, high) = (paths.Min(path => path.X.Min()), paths.Max(path => path.X.Max()));
        return
        [
            .. low < curve.MinimumVelocity ? [Line(low, curve.MinimumVelocity)] : Array.Empty<PlotSeries>(),
            .. high > curve.MaximumVelocity ? [Line(curve.MaximumVelocity, high)] : Array.Empty<PlotSeries>(),
        ];
    }

    /// <summary>How far each phase goes, in rebound and in compression, and the whole run where it goes further.</summary>
    private static IReadOnlyList<PeakMark> ReachOf(LayoutResult layout, SeriesStyle style, int phasesNamed)
    {
        var curve = layout.Car.Layout.Damper.Curve;
        PeakMark At(string phase, double velocity) => new(velocity, Unit.Kilonewton.Of(curve.Force(velocity)), FigureParts.Text($"{phase} {Math.Abs(velocity):F2} m/s").TrimStart(), style);
        IEnumerable<PeakMark> Of(Func<PhaseMetrics, double> peak, int sign)
        {
            var phases = layout.Metrics.Phases.Take(phasesNamed).ToArray();
            if (phases.All(phase => peak(phase) < peak(layout.Metrics.Whole)))
                yield return At("", sign * peak(layout.Metrics.Whole));
            foreach (var phase in phases)
                yield return At(phase.Name, sign * peak(phase));
        }

        return [.. Of(phase => phase.DamperReboundVelocityPeak, -1), .. Of(phase => phase.DamperCompressionVelocityPeak, 1)];
    }

    private static IReadOnlyList<PlotSeries> PathsOf(RecordedLayout layout, SeriesStyle style) =>
    [
        Path(layout, style, Channel.DamperVelocityLeft, Channel.DamperForceLeft),
        Path(layout, style, Channel.DamperVelocityRight, Channel.DamperForceRight),
    ];

    private static PlotSeries Drawn(PlotSeries path) => path.X.Count <= MostDrawn
        ? path
        : new PlotSeries(path.Name, path.Style, [.. path.X.Take(MostDrawn)], [.. path.Y.Take(MostDrawn)]);

    private static PlotSeries Path(RecordedLayout layout, SeriesStyle style, Channel velocity, Channel force) =>
        new(layout.Name, style, layout.History[velocity].ToArray(), [.. layout.History[force].ToArray().Select(Unit.Kilonewton.Of)]);

    private static string Title(RecordedComparison result)
    {
        if (FigureParts.IsOneOfMany(result.Study))
            return "The forces and velocities of the dampers on this road; another of its kind has other peaks";
        var fast = result.Candidates.MaxBy(layout => layout.Metrics.Whole.DamperReboundVelocityPeak)!;
        var slow = result.Candidates.MinBy(layout => layout.Metrics.Whole.DamperReboundVelocityPeak)!;
        var (high, low) = (fast.Metrics.Whole.DamperReboundVelocityPeak, slow.Metrics.Whole.DamperReboundVelocityPeak);
        return high - low < 0.05
            ? FigureParts.Text($"The dampers reach {high:F2} m/s in rebound")
            : FigureParts.Text($"Dampers reach {high:F2} m/s in rebound with “{fast.Name}”, {low:F2} m/s with “{slow.Name}”");
    }
}
