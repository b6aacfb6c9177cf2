using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>One axis of a map.</summary>
/// <param name="Quantity">What it shows.</param>
/// <param name="Unit">Its unit; "" for none.</param>
/// <param name="Values">Its values, ascending, at least two.</param>
/// <param name="IsLogarithmic">Whether it is logarithmic.</param>
public sealed record ContourAxis(string Quantity, string Unit, IReadOnlyList<double> Values, bool IsLogarithmic)
{
    internal Axis Build(AxisPosition position)
    {
        var range = new PlotRange(Values[0], Values[^1]);
        return IsLogarithmic ? PlotAxis.Logarithmic(position, Quantity, Unit, range) : PlotAxis.Linear(position, Quantity, Unit, range);
    }
}
