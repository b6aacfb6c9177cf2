using RollRide.Numerics;

namespace RollRide.Cornering;

/// <summary>A lateral acceleration given over time, m/s²; it is its own command. Immutable.</summary>
public sealed class GivenLateralAcceleration : ICorneringInput
{
    private readonly PiecewiseSignal _signal;
    private readonly PiecewiseSignal _rear;
    private readonly Lazy<CornerAlone> _alone;

    /// <summary>Makes the input.</summary>
    /// <param name="signal">The lateral acceleration, m/s², over time, s.</param>
    /// <param name="rearDelay">How much later the rear axle of a vehicle with two has the same lateral acceleration, s; 0 or more.</param>
    public GivenLateralAcceleration(PiecewiseSignal signal, double rearDelay = 0)
    {
        _signal = signal ?? throw new ArgumentNullException(nameof(signal));
        RearDelay = Require.NotNegative(rearDelay, "s");
        _rear = rearDelay == 0 ? signal : signal.Shifted(rearDelay);
        Breakpoints = rearDelay == 0 ? signal.Breakpoints : Ascending.Once([.. signal.Breakpoints, .. _rear.Breakpoints]);
        _alone = new(() => CornerAlone.Of(Breakpoints, (by, _) => new GivenLateralAcceleration(_signal.Shifted(by), rearDelay)));
    }

    /// <summary>Driving straight ahead: no lateral acceleration at any time.</summary>
    public static GivenLateralAcceleration StraightAhead { get; } = new(PiecewiseSignal.Zero);

    /// <inheritdoc/>
    public IReadOnlyList<double> Breakpoints { get; }

    /// <inheritdoc/>
    public double StartTime => _signal.Breakpoints is [var first, ..] ? first : double.PositiveInfinity;

    /// <inheritdoc/>
    public double FinalLateralAcceleration => _signal.FinalValue;

    /// <inheritdoc/>
    public double FinalCommand => _signal.FinalValue;

    /// <inheritdoc/>
    public double RearDelay { get; }

    /// <inheritdoc/>
    public CornerAlone Alone => _alone.Value;

    /// <inheritdoc/>
    public ICorneringCursor CreateCursor() => new Cursor(_signal.CreateCursor());

    /// <inheritdoc/>
    public (ICorneringCursor Front, ICorneringCursor Rear) CreateAxleCursors() => (CreateCursor(), new Cursor(_rear.CreateCursor()));

    /// <summary>The lateral acceleration, m/s², over time, s.</summary>
    internal PiecewiseSignal Signal => _signal;

    private sealed class Cursor(SignalCursor signal) : ICorneringCursor
    {
        public bool IsHeld => signal.IsHeld;

        public void EnterSegment(double midpoint) => signal.EnterSegment(midpoint);

        public double LateralAcceleration(double time) => signal.Value(time);

        public double Command(double time) => signal.Value(time);
    }
}
