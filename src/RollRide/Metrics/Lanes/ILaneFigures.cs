using RollRide.Dynamics.Series;

namespace RollRide.Metrics.Lanes;

/// <summary>Gathers the figures of the runs in all lanes of a solver at once.</summary>
internal interface ILaneFigures : ISeriesGatherer
{
    /// <summary>Starts the figures of a run.</summary>
    /// <param name="lane">Its lane.</param>
    /// <param name="recorder">Receives them.</param>
    void Enter(int lane, MetricsRecorder recorder);
}
