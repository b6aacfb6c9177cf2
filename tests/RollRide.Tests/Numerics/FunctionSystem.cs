using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

internal delegate void RightHandSide(double time, ReadOnlySpan<double> state, Span<double> derivative);

/// <summary>A system given as a function; its states are called y1, y2, …</summary>
internal sealed class FunctionSystem(int dimension, RightHandSide rightHandSide) : IOdeSystem
{
    public int Dimension => dimension;

    public List<(double Start, double End)> Segments { get; } = [];

    public string StateName(int index) => $"y{index + 1}";

    public void EnterSegment(double start, double end) => Segments.Add((start, end));

    public void Derivatives(double time, ReadOnlySpan<double> state, Span<double> derivative) =>
        rightHandSide(time, state, derivative);

    /// <summary>Integrates without breakpoints to a tolerance, relative and absolute, with steps of any length.</summary>
    public RunStatistics Run(double start, double end, double[] state, double tolerance, IStepObserver? observer = null) =>
        Integrator.Run(this, start, end, state, [], Tight(tolerance), observer);

    public static IntegratorOptions Tight(double tolerance) => new()
    {
        RelativeTolerance = tolerance,
        AbsoluteTolerance = tolerance,
        MaximumStep = double.PositiveInfinity,
    };
}

/// <summary>Passes every step to a function.</summary>
internal sealed class StepAction(Action<IDenseStep> action) : IStepObserver
{
    public void Observe(IDenseStep step) => action(step);
}
