using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>One integration with the figures gathered from it: a manoeuvre, or a corner by itself. Not thread-safe.</summary>
/// <param name="car">Vehicle and layout.</param>
/// <param name="manoeuvre">Road, cornering and duration.</param>
/// <param name="options">Settings of the integrator.</param>
/// <param name="begin">Makes what gathers the figures.</param>
/// <param name="ofCorner">Whether it is a corner from rest; else a manoeuvre.</param>
internal sealed class MeasuredPart(AssembledHalfCar car, Manoeuvre manoeuvre, IntegratorOptions options, Func<LaneRunFigures> begin, bool ofCorner)
{
    private readonly AssembledHalfCar _car = car;
    private readonly Manoeuvre _manoeuvre = manoeuvre;
    private readonly IntegratorOptions _options = options;
    private readonly Func<LaneRunFigures> _begin = begin;
    private readonly bool _ofCorner = ofCorner;

    /// <summary>Makes an observer of every step; null for none.</summary>
    public Func<HalfCarEquations, IStepObserver>? Observer { get; set; }

    /// <summary>What is gathered; null before the integration has begun.</summary>
    public LaneRunFigures? Figures { get; private set; }

    /// <summary>What the integration cost; null until it has ended well.</summary>
    public RunStatistics? Statistics { get; private set; }

    /// <summary>Why it failed; null if it did not.</summary>
    public Exception? Failure { get; private set; }

    /// <summary>Makes an integration by itself.</summary>
    public static void MakeAlone(MeasuredPart part, CancellationToken cancellation)
    {
        var equations = new HalfCarEquations(part._car, part._manoeuvre.Road, part._manoeuvre.Cornering);
        Integrate(equations.System, equations, new Queue<MeasuredPart>([part]), cancellation);
    }

    /// <summary>Makes integrations side by side in lanes of one kind, those of one form together; all are corners from rest, or none is.</summary>
    public static void MakeSideBySide<T>(IEnumerable<MeasuredPart> parts, CancellationToken cancellation)
        where T : struct, ILanes<T>
    {
        foreach (var group in parts.GroupBy(part => (HalfCarForm.Of(part._car), part.MeasuresRide)))
        {
            var waiting = new Queue<MeasuredPart>(group);
            Integrate(new HalfCarEquations<T>(waiting.Peek()._car), null, waiting, cancellation);
        }
    }

    private bool MeasuresRide => RideRecorder.MeasuredSpan(_manoeuvre) is not null;

    private static void Integrate<T>(
        HalfCarEquations<T> equations, HalfCarEquations? alone, Queue<MeasuredPart> waiting, CancellationToken cancellation)
        where T : struct, ILanes<T>
    {
        var like = waiting.Peek();
        var figures = new LaneFigures<T>(equations, alone, like._car, like._ofCorner, like.MeasuresRide);
        var integrator = new LaneIntegrator<T>(equations, new RolloverGuard<T>(equations, figures));
        figures.Watch(integrator.Method);
        integrator.Run(() => waiting.TryDequeue(out var part) ? new InLane<T>(part, figures) : null, cancellation);
    }

    private sealed class InLane<T>(MeasuredPart part, LaneFigures<T> figures) : HalfCarRun(part._car, part._manoeuvre, part._options)
        where T : struct, ILanes<T>
    {
        private IStepObserver? _observer;

        public override IStepObserver? Observer => _observer;

        public override double[] Load(int lane)
        {
            part.Figures = part._begin();
            var state = RestState();
            var equations = figures.Enter(lane, part.Figures);
            _observer = part.Observer?.Invoke(equations);
            return state;
        }

        public override void Complete(int lane, ReadOnlySpan<double> state, RunStatistics statistics)
        {
            figures.Leave(lane);
            part.Statistics = statistics;
        }

        public override void Fail(int lane, Exception failure)
        {
            figures.Leave(lane);
            part.Failure = failure;
        }
    }
}
