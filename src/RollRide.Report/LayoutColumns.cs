using RollRide.Plots;

namespace RollRide.Report;

/// <summary>The columns of a table that compares the layouts: the page's script hides them together with the curves.</summary>
internal static class LayoutColumns
{
    // More columns need the room beside their numbers.
    private const int Few = 4;

    // In the readout of the page's script, of letters of this size, a name may take this much of a picture's width.
    private const double ReadoutSize = 10;
    private const double WidestInReadout = 170;

    /// <summary>The class of a table with a column for each of so many layouts.</summary>
    public static Html Width(int layouts) => layouts > Few ? Html.Of($" class=\"many\"") : default;

    /// <summary>The headings, each with the layout's colour in the figures and a remark below its name.</summary>
    /// <param name="styles">The styles of the layouts.</param>
    /// <param name="names">Names of the layouts.</param>
    /// <param name="remark">A remark on the layout at a place; null for none.</param>
    public static Html Headings(LayoutStyles styles, IReadOnlyList<string> names, Func<int, string?> remark)
    {
        var readouts = DistinctNames.Shorten(names, text => PlotFont.Width(text, ReadoutSize) <= WidestInReadout);
        return Html.Join(names.Select((name, i) => Html.Of(
            $"<th scope=\"col\" data-layout=\"{name}\" data-readout=\"{readouts[i]}\">{Key(styles[name])}{name}{(remark(i) is { } text ? Html.Of($"<br><small>{text}</small>") : default)}</th>")));
    }

    /// <summary>The colour of a layout in every figure.</summary>
    private static Html Key(SeriesStyle style)
    {
        var color = style.Color;
        return Html.Trusted($"<svg class=\"key\" viewBox=\"0 0 12 12\" width=\"12\" height=\"12\" aria-hidden=\"true\"><rect width=\"12\" height=\"12\" fill=\"#{color.R:X2}{color.G:X2}{color.B:X2}\"/></svg> ");
    }
}
