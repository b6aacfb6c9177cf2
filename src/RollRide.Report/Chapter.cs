using System.Collections.Immutable;
using RollRide.Plots;

namespace RollRide.Report;

/// <summary>One step of the argument, written.</summary>
/// <param name="Title">Its heading: what it is about.</param>
/// <param name="Text">What to look for, a paragraph an item; escaped when the page is written.</param>
/// <param name="Figures">The figures that prove it.</param>
public sealed record Chapter(string Title, ImmutableArray<string> Text, ImmutableArray<Figure> Figures)
{
    /// <summary>Whether it is about all load states together; otherwise it shows the one that the report's curves are of.</summary>
    public bool IsOfAllLoads { get; init; }

    /// <summary>A table after the figures; none if empty.</summary>
    public Html Table { get; init; }

    /// <summary>What follows figures and table, one item each; escaped when the page is written.</summary>
    public ImmutableArray<string> Notes { get; init; } = [];

    /// <summary>Frames of which one is shown at a time, picked with a slider; none if null.</summary>
    public FrameSet? Frames { get; init; }
}

/// <summary>Figures of which one is shown at a time.</summary>
/// <param name="Label">What the slider sets.</param>
/// <param name="Frames">Each figure with the value of the slider at which it is shown, in order.</param>
/// <param name="Start">The frame shown first, and the only one where the page's script does not run.</param>
public sealed record FrameSet(string Label, ImmutableArray<(string Value, Figure Figure)> Frames, int Start);
