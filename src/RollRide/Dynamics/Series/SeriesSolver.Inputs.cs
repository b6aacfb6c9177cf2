namespace RollRide.Dynamics.Series;

/// <content>The inputs: road and lateral acceleration.</content>
internal sealed partial class SeriesSolver<T>
{
    private readonly double[] _expansion = new double[SeriesRow.Terms + 1];
    private readonly bool[] _moves = new bool[T.Count];
    private readonly bool[] _isStraight = [.. Enumerable.Repeat(true, T.Count)];

    private void EnterSegment(int lane)
    {
        var it = _lanes[lane];
        var segment = it.Car!.Segments[it.Segment];
        Scalar(_segmentEnd, 0, lane) = segment.End;
        _isStraight[lane] = segment.IsStraight;
        _inputTerms = Array.TrueForAll(_isStraight, straight => straight) ? 2 : SeriesRow.Terms;

        // Once for all terms, so that none is left of the segment before.
        _moves[lane] = true;
        ExpandInputs(lane);
        _moves[lane] = !segment.IsConstant;
    }

    /// <summary>The series of the inputs at the start of the step.</summary>
    private void ExpandInputs(int lane)
    {
        if (!_moves[lane])
            return;
        var it = _lanes[lane];
        var segment = it.Car!.Segments[it.Segment];
        var tyre = it.Car.Car.Vehicle.Tyre;
        ExpandRoad(segment.Left, 0);
        ExpandRoad(segment.Right, 1);
        segment.LateralAcceleration.Expand(it.End, _expansion.AsSpan(0, SeriesRow.Terms));
        for (var k = 0; k < SeriesRow.Terms; k++)
            Scalar(_series, (SeriesRow.Lateral * SeriesRow.Terms) + k, lane) = _expansion[k];

        void ExpandRoad(SeriesInput road, int side)
        {
            road.Expand(it.End, _expansion);
            for (var k = 0; k < SeriesRow.Terms; k++)
            {
                Scalar(_series, ((SeriesRow.Road + side) * SeriesRow.Terms) + k, lane) = _expansion[k];
                Scalar(_series, ((SeriesRow.LeftPush + side) * SeriesRow.Terms) + k, lane) =
                    (tyre.Stiffness * _expansion[k]) + (tyre.Damping * (k + 1) * _expansion[k + 1]);
            }
        }
    }
}
