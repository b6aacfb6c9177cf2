using OxyPlot;
using OxyPlot.Annotations;
using OxyPlot.Axes;

namespace RollRide.Plots;

/// <summary>
/// A panel that compares a number of each layout, in one or more categories. Each bar carries its value at its end, and the marker of
/// its layout at its foot, so that it can be read in greyscale.
/// </summary>
public sealed record BarPanel
{
    /// <summary>Makes a panel.</summary>
    /// <param name="title">Its title, or null.</param>
    /// <param name="quantity">What the bars show.</param>
    /// <param name="unit">The unit; "" for none.</param>
    /// <param name="categories">Names of the categories, at least one. A single one is not written: the bars carry their layouts' names.</param>
    /// <param name="groups">The layouts, at least one.</param>
    /// <exception cref="ArgumentException">There is no category or no layout, or a layout lacks a value for a category.</exception>
    public BarPanel(string? title, string quantity, string unit, IReadOnlyList<string> categories, IReadOnlyList<BarGroup> groups)
    {
        if (categories.Count == 0 || groups.Count == 0)
            throw new ArgumentException("A panel of bars must have at least one category and one layout.", nameof(groups));
        foreach (var group in groups)
        {
            if (group.Values.Count != categories.Count)
                throw new ArgumentException($"The layout “{group.Name}” has {group.Values.Count} values for {categories.Count} categories.", nameof(groups));
        }
        (Title, Quantity, Unit, Categories, Groups) = (title, quantity, unit, categories, groups);
    }

    /// <summary>Its title, or null.</summary>
    public string? Title { get; }

    /// <summary>What the bars show.</summary>
    public string Quantity { get; }

    /// <summary>The unit.</summary>
    public string Unit { get; }

    /// <summary>Names of the categories.</summary>
    public IReadOnlyList<string> Categories { get; }

    /// <summary>The layouts.</summary>
    public IReadOnlyList<BarGroup> Groups { get; }

    /// <summary>Decimals of the values written at the bars, 0 to 9.</summary>
    public int Decimals { get; init; } = 1;

    /// <summary>Room for the numbers at the ends of the bars, as a share of the longest bar; low panels need more.</summary>
    public double Headroom { get; init; } = 0.2;

    /// <summary>Whether the bars stand upright; otherwise they lie.</summary>
    public bool Upright { get; init; }

    /// <summary>Where the values should be, or null.</summary>
    public PlotSpan? Target { get; init; }

    /// <summary>Limits of single categories, each a dashed line across that category's bars.</summary>
    public IReadOnlyList<BarLimit> Limits { get; init; } = [];

    /// <summary>Whether the bars of a single category carry their layouts' names; otherwise keys above the panels do.</summary>
    public bool NamesBars { get; init; } = true;

    /// <summary>Limits of the axis of values, common to several panels; if null, from the bars.</summary>
    public PlotRange? Range { get; init; }

    /// <summary>Builds the plot.</summary>
    public PlotModel Build()
    {
        var model = Theme.Panel(Title);
        var namesBars = NamesBars && Categories.Count == 1;
        var names = namesBars ? Groups.Select(group => group.Name).ToArray() : Categories;
        var (nameSide, valueSide) = Upright ? (AxisPosition.Bottom, AxisPosition.Left) : (AxisPosition.Left, AxisPosition.Bottom);
        model.Axes.Add(PlotAxis.Names(nameSide, names));
        var value = PlotAxis.Linear(valueSide, Quantity, Unit, Range ?? ValueRange());
        model.Axes.Add(value);
        AddTarget(model);
        Theme.AddZeroLine(model, value);
        model.Annotations.Add(new Bars(Groups, Limits, Decimals, Upright, namesBars));
        if (!namesBars)
            model.Annotations.Add(new DirectLabels([.. Groups.Select(group => new CurveEnd(group.Name, group.Style, 0, 0))], LabelPlacement.AbovePanels, []));
        return model;
    }

    /// <summary>From zero, with room for the numbers at the ends of the bars.</summary>
    public PlotRange ValueRange()
    {
        var tips = PlotRange.Of([0, .. Groups.SelectMany(group => group.Values), .. Limits.Select(limit => limit.Value)]);
        var room = Headroom * (tips.Maximum - tips.Minimum);
        var bars = new PlotRange(tips.Minimum < 0 ? tips.Minimum - room : 0, tips.Maximum > 0 ? tips.Maximum + room : 0);
        return Target is null ? bars : new PlotRange(Math.Min(bars.Minimum, Target.From), Math.Max(bars.Maximum, Target.To));
    }

    private void AddTarget(PlotModel model)
    {
        if (Target is null)
            return;
        if (!Upright)
        {
            SpanLabels.AddTo(model, [Target], _ => Theme.Target);
            return;
        }
        model.Annotations.Add(new RectangleAnnotation { MinimumY = Target.From, MaximumY = Target.To, Fill = Theme.Target, Layer = AnnotationLayer.BelowAxes });
        if (Target.Label.Length > 0)
            model.Annotations.Add(new TargetName(Target));
    }
}
