using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>The figures of a tuning: what was changed, what that does to damping, and what it does in the manoeuvre.</summary>
public static class TuningFigures
{
    /// <summary>So many layouts side by side can still be read.</summary>
    public const int MostLayouts = 4;

    private const int Before = 1, After = 0, Band = 2;

    private const double BandThickness = 12;

    /// <summary>Builds the figures.</summary>
    /// <param name="result">What tuning found, for at most <see cref="MostLayouts"/> layouts.</param>
    /// <param name="size">Size of the pictures.</param>
    public static IReadOnlyList<Figure> All(TuningResult result, PlotSize size)
    {
        ArgumentNullException.ThrowIfNull(result);
        var figures = new List<Figure>();
        var prefixes = LoadStates.FilePrefixes(result.Study.InEachLoad);
        for (var state = 0; state < prefixes.Length; state++)
        {
            figures.AddRange(new[] { Curves(result, state), Ratios(result, state), Histories(result, state) }
                .Select(figure => figure with { FileName = prefixes[state] + figure.FileName }));
        }

        if (result.Layouts.Any(layout => layout.Front is { Points.Length: >= 2 }))
            figures.Add(Fronts(result));
        return [.. figures.Select(figure => figure with { Size = size })];
    }

    /// <summary>A row of force–velocity curves, and below it the coefficients with the bands that the targets ask for.</summary>
    private static Figure Curves(TuningResult result, int state)
    {
        var panels = new List<Panel>();
        for (var i = 0; i < result.Layouts.Length; i++)
        {
            var layout = result.Layouts[i];
            var inLoad = layout.InLoads[state];
            panels.Add(new Panel(
                new CurvePanel(layout.Name, "Damper velocity, compression positive", "m/s", "Damper force", "kN", [Curve(layout.Tuned.After, "Tuned", After), Curve(layout.Tuned.Before, "Before", Before)])
                {
                    Labels = i == 0 ? LabelPlacement.AbovePanels : LabelPlacement.None,
                }.Build(),
                0,
                i));
            PlotSeries[] coefficients =
            [
                OverVelocity(inLoad.DampingAfter, "Tuned", After, at => Unit.KilonewtonSecondPerMetre.Of(at.Coefficient)),
                OverVelocity(inLoad.DampingBefore, "Before", Before, at => Unit.KilonewtonSecondPerMetre.Of(at.Coefficient)),
            ];
            panels.Add(new Panel(
                new CurvePanel(null, "Velocity amplitude at the damper", "m/s", "Coefficient", "kN·s/m", coefficients)
                {
                    LogarithmicX = true,
                    Labels = LabelPlacement.None,
                    Runs = [.. CoefficientBand("roll target", inLoad.Roll), .. CoefficientBand("heave target", inLoad.Heave)],
                    RunThickness = BandThickness,
                    ReferenceLines = Velocities(result),
                }.Build(),
                1,
                i));
        }

        return new Figure("tuned-curves.png", Title(result, state), "What must the valving become? Below: equivalent coefficient; the grey bars hold what meets a target.", FigureParts.Footer(result.Study.InEachLoad[state]), panels);

        static PlotSeries Curve(Vehicle.DamperLayout layout, string name, int style) => new(
            name, style, [.. layout.Damper.Curve.Points.Select(p => p.Velocity)], [.. layout.Damper.Curve.Points.Select(p => Unit.Kilonewton.Of(p.Force))]);
    }

    /// <summary>Damping ratios over the damper velocity: heave above, roll below, a column a layout.</summary>
    private static Figure Ratios(TuningResult result, int state)
    {
        var panels = new List<Panel>();
        for (var i = 0; i < result.Layouts.Length; i++)
        {
            var layout = result.Layouts[i];
            var inLoad = layout.InLoads[state];
            panels.Add(Of("Heave damping ratio", inLoad.Heave, at => at.Heave, 0));
            panels.Add(Of("Roll damping ratio", inLoad.Roll, at => at.Roll, 1));

            Panel Of(string quantity, TargetOutcome outcome, Func<DampingAtVelocity, double> ratio, int row)
            {
                var (v, target) = (outcome.Target.DamperVelocity, outcome.Target);
                var panel = new CurvePanel(row == 0 ? layout.Name : null, "Velocity amplitude at the damper", "m/s", quantity, "",
                [
                    OverVelocity(inLoad.DampingAfter, "Tuned", After, ratio),
                    OverVelocity(inLoad.DampingBefore, "Before", Before, ratio),
                ])
                {
                    Runs = [new PlotSeries("target", Band, [v, v], [target.Ratio - target.Tolerance, target.Ratio + target.Tolerance])],
                    RunThickness = BandThickness,
                    LogarithmicX = true,
                    Labels = row == 0 && i == 0 ? LabelPlacement.AbovePanels : LabelPlacement.None,
                    Peaks = [new PeakMark(v, outcome.Reached, PlotText.Number(outcome.Reached, 2), After), new PeakMark(v, outcome.Before, PlotText.Number(outcome.Before, 2), Before)],
                };
                return new Panel(panel.Build(), row, i);
            }
        }

        return new Figure("tuned-ratios.png", Title(result, state), "How well are heave and roll damped, by how fast the damper moves? The grey bar is the target band.", FigureParts.Footer(result.Study.InEachLoad[state]), panels);
    }

