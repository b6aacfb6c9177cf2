namespace RollRide.Plots;

/// <summary>The limits of an axis.</summary>
public readonly record struct PlotRange
{
    /// <summary>Makes a range.</summary>
    /// <param name="minimum">Lower limit.</param>
    /// <param name="maximum">Upper limit, greater than the lower.</param>
    /// <exception cref="ArgumentException">A limit is not finite, or they are not in order.</exception>
    public PlotRange(double minimum, double maximum)
    {
        if (!double.IsFinite(minimum) || !double.IsFinite(maximum) || minimum >= maximum)
            throw new ArgumentException(FormattableString.Invariant($"The range must have finite limits in ascending order, not {minimum} to {maximum}."));
        Minimum = minimum;
        Maximum = maximum;
    }

    /// <summary>Lower limit.</summary>
    public double Minimum { get; }

    /// <summary>Upper limit.</summary>
    public double Maximum { get; }

    /// <summary>The range of some values.</summary>
    /// <param name="values">The values; at least one, all finite.</param>
    /// <param name="padding">Room left free at each end, as a share of the range.</param>
    /// <remarks>Where all values are equal, the range reaches a tenth of the value, or 1 if it is zero, to each side.</remarks>
    /// <exception cref="ArgumentException">There is no value, or one is not finite.</exception>
    public static PlotRange Of(IEnumerable<double> values, double padding = 0)
    {
        var (low, high) = (double.PositiveInfinity, double.NegativeInfinity);
        foreach (var value in values)
        {
            if (!double.IsFinite(value))
                throw new ArgumentException(FormattableString.Invariant($"A value to plot is {value}: all must be finite."), nameof(values));
            low = Math.Min(low, value);
            high = Math.Max(high, value);
        }
        if (low > high)
            throw new ArgumentException("There is no value to plot.", nameof(values));
        if (low == high)
        {
            var half = low == 0 ? 1 : Math.Abs(low) / 10;
            return new PlotRange(low - half, high + half);
        }
        var room = padding * (high - low);
        return new PlotRange(low - room, high + room);
    }

    /// <summary>The range from the lowest limit of several to the highest.</summary>
    /// <param name="ranges">The ranges; at least one.</param>
    public static PlotRange Over(IEnumerable<PlotRange> ranges) => Of(ranges.SelectMany(range => new[] { range.Minimum, range.Maximum }));
}
