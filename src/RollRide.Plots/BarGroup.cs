namespace RollRide.Plots;

/// <summary>One layout's bars, one in each category.</summary>
public sealed record BarGroup
{
    /// <summary>Makes the bars of a layout.</summary>
    /// <param name="name">Name of the layout.</param>
    /// <param name="style">Its style, see <see cref="LayoutStyles"/>.</param>
    /// <param name="values">The values, finite, one for each category.</param>
    /// <exception cref="ArgumentException">A value is not finite.</exception>
    public BarGroup(string name, SeriesStyle style, IReadOnlyList<double> values)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        if (values.Any(value => !double.IsFinite(value)))
            throw new ArgumentException($"The values of the layout “{name}” must be finite.", nameof(values));
        (Name, Style, Values) = (name, style, values);
    }

    /// <summary>Name of the layout.</summary>
    public string Name { get; }

    /// <summary>How they are drawn.</summary>
    public SeriesStyle Style { get; }

    /// <summary>The values, one for each category.</summary>
    public IReadOnlyList<double> Values { get; }
}
