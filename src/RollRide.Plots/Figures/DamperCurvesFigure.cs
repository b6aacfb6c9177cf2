using RollRide.Damping;
using RollRide.Dynamics;
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
        var paths = result.Layouts.Select(PathsOf).ToArray();
        var curves = result.Layouts.Select(CurveOf).ToArray();
        var extensions = result.Layouts.Select((layout, i) => ExtensionsOf(layout, i, paths[i])).ToArray();
        PlotSeries[] all = [.. paths.SelectMany(two => two), .. curves, .. extensions.SelectMany(some => some)];
        var (velocities, forces) = (PlotRange.Of(all.SelectMany(one => one.X), RoomForMarkers), PlotRange.Of(all.SelectMany(one => one.Y)));
        var panels = result.Layouts.Select((layout, i) => new Panel(new CurvePanel(layout.Name, "Damper velocity", "m/s", "Damper force", "kN", [curves[i]])
        {
            Runs = [.. paths[i].Select(Drawn)],
            Extensions = extensions[i],
            Peaks = ReachOf(layout, i),
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

    private static PlotSeries CurveOf(LayoutResult layout, int index)
    {
        var curve = layout.Car.Layout.Damper.Curve;
        double[] velocities = curve.Interpolation == CurveInterpolation.MonotoneCubic
            ? EvenSteps.Of(curve.MinimumVelocity, curve.MaximumVelocity, FinePoints - 1)
            : [.. curve.Points.Select(point => point.Velocity)];
        return new PlotSeries(layout.Name, index, velocities, [.. velocities.Select(v => Unit.Kilonewton.Of(curve.Force(v)))])
        {
            Marks = [.. curve.Points.Select(point => (point.Velocity, Unit.Kilonewton.Of(point.Force)))],
        };
    }

    /// <summary>From the ends of the points to where the damper went beyond them.</summary>
    private static IReadOnlyList<PlotSeries> ExtensionsOf(LayoutResult layout, int index, IReadOnlyList<PlotSeries> paths)
    {
        var curve = layout.Car.Layout.Damper.Curve;
        PlotSeries Line(double from, double to) => new(layout.Name, index, [from, to], [Unit.Kilonewton.Of(curve.Force(from)), Unit.Kilonewton.Of(curve.Force(to))]);
        var (low, high) = (paths.Min(path => path.X.Min()), paths.Max(path => path.X.Max()));
        return
        [
            .. low < curve.MinimumVelocity ? [Line(low, curve.MinimumVelocity)] : Array.Empty<PlotSeries>(),
            .. high > curve.MaximumVelocity ? [Line(curve.MaximumVelocity, high)] : Array.Empty<PlotSeries>(),
        ];
    }

    /// <summary>How far each phase goes, in rebound and in compression.</summary>
    private static IReadOnlyList<PeakMark> ReachOf(LayoutResult layout, int index)
    {
        var curve = layout.Car.Layout.Damper.Curve;
        PeakMark At(string phase, double velocity) => new(velocity, Unit.Kilonewton.Of(curve.Force(velocity)), phase, index);
        return [.. layout.Metrics.Phases.Take(MostPhases).SelectMany(phase => new[]
        {
            At(phase.Name, -phase.DamperReboundVelocityPeak), At(phase.Name, phase.DamperCompressionVelocityPeak),
        })];
    }

    private static IReadOnlyList<PlotSeries> PathsOf(RecordedLayout layout, int index) =>
    [
        Path(layout, index, Channel.DamperVelocityLeft, Channel.DamperForceLeft),
        Path(layout, index, Channel.DamperVelocityRight, Channel.DamperForceRight),
    ];

    private static PlotSeries Drawn(PlotSeries path) => path.X.Count <= MostDrawn
        ? path
        : new PlotSeries(path.Name, path.StyleIndex, [.. path.X.Take(MostDrawn)], [.. path.Y.Take(MostDrawn)]);

    private static PlotSeries Path(RecordedLayout layout, int index, Channel velocity, Channel force) =>
        new(layout.Name, index, layout.History[velocity].ToArray(), [.. layout.History[force].ToArray().Select(Unit.Kilonewton.Of)]);

    private static string Title(RecordedComparison result)
    {
        var fast = result.Candidates.MaxBy(layout => layout.Metrics.Whole.DamperReboundVelocityPeak)!;
        var slow = result.Candidates.MinBy(layout => layout.Metrics.Whole.DamperReboundVelocityPeak)!;
        var (high, low) = (fast.Metrics.Whole.DamperReboundVelocityPeak, slow.Metrics.Whole.DamperReboundVelocityPeak);
        return high - low < 0.05
            ? FigureParts.Text($"The dampers reach {high:F2} m/s in rebound")
            : FigureParts.Text($"Dampers reach {high:F2} m/s in rebound with '{fast.Name}', {low:F2} m/s with '{slow.Name}'");
    }
}
