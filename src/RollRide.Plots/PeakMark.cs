namespace RollRide.Plots;

/// <summary>A point of a curve that is worth its number: a peak, a crossing.</summary>
/// <param name="X">Horizontal place, in the axis' unit.</param>
/// <param name="Y">Vertical place, in the axis' unit.</param>
/// <param name="Label">What is written beside it, e.g. "−4.9 deg".</param>
/// <param name="Style">Style of the curve it belongs to.</param>
public sealed record PeakMark(double X, double Y, string Label, SeriesStyle Style)
{
    /// <summary>Horizontal place, in the axis' unit.</summary>
    public double X { get; } = double.IsFinite(X) ? X : throw new ArgumentOutOfRangeException(nameof(X), X, $"The mark “{Label}” must be at a finite place.");

    /// <summary>Vertical place, in the axis' unit.</summary>
    public double Y { get; } = double.IsFinite(Y) ? Y : throw new ArgumentOutOfRangeException(nameof(Y), Y, $"The mark “{Label}” must be at a finite place.");
}
