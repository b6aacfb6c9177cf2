using System.Globalization;
using OxyPlot;
using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>Axes in the look of <see cref="Theme"/>. Each says what it shows and in which unit: "Roll angle [deg]".</summary>
public static class PlotAxis
{
    /// <summary>Marks an axis of time in s, so that vector pictures can be read at an instant.</summary>
    public const string TimeKey = "time";

    private const double HorizontalTickDistance = 75;
    private const double VerticalTickDistance = 36;

    /// <summary>A linear axis with fixed limits and round steps.</summary>
    /// <param name="position">Where it stands.</param>
    /// <param name="title">What it shows.</param>
    /// <param name="unit">The unit; "" for a number without one.</param>
    /// <param name="range">The limits.</param>
    public static LinearAxis Linear(AxisPosition position, string title, string unit, PlotRange range)
    {
        var axis = new LinearAxis();
        Dress(axis, position, title, unit, range);
        axis.LabelFormatter = value => PlotText.Number(value, PlotText.DecimalsFor(axis.ActualMajorStep));
        return axis;
    }

    /// <summary>A logarithmic axis with fixed limits, for frequencies.</summary>
    /// <param name="position">Where it stands.</param>
    /// <param name="title">What it shows.</param>
    /// <param name="unit">The unit.</param>
    /// <param name="range">The limits, both greater than 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A limit is not greater than 0.</exception>
    public static LogarithmicAxis Logarithmic(AxisPosition position, string title, string unit, PlotRange range)
    {
        if (range.Minimum <= 0)
            throw new ArgumentOutOfRangeException(nameof(range), range.Minimum, $"The lower limit of the logarithmic axis “{title}” must be greater than 0.");
        var axis = new DecadeAxis();
        Dress(axis, position, title, unit, range);
        axis.LabelFormatter = value => value < 1e-3
            ? value.ToString("0.##e+0", CultureInfo.InvariantCulture)
            : PlotText.Number(value, Math.Max(0, -(int)Math.Floor(Math.Log10(value) + 1e-9)));
        axis.MinorGridlineStyle = LineStyle.Solid;
        axis.MinorGridlineColor = Theme.Shade;
        return axis;
    }

    /// <summary>An axis whose whole numbers 0, 1, 2 … stand for names.</summary>
    internal static LinearAxis Names(AxisPosition position, IReadOnlyList<string> names)
    {
        const double widestBeside = 140;
        const double gapBelow = 8;
        var axis = new LinearAxis
        {
            Position = position,
            Minimum = -0.5,
            Maximum = names.Count - 0.5,
            MajorStep = 1,
            MinorStep = 1,
            MajorTickSize = 0,
            MinorTickSize = 0,
            TextColor = Theme.Ink,
            FontSize = Theme.LabelSize,
        };
        var beside = position is AxisPosition.Left or AxisPosition.Right;
        if (beside)
            (axis.StartPosition, axis.EndPosition) = (1, 0); // the first name on top
        axis.LabelFormatter = value => value >= 0 && value < names.Count ? Wrapped()[(int)value] : "";
        return axis;

        IReadOnlyList<string> Wrapped()
        {
            const int mostLines = 3;
            // Below the bars a name has the width of its category, which is known once the axis has been placed.
            var width = beside ? widestBeside : Math.Abs(axis.ScreenMax.X - axis.ScreenMin.X) / names.Count - gapBelow;
            return [.. DistinctNames.Shorten(names, text => PlotFont.Fits(text, Theme.LabelSize, width, mostLines))
                .Select(name => string.Join('\n', PlotFont.Wrap(name, Theme.LabelSize, width, mostLines)))];
        }
    }

    private static void Dress(Axis axis, AxisPosition position, string title, string unit, PlotRange range)
    {
        var horizontal = position is AxisPosition.Bottom or AxisPosition.Top;
        axis.Position = position;
        axis.Title = title;
        axis.Unit = unit; // "" rather than null, with which the axis would draw its title unbroken
        axis.Minimum = range.Minimum;
        axis.Maximum = range.Maximum;
        axis.FontSize = Theme.LabelSize;
        axis.TitleFontSize = Theme.AxisTitleSize;
        axis.ClipTitle = false; // the page breaks it to fit
        axis.TextColor = Theme.Ink;
        axis.TicklineColor = Theme.Ink;
        axis.TickStyle = TickStyle.Outside;
        axis.MajorTickSize = 4;
        axis.MinorTickSize = 0;
        axis.AxisTitleDistance = horizontal ? 5 : 6;
        axis.IntervalLength = horizontal ? HorizontalTickDistance : VerticalTickDistance;
        axis.MajorGridlineStyle = LineStyle.Solid;
        axis.MajorGridlineColor = Theme.Grid;
        axis.MajorGridlineThickness = 1;
    }
}
