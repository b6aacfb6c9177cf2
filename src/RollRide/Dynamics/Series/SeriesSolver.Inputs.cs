using System.Runtime.CompilerServices;

namespace RollRide.Dynamics.Series;

/// <content>The inputs: road and lateral acceleration.</content>
internal sealed partial class SeriesSolver<T>
{
    private readonly double[] _expansion = new double[SeriesRow.Terms + 1];
    private readonly bool[] _isStraight = [.. Enumerable.Repeat(true, T.Count)];

    // The lanes whose inputs change with time, a bit each.
    private int _moving;

    private void EnterSegment(int lane)
    {
        var it = _lanes[lane];
        var segment = it.Car!.Segments[it.Segment];
        _segmentEnd[0, lane] = segment.End;
        _isStraight[lane] = segment.IsStraight;
        _inputTerms = Array.TrueForAll(_isStraight, straight => straight) ? 2 : SeriesRow.Terms;

        // Once all of them, and all their terms, so that none is left of the segment before.
        ExpandInputs(lane, isEntry: true);
        _moving = segment.IsConstant ? _moving & ~(1 << lane) : _moving | (1 << lane);
    }

    /// <summary>The series of the inputs at the start of the step; of those that stay as they are only at the entry of a segment.</summary>
    private void ExpandInputs(int lane, bool isEntry)
    {
        var it = _lanes[lane];
        var segment = it.Car!.Segments[it.Segment];
        if (isEntry || !segment.Left.IsConstant)
            ExpandRoad(lane, segment.Left, 0, isEntry);
        if (isEntry || !segment.Right.IsConstant)
            ExpandRoad(lane, segment.Right, 1, isEntry);
        if (!isEntry && segment.LateralAcceleration.IsConstant)
            return;
        segment.LateralAcceleration.Expand(_time[0, lane], _expansion.AsSpan(0, SeriesRow.Terms));
        var count = isEntry ? SeriesRow.Terms : segment.LateralAcceleration.TermCount;
        for (var k = 0; k < count; k++)
            _series[(SeriesRow.Lateral * SeriesRow.Terms) + k, lane] = _expansion[k];
    }

    private void ExpandRoad(int lane, SeriesInput road, int side, bool isEntry)
    {
        var car = _lanes[lane].Car!;
        road.Expand(_time[0, lane], _expansion);
        var (stiffness, damping) = (car.TyreStiffness, car.TyreDamping);
        ref var height = ref _series[(SeriesRow.Road + side) * SeriesRow.Terms, lane];
        ref var push = ref _series[(SeriesRow.LeftPush + side) * SeriesRow.Terms, lane];
        var count = isEntry ? SeriesRow.Terms : road.TermCount;
        for (var k = 0; k < count; k++)
        {
            var term = _expansion[k];
            height = term;
            push = (stiffness * term) + (damping * (k + 1) * _expansion[k + 1]);
            height = ref Unsafe.Add(ref height, T.Count);
            push = ref Unsafe.Add(ref push, T.Count);
        }
    }
}
