using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Mounting;
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

    // Of more panels in a row each is too narrow for the names of phases, and of two for names longer than this.
    private const int MostWithPhases = 2;
    private const double WidestPhase = 60;

    // A path of more samples is a blot long before its end, and the time to draw it grows with their square.
    private const int MostDrawn = 20_000;

    // So many points draw a cubic as smooth as the eye sees it.
    private const int FinePoints = 161;

    /// <summary>Builds the figure.</summary>
    /// <param name="result">What the layouts did.</param>
    public static Figure Build(RecordedComparison result)
    {
        ArgumentNullException.ThrowIfNull(result);

        var styles = StudyStyles.Of(result.Study);
        var columns = Math.Min(result.Layouts.Sum(layout => layout.Car.Layout.Curves.Count), MostColumns);
        var phasesNamed = columns <= MostWithPhases && result.Study.Manoeuvre.Phases.Take(MostPhases).All(phase => PlotFont.Width(phase.Name, Theme.LabelSize) <= WidestPhase) ? MostPhases : 0;
        Valves[] all = [.. result.Layouts.SelectMany(layout => layout.Car.Layout.Curves.Select(curve => Valves.Of(layout, curve.Name, curve.Side, styles[layout.Name], phasesNamed)))];
        PlotSeries[] drawn = [.. all.SelectMany(valves => (PlotSeries[])[valves.Line, .. valves.Extensions])];
        Path[] paths = [.. all.SelectMany(valves => valves.Paths)];
        var velocities = PlotRange.Of(drawn.SelectMany(one => one.X).Concat(paths.SelectMany(path => path.Velocities)), RoomForMarkers);
        var forces = PlotRange.Of(drawn.SelectMany(one => one.Y).Concat(paths.SelectMany(path => path.Forces)));
        var panels = all.Select((valves, i) => new Panel(new CurvePanel(valves.Name, "Damper velocity", "m/s", "Damper force", "kN", [valves.Line])
        {
            Runs = [.. valves.Paths.Select(path => path.Drawn)],
            Extensions = valves.Extensions,
            Peaks = valves.Reach,
            XRange = velocities,
            YRange = forces,
            Labels = LabelPlacement.None,
        }.Build(), i / columns, i % columns)).ToArray();
        var dotted = all.Any(valves => valves.Extensions.Count > 0) ? " Dotted: beyond the points." : "";
        var history = result.Layouts[0].History;
        var cut = history.Count > MostDrawn ? FigureParts.Text($" over the first {history.Time(MostDrawn - 1):F0} s") : "";
        return new Figure("damper-curves.png", Title(result),
            $"Symbols: the points given. Pale: what the dampers of each layout went through{cut}, with friction.{dotted}",
            FigureParts.Footer(result.Study), panels);
    }

    private static string Title(RecordedComparison result)
    {
        if (FigureParts.IsOneOfMany(result.Study))
            return "The forces and velocities of the dampers on this road; another of its kind has other peaks";
        var fast = result.Candidates.MaxBy(layout => layout.Metrics.Whole.DamperReboundVelocityPeak)!;
        var slow = result.Candidates.MinBy(layout => layout.Metrics.Whole.DamperReboundVelocityPeak)!;
        var (high, low) = (fast.Metrics.Whole.DamperReboundVelocityPeak, slow.Metrics.Whole.DamperReboundVelocityPeak);
        return FigureParts.AreSimilar(low, high)
            ? FigureParts.Text($"The dampers reach {FigureParts.Range(low, high)} m/s in rebound{FigureParts.WithAll([.. result.Candidates.Select(layout => layout.Name)], result.Layouts.Length)}")
            : FigureParts.Text($"Dampers reach {high:F2} m/s in rebound with “{fast.Name}”, {low:F2} m/s with “{slow.Name}”");
    }

    /// <summary>One curve, and what the dampers that have it do: both of a layout, or one where each has its own.</summary>
    private sealed record Valves(string Name, PlotSeries Line, IReadOnlyList<Path> Paths, IReadOnlyList<PlotSeries> Extensions, IReadOnlyList<PeakMark> Reach)
    {
        public static Valves Of(RecordedLayout layout, string name, Side side, SeriesStyle style, int phasesNamed)
        {
            var curve = layout.Car.Layout.On(side).Damper.Curve;
            Side[] sides = layout.Car.Layout.Curves.Count > 1 ? [side] : [Side.Left, Side.Right];
            Path[] paths = [.. sides.Select(one => Path.Of(layout, style, one))];
            return new Valves(name, LineOf(curve, layout.Name, style), paths, ExtensionsOf(curve, layout.Name, style, paths), ReachOf(layout, curve, sides, style, phasesNamed));
        }

        private static PlotSeries LineOf(ForceVelocityCurve curve, string name, SeriesStyle style)
        {
            double[] velocities = curve.Interpolation == CurveInterpolation.MonotoneCubic
                ? EvenSteps.Of(curve.MinimumVelocity, curve.MaximumVelocity, FinePoints - 1)
                : [.. curve.Points.Select(point => point.Velocity)];
            return new PlotSeries(name, style, velocities, [.. velocities.Select(v => Unit.Kilonewton.Of(curve.Force(v)))])
            {
                Marks = [.. curve.Points.Select(point => (point.Velocity, Unit.Kilonewton.Of(point.Force)))],
            };
        }

        /// <summary>From the ends of the points to where the damper went beyond them.</summary>
        private static IReadOnlyList<PlotSeries> ExtensionsOf(ForceVelocityCurve curve, string name, SeriesStyle style, Path[] paths)
        {
            PlotSeries Line(double from, double to) => new(name, style, [from, to], [Unit.Kilonewton.Of(curve.Force(from)), Unit.Kilonewton.Of(curve.Force(to))]);
            var (low, high) = (paths.Min(path => path.Velocities.Min()), paths.Max(path => path.Velocities.Max()));
            return
            [
                .. low < curve.MinimumVelocity ? [Line(low, curve.MinimumVelocity)] : Array.Empty<PlotSeries>(),
                .. high > curve.MaximumVelocity ? [Line(curve.MaximumVelocity, high)] : Array.Empty<PlotSeries>(),
            ];
        }

        /// <summary>How far each phase goes, in rebound and in compression, and the whole run where it goes further.</summary>
        private static IReadOnlyList<PeakMark> ReachOf(LayoutResult layout, ForceVelocityCurve curve, Side[] sides, SeriesStyle style, int phasesNamed)
        {
            PeakMark At(string phase, double velocity) => new(velocity, Unit.Kilonewton.Of(curve.Force(velocity)), FigureParts.Text($"{phase} {Math.Abs(velocity):F2} m/s").TrimStart(), style);
            IEnumerable<PeakMark> Of(Func<DamperPeaks, double> velocity, int sign)
            {
                double Peak(PhaseMetrics phase) => sides.Max(side => velocity(phase.DamperOn(side)));
                var phases = layout.Metrics.Phases.Take(phasesNamed).ToArray();
                if (phases.All(phase => Peak(phase) < Peak(layout.Metrics.Whole)))
                    yield return At("", sign * Peak(layout.Metrics.Whole));
                foreach (var phase in phases)
                    yield return At(phase.Name, sign * Peak(phase));
            }

            return [.. Of(peaks => peaks.ReboundVelocity, -1), .. Of(peaks => peaks.CompressionVelocity, 1)];
        }
    }

    /// <summary>What one damper does.</summary>
    /// <param name="Drawn">The path, from its beginning as far as it is drawn.</param>
    /// <param name="Velocities">Velocities of the whole run, m/s, its extremes among them.</param>
    /// <param name="Forces">Forces of the whole run, kN, its extremes among them.</param>
    private sealed record Path(PlotSeries Drawn, double[] Velocities, double[] Forces)
    {
        public static Path Of(RecordedLayout layout, SeriesStyle style, Side side)
        {
            var history = layout.History;
            var (velocity, force) = side == Side.Left ? (Channel.DamperVelocityLeft, Channel.DamperForceLeft) : (Channel.DamperVelocityRight, Channel.DamperForceRight);
            var (x, y) = (new double[Math.Min(history.Count, MostDrawn)], new double[Math.Min(history.Count, MostDrawn)]);
            history.Read(velocity, 0, x);
            history.Read(force, 0, y);
            double[] All(Channel channel, Unit unit) => history.Slice(channel, unit, 0, history.Time(history.Count - 1)).Value;
            return new Path(new PlotSeries(layout.Name, style, x, [.. y.Select(Unit.Kilonewton.Of)]), All(velocity, Unit.MetrePerSecond), All(force, Unit.Kilonewton));
        }
    }
}
