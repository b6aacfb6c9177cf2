namespace RollRide.Dynamics.Series;

/// <summary>The inputs of a run between two breakpoints.</summary>
/// <param name="End">End of the segment, s.</param>
/// <param name="Left">Road under the left wheel, m, over time, s.</param>
/// <param name="Right">Road under the right wheel, m, over time, s.</param>
/// <param name="LateralAcceleration">Lateral acceleration, m/s², over time, s.</param>
internal sealed record SeriesSegment(double End, SeriesInput Left, SeriesInput Right, SeriesInput LateralAcceleration)
{
    /// <summary>Whether all inputs are straight lines.</summary>
    public bool IsStraight { get; } = Left.IsStraight && Right.IsStraight && LateralAcceleration.IsStraight;

    /// <summary>Whether all inputs stay as they are.</summary>
    public bool IsConstant { get; } = Left.IsConstant && Right.IsConstant && LateralAcceleration.IsConstant;
}
