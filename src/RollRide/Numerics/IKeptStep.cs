namespace RollRide.Numerics;

/// <summary>A step whose solution can be kept after the step has passed.</summary>
internal interface IKeptStep : IDenseStep
{
    /// <summary>What is to be kept: as many numbers for every step of a run. Valid until the next step.</summary>
    ReadOnlySpan<double> Coefficients { get; }

    /// <summary>Evaluates a step kept, this one or another of the same run. Thread-safe.</summary>
    /// <param name="coefficients">What was kept of it.</param>
    /// <param name="fraction">Where in the step: 0 at its start, 1 at its end.</param>
    /// <param name="state">Receives the states.</param>
    void Evaluate(ReadOnlySpan<double> coefficients, double fraction, Span<double> state);
}
