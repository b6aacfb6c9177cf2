using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>One axis of a map.</summary>
/// <param name="Quantity">What it shows.</param>
/// <param name="Unit">Its unit; "" for none.</param>
/// <param name="Values">Its values, ascending, at least two.</param>
/// <param name="IsLogarithmic">Whether it is logarithmic.</param>
public sealed record ContourAxis(string Quantity, string Unit, IReadOnlyList<double> Values, bool IsLogarithmic)
{
    // Room beyond the outermost values, so that their dots are whole.
    private const double Padding = 0.04;

    internal Axis Build(AxisPosition position)
    {
        var range = IsLogarithmic
            ? new PlotRange(Values[0] * Math.Pow(Values[0] / Values[^1], Padding), Values[^1] * Math.Pow(Values[^1] / Values[0], Padding))
            : PlotRange.Of(Values, Padding);
        return IsLogarithmic ? PlotAxis.Logarithmic(position, Quantity, Unit, range) : PlotAxis.Linear(position, Quantity, Unit, range);
    }

    /// <summary>The value between two neighbours at a share of their distance on the axis.</summary>
    internal double Between(int lower, double share) => share == 0 ? Values[lower]
        : IsLogarithmic ? Values[lower] * Math.Pow(Values[lower + 1] / Values[lower], share)
        : Values[lower] + ((Values[lower + 1] - Values[lower]) * share);
}
