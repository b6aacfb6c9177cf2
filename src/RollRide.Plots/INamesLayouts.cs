namespace RollRide.Plots;

/// <summary>A part of a plot that shows layouts.</summary>
internal interface INamesLayouts
{
    /// <summary>Their names.</summary>
    IEnumerable<string> LayoutNames { get; }
}
