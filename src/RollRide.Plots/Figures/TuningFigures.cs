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

    // Before and after are no layouts.
    private static readonly SeriesStyle After = OtherStyles.First, Before = OtherStyles.Second;

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
                .Select(figure => figure with { FileName = prefixes[state] + figure.FileName, NeedsHeight = true }));
        }

        if (result.Layouts.Any(layout => layout.Front is { Points.Length: >= 2 }))
            figures.Add(Fronts(result));
        return [.. figures.Select(figure => figure with { Size = size })];
    }

    /// <summary>A row of force–velocity curves, and below it the coefficients with the bands that the targets ask for.</summary>
    private static Figure Curves(TuningResult result, int state)
    {
        var forces = CurvePanel.OnOneScale([.. result.Layouts.Select((layout, i) =>
            new CurvePanel(layout.Name, "Damper velocity, compression positive", "m/s", "Damper force", "kN", [Curve(layout.Tuned.After, "Tuned", After), Curve(layout.Tuned.Before, "Before", Before)])
            {
                Labels = i == 0 ? LabelPlacement.AbovePanels : LabelPlacement.None,
            })]);
        var coefficients = CurvePanel.OnOneScale([.. result.Layouts.Select(layout => Coefficients(result, layout, state))]);
        Panel[] panels = [.. forces.Select((panel, column) => new Panel(panel.Build(), 0, column)), .. coefficients.Select((panel, column) => new Panel(panel.Build(), 1, column))];
        return new Figure("tuned-curves.png", CoefficientTitle(result), "The valving before and after. Below: equivalent coefficient; green bars: what meets a target.", FigureParts.Footer(result.Study.InEachLoad[state]), panels);

        static PlotSeries Curve(Vehicle.DamperLayout layout, string name, SeriesStyle style) => new(
            name, style, [.. layout.Damper.Curve.Points.Select(p => p.Velocity)], [.. layout.Damper.Curve.Points.Select(p => Unit.Kilonewton.Of(p.Force))]);
    }

    /// <summary>The coefficient over the velocity, with the bands that the targets ask for and what it is at the velocity of the roll target.</summary>
    private static CurvePanel Coefficients(TuningResult result, LayoutTuning layout, int state)
    {
        var inLoad = layout.InLoads[state];
        PeakMark Mark(Vehicle.DamperLayout at, SeriesStyle style) => new(result.Task.Roll.DamperVelocity, Unit.KilonewtonSecondPerMetre.Of(Coefficient(result, at)), PlotText.Number(Unit.KilonewtonSecondPerMetre.Of(Coefficient(result, at)), 2), style);
        return new CurvePanel(null, "Velocity amplitude at the damper", "m/s", "Coefficient", "kN·s/m",
            [OverVelocity(inLoad.DampingAfter, "Tuned", After, at => Unit.KilonewtonSecondPerMetre.Of(at.Coefficient)), OverVelocity(inLoad.DampingBefore, "Before", Before, at => Unit.KilonewtonSecondPerMetre.Of(at.Coefficient))])
        {
            LogarithmicX = true,
            Labels = LabelPlacement.None,
            TargetBars = [.. CoefficientBand("roll target", inLoad.Roll), .. CoefficientBand("heave target", inLoad.Heave)],
            ReferenceLines = Velocities(result),
            Peaks = [Mark(layout.Tuned.After, After), Mark(layout.Tuned.Before, Before)],
        };
    }

    private static double Coefficient(TuningResult result, Vehicle.DamperLayout layout) => layout.Damper.Curve.EquivalentCoefficient(result.Task.Roll.DamperVelocity);

    private static string CoefficientTitle(TuningResult result) => FigureParts.Text($"Damper coefficient at {result.Task.Roll.DamperVelocity:0.###} m/s, before and tuned, in kN·s/m: ")
        + FigureParts.Join([.. result.Layouts.Take(2).Select(layout => FigureParts.Text($"{Unit.KilonewtonSecondPerMetre.Of(Coefficient(result, layout.Tuned.Before)):F2} → {Unit.KilonewtonSecondPerMetre.Of(Coefficient(result, layout.Tuned.After)):F2} with “{layout.Name}”"))]);

    /// <summary>Damping ratios over the damper velocity: heave above, roll below, one column per layout.</summary>
    private static Figure Ratios(TuningResult result, int state)
    {
        var heave = CurvePanel.OnOneScale([.. result.Layouts.Select((layout, i) => Of(layout.Name, layout.InLoads[state], "Heave damping ratio", inLoad => inLoad.Heave, at => at.Heave) with
        {
            Labels = i == 0 ? LabelPlacement.AbovePanels : LabelPlacement.None,
        })]);
        var roll = CurvePanel.OnOneScale([.. result.Layouts.Select(layout => Of(null, layout.InLoads[state], "Roll damping ratio", inLoad => inLoad.Roll, at => at.Roll))]);
        Panel[] panels = [.. heave.Select((panel, column) => new Panel(panel.Build(), 0, column)), .. roll.Select((panel, column) => new Panel(panel.Build(), 1, column))];
        static CurvePanel Of(string? title, TuningInLoad inLoad, string quantity, Func<TuningInLoad, TargetOutcome> of, Func<DampingAtVelocity, double> ratio)
        {
            var outcome = of(inLoad);
            var (v, target) = (outcome.Target.DamperVelocity, outcome.Target);
            return new CurvePanel(title, "Velocity amplitude at the damper", "m/s", quantity, "",
                [OverVelocity(inLoad.DampingAfter, "Tuned", After, ratio), OverVelocity(inLoad.DampingBefore, "Before", Before, ratio)])
            {
                TargetBars = [new TargetBar("target", v, target.Ratio - target.Tolerance, target.Ratio + target.Tolerance)],
                LogarithmicX = true,
                Labels = LabelPlacement.None,
                ReferenceLines = [new ReferenceLine(target.Ratio, $"target {PlotText.Number(target.Ratio, 2)}")],
                NamesLinesInside = true,
                Peaks = [new PeakMark(v, outcome.Reached, PlotText.NotZero(outcome.Reached, 2), After), new PeakMark(v, outcome.Before, PlotText.NotZero(outcome.Before, 2), Before)],
            };
        }

        return new Figure("tuned-ratios.png", Title(result, state), "Damping ratios of heave and roll over damper velocity. Green bar: the target band.", FigureParts.Footer(result.Study.InEachLoad[state]), panels);
    }

    /// <summary>Body roll in the corner from rest, or in the run where it has none, and below it the vertical acceleration about its worst instant in the ride's phase.</summary>
    private static Figure Histories(TuningResult result, int state)
    {
        const double longestCorner = 4, longestRide = 2; // s, in which an event can be read
        var ride = result.Study.Manoeuvre.Phases.First(phase => phase.Name == result.Task.TradeOff.RidePhase);
        (string Name, SeriesStyle Style, Func<LayoutTuning, RecordedLayout> Run)[] both =
            [("Tuned", After, layout => layout.InLoads[state].After), ("Before", Before, layout => layout.InLoads[state].Before)];
        var roll = TimePanel.OnOneScale([.. result.Layouts.Select(layout => Roll(layout) with
        {
            Labels = layout == result.Layouts[0] ? LabelPlacement.AbovePanels : LabelPlacement.None,
        })]);
        var body = TimePanel.OnOneScale([.. result.Layouts.Select(layout => new TimePanel(null, "Acceleration", "m/s²", Body(layout)) { Labels = LabelPlacement.None })]);
        Panel[] panels = [.. roll.Select((panel, column) => new Panel(panel.Build(), 0, column)), .. body.Select((panel, column) => new Panel(panel.Build(), 1, column))];
        var hasCorner = result.Layouts.All(layout => both.All(one => one.Run(layout).Corner is not null));
        return new Figure("tuned-histories.png", HistoryTitle(result, state),
            $"Above: roll{(hasCorner ? " in the corner from rest" : "")}. Below: vertical acceleration of the body around its worst instant in phase “{ride.Name}”.", FigureParts.Footer(result.Study.InEachLoad[state]), panels);

        TimePanel Roll(LayoutTuning layout)
        {
            PlotSeries[] curves = [.. both.Select(one =>
            {
                var history = one.Run(layout).Corner ?? one.Run(layout).History;
                var (time, value) = history.Slice(Channel.BodyRoll, Unit.Degree, 0, Math.Min(longestCorner, history.Time(history.Count - 1)));
                return new PlotSeries(one.Name, one.Style, time, value);
            })];
            return new TimePanel(layout.Name, "Body roll", "deg", curves)
            {
                Peaks = [.. both.Zip(curves).Where(pair => pair.First.Run(layout).Corner is not null && pair.First.Run(layout).Metrics.RollResponse?.Overshoot is not null).Select(pair =>
                    new PeakMark(FigureParts.Extreme(pair.Second).X, FigureParts.Extreme(pair.Second).Y, Overshoot(pair.First.Run(layout)), pair.First.Style))],
            };
        }

        PlotSeries[] Body(LayoutTuning layout)
        {
            PlotSeries Of((string Name, SeriesStyle Style, Func<LayoutTuning, RecordedLayout> Run) one, double start, double end)
            {
                var (time, value) = one.Run(layout).History.Slice(Channel.BodyAcceleration, Unit.MetrePerSecondSquared, start, end);
                return new PlotSeries(one.Name, one.Style, time, value);
            }

            var worst = both.Select(one => FigureParts.Extreme(Of(one, ride.Start, ride.End))).MaxBy(point => Math.Abs(point.Y)).X;
            var (start, end) = FigureParts.About(worst, ride.Start, ride.End, longestRide);
            return [.. both.Select(one => Of(one, start, end))];
        }
    }

    /// <summary>All fronts in one panel, with their best compromises and what the present and the tuned dampers do.</summary>
    private static Figure Fronts(TuningResult result)
    {
        var styles = StudyStyles.Of(result.Study);
        var series = new List<PlotSeries>();
        var marks = new List<PeakMark>();
        for (var i = 0; i < result.Layouts.Length; i++)
        {
            var (layout, front) = (result.Layouts[i], result.Layouts[i].Front);
            if (front is not { Points.Length: >= 2 })
                continue;
            var style = styles[layout.Name];
            series.Add(new PlotSeries(layout.Name, style, [.. front.Points.Select(p => p.WeightedAcceleration)], [.. front.Points.Select(p => 100 * p.Overshoot)]).Marked);
            marks.Add(new PeakMark(front.Compromise.WeightedAcceleration, 100 * front.Compromise.Overshoot, FigureParts.Text($"{layout.Name}, best compromise: {front.Compromise.WeightedAcceleration:F2} m/s², {100 * front.Compromise.Overshoot:F0} %"), style));
            marks.Add(new PeakMark(front.Present.WeightedAcceleration, 100 * front.Present.Overshoot, $"{layout.Name} now", style));
            if (result.Worst(layout, state => state.After) is { Ride: { } ride, Roll: { } overshoot })
                marks.Add(new PeakMark(ride, 100 * overshoot, $"{layout.Name} tuned for targets", style));
        }

        var panel = new CurvePanel(null, "Weighted body acceleration over the bump (ISO 2631-1 Wk, RMS)", "m/s²", "Roll overshoot in the corner", "%", series) { Peaks = marks, XPadding = 0.05 };
        var best = result.Layouts.Where(layout => layout.Front is { Points.Length: >= 2 }).MinBy(layout => layout.Front!.Compromise.Overshoot)!;
        var least = series.Count > 1 ? "the least overshoot" : "this overshoot";
        return new Figure("trade-off.png",
            FigureParts.Text($"At its best compromise “{best.Name}” has {least}: {100 * best.Front!.Compromise.Overshoot:F0}\u00a0% at {best.Front.Compromise.WeightedAcceleration:F2}\u00a0m/s²"),
            "Ride over the bump against roll overshoot in the corner. Each line: the best that any valving within the limits can do. Beyond the best compromise small gains get expensive." + (result.Study.Loads.IsEmpty ? "" : " Each axis: the worst load state."),
            FigureParts.Footer(result.Study), [new Panel(panel.Build())]);
    }

    private static PlotSeries OverVelocity(IReadOnlyList<DampingAtVelocity> damping, string name, SeriesStyle style, Func<DampingAtVelocity, double> value) =>
        new(name, style, [.. damping.Select(at => at.Velocity)], [.. damping.Select(value)]);

    private static IEnumerable<TargetBar> CoefficientBand(string name, TargetOutcome outcome)
    {
        if (outcome.LowestCoefficient is { } low && (outcome.HighestCoefficient ?? outcome.CoefficientWanted) is { } high)
            yield return new TargetBar(name, outcome.Target.DamperVelocity, Unit.KilonewtonSecondPerMetre.Of(low), Unit.KilonewtonSecondPerMetre.Of(high));
    }

    private static ReferenceLine[] Velocities(TuningResult result) =>
    [
        new(result.Task.Heave.DamperVelocity, "heave", Vertical: true),
        new(result.Task.Roll.DamperVelocity, "roll", Vertical: true),
    ];

    private static string Title(TuningResult result, int state) =>
        string.Join("; ", result.Layouts.Take(2).Select(layout => TuningConclusions.InShort(layout, layout.InLoads[state])));

    private static string HistoryTitle(TuningResult result, int state) => string.Join("; ", result.Layouts.Take(2).Select(layout => FigureParts.Text(
        $"“{layout.Name}”: overshoot {Overshoot(layout.InLoads[state].Before)} → {Overshoot(layout.InLoads[state].After)}")));

    private static string Overshoot(LayoutResult run) => run.Metrics.RollResponse?.Overshoot is { } overshoot
        ? FigureParts.Text($"{100 * TradeOff.CountedOvershoot(overshoot):F0}\u00a0%")
        : "–";
}
