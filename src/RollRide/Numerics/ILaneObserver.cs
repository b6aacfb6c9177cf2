namespace RollRide.Numerics;

/// <summary>Observes the steps of all lanes at once.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal interface ILaneObserver<T>
    where T : struct, ILanes<T>
{
    /// <summary>The system was just evaluated where some lanes start a segment.</summary>
    /// <param name="lanes">A bit for each such lane.</param>
    void AtSegmentStart(int lanes);

    /// <summary>The system was just evaluated at the ends of the steps tried.</summary>
    void AtTrialEnd();

    /// <summary>Looks at the steps accepted. They are valid only during the call, and the system is still in their segments.</summary>
    /// <param name="steps">The steps, with the solution everywhere in them.</param>
    /// <param name="accepted">A bit for each lane whose step was accepted.</param>
    /// <returns>A bit for each lane whose run ends here, as <see cref="TakeFailure"/> tells.</returns>
    int Observe(DormandPrince54<T> steps, int accepted);

    /// <summary>Why a lane's run failed; null where it ends early because its figures are complete.</summary>
    Exception? TakeFailure(int lane);
}
