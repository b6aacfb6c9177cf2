namespace RollRide.Dynamics.Series;

/// <summary>The series of one step in each of some lanes.</summary>
internal interface ISeriesSource
{
    /// <summary>Number of lanes.</summary>
    int LaneCount { get; }

    /// <summary>The lanes.</summary>
    ReadOnlySpan<SeriesLane> Lanes { get; }

    /// <summary>
    /// The coefficients of the powers of the time since the step's start: row after row (<see cref="SeriesRow"/>), in each power
    /// after power, in each lane after lane.
    /// </summary>
    ReadOnlySpan<double> Terms { get; }

    /// <summary>Start of a lane's step, s.</summary>
    /// <param name="lane">The lane.</param>
    double Start(int lane);

    /// <summary>End of a lane's step, s.</summary>
    /// <param name="lane">The lane.</param>
    double End(int lane);

    /// <summary>The states at the end of a lane's step.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="state">Receives them.</param>
    void EndState(int lane, Span<double> state);
}