    /// <summary>Body roll over the whole run, and below it the vertical acceleration over the ride's phase alone, where alone it can be read.</summary>
    private static Figure Histories(TuningResult result, int state)
    {
        var panels = new List<Panel>();
        var ride = result.Study.Manoeuvre.Phases.First(phase => phase.Name == result.Task.TradeOff.RidePhase);
        for (var i = 0; i < result.Layouts.Length; i++)
        {
            var (layout, column) = (result.Layouts[i], i);
            panels.Add(Of(0, layout.Name, "Body roll", Channel.BodyRoll, Unit.Degree, 0, result.Study.Manoeuvre.Duration));
            panels.Add(Of(1, null, "Acceleration", Channel.BodyAcceleration, Unit.MetrePerSecondSquared, ride.Start, ride.End));

            Panel Of(int row, string? title, string quantity, Channel channel, Unit unit, double start, double end)
            {
                PlotSeries Run(string name, int style, RecordedLayout run)
                {
                    var (time, value) = run.History.Slice(channel, unit, start, end);
                    return new PlotSeries(name, style, time, value);
                }

                var panel = new TimePanel(title, quantity, unit.Symbol, [Run("Tuned", After, layout.InLoads[state].After), Run("Before", Before, layout.InLoads[state].Before)])
                {
                    Labels = row == 0 && column == 0 ? LabelPlacement.AbovePanels : LabelPlacement.None,
                    Phases = row == 0 ? FigureParts.Phases(result.Study) : [],
                };
                return new Panel(panel.Build(), row, column);
            }
        }

        return new Figure("tuned-histories.png", HistoryTitle(result, state), $"What does the tuned damper change in roll over the whole run, and in body acceleration in phase '{ride.Name}'?", FigureParts.Footer(result.Study.InEachLoad[state]), panels);
    }

    /// <summary>All fronts in one panel, with their knees and what the present and the tuned dampers do.</summary>
    private static Figure Fronts(TuningResult result)
    {
        var series = new List<PlotSeries>();
        var marks = new List<PeakMark>();
        for (var i = 0; i < result.Layouts.Length; i++)
        {
            var (layout, front) = (result.Layouts[i], result.Layouts[i].Front);
            if (front is not { Points.Length: >= 2 })
                continue;
            series.Add(new PlotSeries(layout.Name, i, [.. front.Points.Select(p => p.WeightedAcceleration)], [.. front.Points.Select(p => 100 * p.Overshoot)]));
            marks.Add(new PeakMark(front.Knee.WeightedAcceleration, 100 * front.Knee.Overshoot, FigureParts.Text($"{layout.Name}, knee: {front.Knee.WeightedAcceleration:F2} m/s², {100 * front.Knee.Overshoot:F0} %"), i));
            marks.Add(new PeakMark(front.Present.WeightedAcceleration, 100 * front.Present.Overshoot, $"{layout.Name} now", i));
            if (result.Worst(layout, state => state.After) is { Ride: { } ride, Roll: { } overshoot })
                marks.Add(new PeakMark(ride, 100 * overshoot, $"{layout.Name} tuned for targets", i));
        }

        var panel = new CurvePanel(null, "Weighted body acceleration over the bump (ISO 2631-1 Wk, RMS)", "m/s²", "Roll overshoot in the corner", "%", series) { Peaks = marks, XPadding = 0.05 };
        var best = result.Layouts.Where(layout => layout.Front is { Points.Length: >= 2 }).MinBy(layout => layout.Front!.Knee.Overshoot)!;
        var least = series.Count > 1 ? "the least overshoot" : "this overshoot";
        return new Figure("trade-off.png",
            FigureParts.Text($"At the knee of its front '{best.Name}' has {least}: {100 * best.Front!.Knee.Overshoot:F0}\u00a0% at {best.Front.Knee.WeightedAcceleration:F2}\u00a0m/s²"),
            "How much ride over the bump does calm in the corner cost? Each line: the best that a layout can do with any valving within the limits. Beyond its knee, one gains little for what the other costs." + (result.Study.Loads.IsEmpty ? "" : " Each axis is that of the worst load state."),
            FigureParts.Footer(result.Study), [new Panel(panel.Build())]);
    }

    private static PlotSeries OverVelocity(IReadOnlyList<DampingAtVelocity> damping, string name, int style, Func<DampingAtVelocity, double> value) =>
        new(name, style, [.. damping.Select(at => at.Velocity)], [.. damping.Select(value)]);

    private static IEnumerable<PlotSeries> CoefficientBand(string name, TargetOutcome outcome)
    {
        var v = outcome.Target.DamperVelocity;
        if (outcome.LowestCoefficient is { } low && (outcome.HighestCoefficient ?? outcome.CoefficientWanted) is { } high)
            yield return new PlotSeries(name, Band, [v, v], [Unit.KilonewtonSecondPerMetre.Of(low), Unit.KilonewtonSecondPerMetre.Of(high)]);
    }

    private static ReferenceLine[] Velocities(TuningResult result) =>
    [
        new(result.Task.Heave.DamperVelocity, "heave", Vertical: true),
        new(result.Task.Roll.DamperVelocity, "roll", Vertical: true),
    ];

    private static string Title(TuningResult result, int state) =>
        string.Join("; ", result.Layouts.Take(2).Select(layout => TuningConclusions.InShort(layout, layout.InLoads[state])));

    private static string HistoryTitle(TuningResult result, int state) => string.Join("; ", result.Layouts.Take(2).Select(layout => FigureParts.Text(
        $"'{layout.Name}': overshoot {Overshoot(layout.InLoads[state].Before)} → {Overshoot(layout.InLoads[state].After)}")));

    private static string Overshoot(LayoutResult run) => run.Metrics.RollResponse?.Overshoot is { } overshoot
        ? FigureParts.Text($"{100 * TradeOff.CountedOvershoot(overshoot):F0}\u00a0%")
        : "–";
}
