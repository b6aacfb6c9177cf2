using System.Collections.Immutable;
using RollRide.Plots;

namespace RollRide.Report;

/// <summary>A report, written.</summary>
/// <param name="Page">The page, as HTML.</param>
/// <param name="Figures">The figures in it, without the frames of a slider.</param>
public sealed record WrittenReport(string Page, ImmutableArray<Figure> Figures);
