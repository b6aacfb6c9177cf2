namespace RollRide.Plots;

/// <summary>The right end of a curve, and how it is named.</summary>
/// <param name="Name">Name of the layout, or what a reference line stands for.</param>
/// <param name="Style">How the curve is drawn.</param>
/// <param name="X">Where the curve ends, in the axis' unit.</param>
/// <param name="Y">Where the curve ends, in the axis' unit.</param>
internal readonly record struct CurveEnd(string Name, SeriesStyle Style, double X, double Y);
