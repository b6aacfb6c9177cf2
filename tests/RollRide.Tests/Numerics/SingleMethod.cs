using System.Runtime.InteropServices;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

/// <summary>The one-step method in single numbers, for a system of single numbers.</summary>
internal sealed class SingleMethod
{
    private readonly DormandPrince54<OneLane> _method;
    private readonly LaneStep<OneLane> _step;
    private readonly Counted _system;

    public SingleMethod(IOdeSystem system)
    {
        _system = new Counted(system);
        _method = new DormandPrince54<OneLane>(_system);
        _step = new LaneStep<OneLane>(_method, 0, system.Dimension);
    }

    public double Time => _method.Time.Value;

    public double Start => _step.Start;

    public double End => _step.End;

    public ReadOnlySpan<double> State => _method.State.Scalars;

    /// <summary>How often the right-hand side was evaluated.</summary>
    public long DerivativeEvaluations => _system.Evaluations;

    public void Restart(double time, ReadOnlySpan<double> state)
    {
        _method.Start(0, time, state);
        _method.EvaluateStart(1);
        _step.Forget();
    }

    public double TryStep(double end, double relativeTolerance, double absoluteTolerance) =>
        _method.TryStep(new(end), new(relativeTolerance), new(absoluteTolerance)).Value;

    public void Accept() => _method.Accept(1);

    public void StateAt(double time, Span<double> state) => _step.StateAt(time, state);

    private sealed class Counted(IOdeSystem system) : IOdeSystem<OneLane>
    {
        public long Evaluations { get; private set; }

        public int Dimension => system.Dimension;

        public string StateName(int index) => system.StateName(index);

        public void EnterSegment(int lane, double start, double end) => system.EnterSegment(start, end);

        public void Derivatives(in OneLane time, ReadOnlySpan<OneLane> state, Span<OneLane> derivative)
        {
            Evaluations++;
            system.Derivatives(time.Value, MemoryMarshal.Cast<OneLane, double>(state), MemoryMarshal.Cast<OneLane, double>(derivative));
        }

        public bool HasFaults => false;

        public Exception? TakeFault(int lane) => null;
    }
}
