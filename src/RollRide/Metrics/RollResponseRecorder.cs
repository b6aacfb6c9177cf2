using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Metrics;

/// <summary>Gathers a <see cref="RollResponse"/> from a corner driven by itself, on a level road from rest. Not thread-safe; one per run.</summary>
internal sealed class RollResponseRecorder : LaneRunFigures
{
    /// <summary>Share of the way at which roll counts as having answered.</summary>
    private const double ReachedShare = 0.9;

    /// <summary>Half the band around the steady angle, as a share of the way.</summary>
    private const double SettledBand = 0.05;

    /// <summary>
    /// Amplitude of roll about the steady angle, over half the band and over the overshoot, below which the body has come to rest if it stays there for
    /// <see cref="StillPeriods"/>: then no later swing leaves the band or exceeds the peak.
    /// </summary>
    private const double Still = 0.6;

    /// <summary>In half a period roll turns round. At a single instant a small amplitude says too little: where stops or unlike valves couple them, heave passes its motion on to roll.</summary>
    private const double StillPeriods = 0.5;

    /// <summary>Overshoot, as a ratio, up to which a peak is none but rounding about the steady angle.</summary>
    private const double NoPeak = 1e-4;

    /// <summary>Share of the final command at which the time begins.</summary>
    private const double HalfCommand = 0.5;

    private readonly CornerAlone _corner;
    private readonly CornerStand _stand;
    private readonly int _direction;
    private Peak _left = new();
    private Peak _right = new();
    private readonly Beyond _command;
    private readonly Beyond _roll;
    private readonly OutsideBand _outside;
    private FirstRise _halfInput;
    private FirstRise _reached;
    private LastFall _settled;
    private readonly double? _period;
    private readonly double _way;
    private double _lastMoving;
    private double _now;
    private bool _lifts;

    /// <summary>Prepares the gathering.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="corner">The corner.</param>
    /// <param name="manoeuvre">The same as <see cref="ManoeuvreOf"/> makes it.</param>
    /// <param name="stand">How the body stands before and after it.</param>
    /// <param name="period">Period of body roll, s, as <see cref="LinearHalfCar.BodyRollPeriod"/>; null where the body would not swing.</param>
    public RollResponseRecorder(AssembledHalfCar car, CornerAlone corner, Manoeuvre manoeuvre, CornerStand stand, double? period)
        : base(car, manoeuvre, [manoeuvre.Duration])
    {
        _corner = corner;
        _stand = stand;
        _lastMoving = corner.Input.Breakpoints[^1];
        _period = period;
        var (before, steady) = (stand.AngleBefore, stand.SteadyAngle);
        _direction = corner.Input.FinalLateralAcceleration == 0 || corner.EndsAsItBegan || steady is null ? 0 : Math.Sign(steady.Value - before);
        if (_direction == 0)
            return;
        var way = steady!.Value - before;
        var command = corner.Input.FinalCommand;
        _command = new(Channel.CorneringCommand, HalfCommand * command, Math.Sign(command));
        _roll = new(Channel.BodyRoll, before + (ReachedShare * way), _direction);
        _outside = new(steady.Value, SettledBand * Math.Abs(way));
        _way = Math.Abs(way);
    }

    /// <summary>The corner by itself as a manoeuvre.</summary>
    public static Manoeuvre ManoeuvreOf(CornerAlone corner, double speed) =>
        new() { Road = Road.Flat(speed), Cornering = corner.Input, Duration = corner.Duration };

    /// <summary>Whether the corner need not be followed on once no figure can change any more, as where the body has come to rest.</summary>
    public bool EndsEarly { get; init; }

    /// <summary>Whether only the overshoot is wanted: then a step need not be followed beyond the swing after its peak, since later ones are smaller.</summary>
    public bool OnlyOvershoot { get; init; }

    /// <inheritdoc/>
    public override bool HasSeenEnough => EndsEarly && (IsStill || (OnlyOvershoot && HasPeak && _now - Furthest.Time > StillPeriods * _period));

    private bool IsStill => HasPeak && _settled.Time is not null && _now - _lastMoving > StillPeriods * _period;

    private bool HasSettled => (IsStill ? Manoeuvre.Duration : _now) - _settled.Time > _period;

