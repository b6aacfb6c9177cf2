using RollRide.Plots;

namespace RollRide.Tests.Plots;

/// <summary>Figures of made-up damped oscillations, for the tests of pictures.</summary>
internal static class SampleFigures
{
    private const int Samples = 12000;
    private const double Duration = 3;

    private static readonly string[] Names =
    [
        "Baseline", "Inboard", "Outboard, softer rebound", "Inclined 20°, upper mount on side member", "Long travel",
        "Stiff bar", "Outboard of the wheel centre, at the packaging limit of the axle housing", "Vertical",
    ];

    private static readonly double[] Time = [.. Enumerable.Range(0, Samples).Select(i => i * Duration / (Samples - 1))];

    /// <summary>The settling of a second-order system from 0 to −4 at 1.7 Hz.</summary>
    public static PlotSeries Settling(int layout)
    {
        var decay = 2 * Math.PI * 1.7 * (0.12 + 0.05 * layout);
        return new PlotSeries(Names[layout], LayoutStyles.All[layout], Time, [.. Time.Select(t => -4 * (1 - Math.Exp(-decay * t) * Math.Cos(2 * Math.PI * 1.7 * t)))]);
    }

    public static TimePanel TimePanel(int layouts) => new("Body", "Roll angle", "deg", [.. Enumerable.Range(0, layouts).Select(Settling)])
    {
        ReferenceLines = [new ReferenceLine(-4, "steady"), new ReferenceLine(0.5, "half a second", Vertical: true)],
        Peaks = [new PeakMark(0.29, -6.6, "−6.6 deg", LayoutStyles.All[0])],
        Phases = [new PlotSpan(0, 1, "Transient"), new PlotSpan(1, Duration, "Steady")],
    };

    public static Figure Roll(int layouts, string title = "Roll settles within two seconds") =>
        new("roll.png", title, "How fast does roll settle?", "Scenario: step, version 0", [new Panel(TimePanel(layouts).Build())]);

    public static Figure Stack() => new("stack.png", "Three quantities", "", "",
        RollRide.Plots.TimePanel.Stack([TimePanel(3), TimePanel(3) with { Labels = LabelPlacement.None }]));

    public static Figure Curves()
    {
        double[] velocity = [-1, -0.1, 0, 0.1, 1];
        var curve = new PlotSeries(Names[0], LayoutStyles.All[0], velocity, [-600, -200, 0, 400, 1500]);
        var run = new PlotSeries(Names[0], LayoutStyles.All[0], [-0.3, 0.4, -0.1], [-290, 766, -200]);
        double[] frequency = [0.1, 1, 10];
        var gain = new PlotSeries(Names[1], LayoutStyles.All[1], frequency, [1, 3, 0.1]);
        return new("curves.png", "Curves", "", "",
        [
            new Panel(new CurvePanel("Force", "Velocity", "m/s", "Force", "N", [curve]) { Runs = [run] }.Build()),
            new Panel(new CurvePanel("Gain", "Frequency", "Hz", "Gain", "", [gain]) { LogarithmicX = true }.Build(), 0, 1),
            new Panel(new HistogramPanel("Use", "Velocity", "m/s", "Share of time", "%", [new HistogramSeries(Names[0], LayoutStyles.All[0], [-1, 0, 1, 2], [20, 70, 10])]).Build(), 1, 0, ColumnSpan: 2),
        ]);
    }

    public static Figure Bars() => new("bars.png", "Bars", "", "",
    [
        new Panel(new BarPanel("One", "Damping ratio", "", ["ζ"], [.. Enumerable.Range(0, 8).Select(i => new BarGroup(Names[i], LayoutStyles.All[i], [0.1 + 0.05 * i]))]) { Target = new PlotSpan(0.2, 0.3, "Target") }.Build()),
        new Panel(new BarPanel("Two", "Change", "%", ["Overshoot", "Ride comfort"], [.. Enumerable.Range(0, 3).Select(i => new BarGroup(Names[i], LayoutStyles.All[i], [i, -i]))]) { Upright = true, Target = new PlotSpan(-1, 1, "Target") }.Build(), 0, 1),
    ]);
}
