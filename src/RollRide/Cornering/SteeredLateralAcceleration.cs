using RollRide.Numerics;

namespace RollRide.Cornering;

/// <summary>
/// The lateral acceleration of a single-track model steered by a steering-wheel angle over time at constant speed. The model
/// does not feel the body's roll, so it is integrated once, when this is made. Immutable.
/// </summary>
public sealed class SteeredLateralAcceleration : ICorneringInput
{
    /// <summary>Much finer than any run that reads the result, so that it adds no error of its own.</summary>
    private static readonly IntegratorOptions Fine = new() { RelativeTolerance = 1e-10, AbsoluteTolerance = 1e-12 };

    private readonly SingleTrackModel _model;
    private readonly PiecewiseSignal _steeringWheel;
    private readonly double _speed;
    private readonly Trajectory _motion = new();
    private readonly Lazy<CornerAlone> _alone;

    /// <summary>Integrates the model from straight running, or from the steady turn of an angle held from the outset.</summary>
    /// <param name="model">The single-track model.</param>
    /// <param name="steeringWheel">Steering-wheel angle, rad, over time, s; positive to the left.</param>
    /// <param name="speed">Forward speed, m/s; positive, below the critical speed.</param>
    /// <param name="duration">
    /// The input is known from time zero, or from the first breakpoint if that is earlier, to this time, s; positive.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">Speed or duration is out of range, or the vehicle unstable.</exception>
    public SteeredLateralAcceleration(SingleTrackModel model, PiecewiseSignal steeringWheel, double speed, double duration)
    {
        ArgumentNullException.ThrowIfNull(model);
        ArgumentNullException.ThrowIfNull(steeringWheel);
        Require.Positive(duration, "s");
        (_model, _steeringWheel, _speed) = (model, steeringWheel, speed);
        _alone = new(() => CornerAlone.Of(Breakpoints, (by, until) => new SteeredLateralAcceleration(model, steeringWheel.Shifted(by), speed, until)));
        FinalLateralAcceleration = model.LateralAccelerationGain(speed) * FinalCommand / model.SteeringRatio;

        // Before the first breakpoint the angle is constant, and so is the steady state that belongs to it.
        double start = Math.Min(0, StartTime);
        double angle = steeringWheel.Value(double.BitDecrement(start)) / model.SteeringRatio;
        double[] state = [speed * model.SideslipGain(speed) * angle, model.YawGain(speed) * angle];
        Integrator.Run(new Motion(this), start, duration, state, Breakpoints, Fine, _motion);
    }

    /// <inheritdoc/>
    public IReadOnlyList<double> Breakpoints => _steeringWheel.Breakpoints;

    /// <inheritdoc/>
    public double StartTime => _steeringWheel.Breakpoints is [var first, ..] ? first : double.PositiveInfinity;

    /// <inheritdoc/>
    public double FinalLateralAcceleration { get; }

    /// <inheritdoc/>
    public double FinalCommand => _steeringWheel.FinalValue;

    /// <inheritdoc/>
    public CornerAlone Alone => _alone.Value;

    /// <inheritdoc/>
    public ICorneringCursor CreateCursor() => new Cursor(this, 0);

    /// <inheritdoc/>
    /// <remarks><c>Yf = (m b ay + Izz ψ̈)/l</c> on the mass <c>m b/l</c> that the front axle carries, and <c>Yr = (m a ay − Izz ψ̈)/l</c> on <c>m a/l</c>.</remarks>
    public (ICorneringCursor Front, ICorneringCursor Rear) CreateAxleCursors() => (
        new Cursor(this, _model.YawInertia / (_model.Mass * _model.B)),
        new Cursor(this, -_model.YawInertia / (_model.Mass * _model.A)));

    private sealed class Motion(SteeredLateralAcceleration input) : IOdeSystem
    {
        private readonly SignalCursor _steeringWheel = input._steeringWheel.CreateCursor();

        public int Dimension => 2;

        public string StateName(int index) => index == 0 ? "lateral velocity (m/s)" : "yaw rate (rad/s)";

        public void EnterSegment(double start, double end) => _steeringWheel.EnterSegment(0.5 * (start + end));

        public void Derivatives(double time, ReadOnlySpan<double> state, Span<double> derivative) =>
            (derivative[0], derivative[1]) = input._model.Derivatives(
                state[0], state[1], _steeringWheel.Value(time) / input._model.SteeringRatio, input._speed);
    }

    private sealed class Cursor(SteeredLateralAcceleration input, double yawArm) : ICorneringCursor
    {
        private readonly SignalCursor _steeringWheel = input._steeringWheel.CreateCursor();
        private int _step;

        // The vehicle goes on yawing after its steering wheel has come to rest.
        public bool IsHeld => false;

        public void EnterSegment(double midpoint) => _steeringWheel.EnterSegment(midpoint);

        public double LateralAcceleration(double time)
        {
            Span<double> state = stackalloc double[2];
            input._motion.StateAt(time, state, ref _step);
            var angle = Command(time) / input._model.SteeringRatio;
            var ay = input._model.LateralAcceleration(state[0], state[1], angle, input._speed);
            return yawArm == 0 ? ay : ay + (yawArm * input._model.Derivatives(state[0], state[1], angle, input._speed).YawAcceleration);
        }

        public double Command(double time) => _steeringWheel.Value(time);
    }
}
