using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>
/// A logarithmic axis that names 1, 2 and 5 of every decade where there is room, else 1 and 3, else 1 alone: so that a value can be
/// read though the axis spans less than two decades.
/// </summary>
internal sealed class DecadeAxis : LogarithmicAxis
{
    // Names stand at least so far apart, as a share of the distance that suits them on a linear axis.
    private const double LeastDistance = 0.5;

    private static readonly double[][] Choices = [[1, 2, 5], [1, 3], [1]];
    private static readonly double[] Minor = [1, 2, 3, 4, 5, 6, 7, 8, 9];

    /// <inheritdoc/>
    public override void GetTickValues(out IList<double> majorLabelValues, out IList<double> majorTickValues, out IList<double> minorTickValues)
    {
        majorLabelValues = majorTickValues = Within(Choices.FirstOrDefault(HasRoom, Choices[^1]));
        minorTickValues = Within(Minor);
    }

    private bool HasRoom(double[] digits)
    {
        var length = IsHorizontal() ? Math.Abs(ScreenMax.X - ScreenMin.X) : Math.Abs(ScreenMax.Y - ScreenMin.Y);
        if (length == 0)
            return true; // not laid out yet
        var closest = digits.Zip([.. digits.Skip(1), 10 * digits[0]], (one, next) => Math.Log10(next / one)).Min();
        return length * closest / Math.Log10(ActualMaximum / ActualMinimum) >= LeastDistance * IntervalLength;
    }

    /// <summary>The multiples of all powers of ten that lie on the axis.</summary>
    private List<double> Within(double[] digits)
    {
        const double rounding = 1e-9;
        var values = new List<double>();
        for (var decade = (int)Math.Floor(Math.Log10(ActualMinimum)); decade <= Math.Log10(ActualMaximum); decade++)
            values.AddRange(digits.Select(digit => digit * Math.Pow(10, decade)).Where(value => value >= ActualMinimum * (1 - rounding) && value <= ActualMaximum * (1 + rounding)));
        return values;
    }
}