    private bool HasPeak => _direction != 0 && Overshoot > NoPeak;

    /// <inheritdoc/>
    public override void Add(StepView step)
    {
        for (var node = 0; node < GaussLobatto.Count; node++)
            _lifts |= step[node, Channel.TyreContactLeft] < 0 || step[node, Channel.TyreContactRight] < 0;
        Span<double> roll = stackalloc double[GaussLobatto.Count], values = stackalloc double[GaussLobatto.Count];
        for (var node = 0; node < roll.Length; node++)
            roll[node] = step[node, Channel.BodyRoll];
        if (_direction >= 0)
            _left.Add(step, new Value(Channel.BodyRoll), roll);
        if (_direction <= 0)
        {
            for (var node = 0; node < roll.Length; node++)
                values[node] = -roll[node];
            _right.Add(step, new Value(Channel.BodyRoll, -1), values);
        }

        if (_direction == 0)
            return;
        if (_halfInput.Time is null)
        {
            for (var node = 0; node < roll.Length; node++)
                values[node] = _command.At(step[node, Channel.CorneringCommand]);
            _halfInput.Add(step, _command, values);
        }

        if (_reached.Time is null)
        {
            for (var node = 0; node < roll.Length; node++)
                values[node] = _roll.At(roll[node]);
            _reached.Add(step, _roll, values);
        }

        for (var node = 0; node < roll.Length; node++)
            values[node] = _outside.At(roll[node]);
        _settled.Add(step, _outside, values);
        _now = step.End;
        if (!IsQuiet(roll[^1] - _stand.SteadyAngle!.Value, step[GaussLobatto.Count - 1, Channel.BodyRollRate]))
            _lastMoving = Math.Max(_lastMoving, _now);
    }

    private bool IsQuiet(double roll, double rate)
    {
        var still = Still * Math.Min(SettledBand, Overshoot!.Value) * _way;
        return Math.Abs(roll) <= still && _period is { } period && MotionLeft.AmplitudeOf(roll, rate, period) <= still;
    }

    /// <summary>Overshoot as a ratio; null where there is no steady angle to go beyond.</summary>
    public double? Overshoot => _direction == 0 ? null : ((Furthest.Angle - _stand.AngleBefore) / (_stand.SteadyAngle!.Value - _stand.AngleBefore)) - 1;

    private (double Angle, double Time) Furthest =>
        (_direction == 0 ? _left.Value >= _right.Value : _direction > 0) ? (_left.Value, _left.Time) : (-_right.Value, _right.Time);

    /// <summary>What was gathered.</summary>
    /// <param name="failure">Why the corner could not be followed to its end; null if it could.</param>
    public RollResponse ToResponse(Exception? failure) => new()
    {
        SteadyAngle = _stand.SteadyAngle,
        AngleBefore = _stand.AngleBefore,
        Gradient = _stand.Gradient,
        PeakAngle = failure is null ? Furthest.Angle : null,
        Overshoot = failure is null ? Overshoot : null,
        ResponseTime = failure is null ? _reached.Time - _halfInput.Time : null,
        PeakTime = failure is null && HasPeak ? Furthest.Time - _halfInput.Time : null,
        SettlingTime = failure is null && HasSettled ? _settled.Time : null,
        RollPeriod = _period,
        EquivalentRamp = _corner.EquivalentRamp,
        LiftsWheel = _lifts,
        Failure = failure?.Message,
    };

    /// <summary>By how much a channel exceeds a threshold, or falls short of it where the way there leads down.</summary>
    private readonly struct Beyond(Channel channel, double threshold, double direction) : IQuantity
    {
        public double At(double value) => direction * (value - threshold);

        public T Of<T>(in Channels<T> at)
            where T : struct, ILanes<T> => T.All(direction) * (at[channel] - T.All(threshold));
    }

    /// <summary>How far roll is outside the band around an angle, rad.</summary>
    private readonly struct OutsideBand(double middle, double half) : IQuantity
    {
        public double At(double value) => Math.Abs(value - middle) - half;

        public T Of<T>(in Channels<T> at)
            where T : struct, ILanes<T> => T.Abs(at[Channel.BodyRoll] - T.All(middle)) - T.All(half);
    }
}
