using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <summary>An observer that can take what it wants from the series of all lanes at once, which costs less than step by step and lane by lane.</summary>
internal interface ISeriesObserver : IStepObserver
{
    /// <summary>Whether this one can.</summary>
    bool TakesSeries { get; }

    /// <summary>Makes what gathers for the observers of all lanes. One serves all observers of a solver: they are of one kind.</summary>
    /// <typeparam name="T">The lanes.</typeparam>
    /// <param name="solver">The solver.</param>
    ISeriesGatherer NewGatherer<T>(SeriesSolver<T> solver)
        where T : struct, ILanes<T>;

    /// <summary>Lets the gatherer work for this observer from the start of a run.</summary>
    /// <param name="gatherer">What <see cref="NewGatherer"/> of this kind of observer has made.</param>
    /// <param name="lane">The lane of the run.</param>
    void Enter(ISeriesGatherer gatherer, int lane);
}

/// <summary>Gathers for the observers of all lanes of a solver.</summary>
internal interface ISeriesGatherer
{
    /// <summary>Looks at the step that the solver has just computed. Allocates nothing unless something rare happens.</summary>
    /// <param name="lanes">The lanes to look at, a bit each; all of them have been entered.</param>
    void Gather(int lanes);

    /// <summary>Hands over what is gathered: the run of a lane has reached its end.</summary>
    /// <param name="lane">The lane.</param>
    void Leave(int lane);
}
