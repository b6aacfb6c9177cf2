using OxyPlot;

namespace RollRide.Plots;

/// <summary>One plot of a figure and its place in the grid.</summary>
/// <param name="Model">The plot.</param>
/// <param name="Row">Row, from 0 at the top.</param>
/// <param name="Column">Column, from 0 at the left.</param>
/// <param name="RowSpan">Rows it covers.</param>
/// <param name="ColumnSpan">Columns it covers.</param>
public sealed record Panel(PlotModel Model, int Row = 0, int Column = 0, int RowSpan = 1, int ColumnSpan = 1)
{
    /// <summary>Row, from 0 at the top.</summary>
    public int Row { get; } = AtLeast(0, Row, nameof(Row));

    /// <summary>Column, from 0 at the left.</summary>
    public int Column { get; } = AtLeast(0, Column, nameof(Column));

    /// <summary>Rows it covers.</summary>
    public int RowSpan { get; } = AtLeast(1, RowSpan, nameof(RowSpan));

    /// <summary>Columns it covers.</summary>
    public int ColumnSpan { get; } = AtLeast(1, ColumnSpan, nameof(ColumnSpan));

    internal int LastRow => Row + RowSpan - 1;

    internal int LastColumn => Column + ColumnSpan - 1;

    private static int AtLeast(int least, int value, string name) => value >= least
        ? value
        : throw new ArgumentOutOfRangeException(name, value, $"It must be at least {least}.");
}
