using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>
/// Reads a <see cref="Road"/> as it is driven over, within one segment between two breakpoints after the other. Allocates
/// nothing when used; not thread-safe: one per run.
/// </summary>
public sealed class RoadCursor
{
    private readonly SignalCursor _left, _right;
    private readonly RandomRoadCursor? _random;
    private readonly double _speed;
    private readonly double _behind;

    internal RoadCursor(Road road, double behind)
    {
        _behind = behind;
        _left = road.Left.CreateCursor();
        _right = road.Right.CreateCursor();
        _random = road.Unevenness?.CreateCursor();
        _speed = road.Speed;
    }

    /// <summary>Chooses the pieces of road that lie in the segment read from now on.</summary>
    /// <param name="midTime">A time strictly inside the segment, s.</param>
    public void EnterSegment(double midTime)
    {
        _left.EnterSegment((_speed * midTime) - _behind);
        _right.EnterSegment((_speed * midTime) - _behind);
    }

    /// <summary>Whether neither wheel is moved throughout the segment entered last.</summary>
    internal bool IsHeld => _random is null && _left.IsHeld && _right.IsHeld;

    /// <summary>The road at a time.</summary>
    /// <param name="time">Time, s, within the segment entered last, ends included.</param>
    /// <exception cref="InvalidOperationException">No segment has been entered.</exception>
    public RoadSample Sample(double time)
    {
        double distance = (_speed * time) - _behind;
        var (left, leftSlope) = _left.At(distance);
        var (right, rightSlope) = _right.At(distance);
        if (_random is null)
            return new RoadSample(left, right, _speed * leftSlope, _speed * rightSlope);
        var random = _random.At(distance);
        return new RoadSample(random.Left + left, random.Right + right, _speed * (random.LeftRate + leftSlope), _speed * (random.RightRate + rightSlope));
    }
}
