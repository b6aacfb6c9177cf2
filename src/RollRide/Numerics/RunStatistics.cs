namespace RollRide.Numerics;

/// <summary>What an integration cost.</summary>
/// <param name="AcceptedSteps">Number of steps that met the tolerance.</param>
/// <param name="RejectedSteps">Number of steps tried again because they did not.</param>
/// <param name="DerivativeEvaluations">Number of evaluations of the right-hand side, without those of observers.</param>
public sealed record RunStatistics(long AcceptedSteps, long RejectedSteps, long DerivativeEvaluations)
{
    /// <summary>Name of the method, as results show it.</summary>
    public string Method { get; init; } = "Dormand-Prince 5(4)";
}
