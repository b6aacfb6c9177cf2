using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Metrics;

/// <summary>Gathers a <see cref="RollResponse"/> from the start of the cornering to the end of the run. Not thread-safe; one per run.</summary>
internal sealed class RollResponseRecorder
{
    /// <summary>Share of the way at which roll counts as having answered.</summary>
    private const double ReachedShare = 0.9;

    /// <summary>Half the band around the steady angle, as a share of the way.</summary>
    private const double SettledBand = 0.05;

    /// <summary>Share of the final command at which the time begins.</summary>
    private const double HalfCommand = 0.5;

    private readonly double? _steady;
    private readonly double? _gradient;
    private readonly double _start;
    private readonly double _before;
    private readonly int _direction;
    private Peak _left = new();
    private Peak _right = new();
    private readonly Beyond _command;
    private readonly Beyond _roll;
    private readonly OutsideBand _outside;
    private FirstRise _halfInput;
    private FirstRise _reached;
    private LastFall _settled;

    public RollResponseRecorder(AssembledHalfCar car, Manoeuvre manoeuvre)
    {
        var (road, cornering) = (manoeuvre.Road, manoeuvre.Cornering);
        _start = cornering.StartTime;
        var ay = cornering.FinalLateralAcceleration;
        var reference = ay == 0 ? 1 : ay;
        double? onFlatRoad = StaticEquilibrium.TryFind(car, reference, out var stand) ? stand.BodyRoll : null;
        _gradient = onFlatRoad / reference;
        _before = RollOn(car, road, _start, 0) ?? 0;
        _steady = ay != 0 && Heights(road, manoeuvre.Duration) == (0, 0) ? onFlatRoad : RollOn(car, road, manoeuvre.Duration, ay);
        _direction = ay == 0 || _steady is null ? 0 : Math.Sign(_steady.Value - _before);
        if (_direction == 0)
            return;
        var way = _steady!.Value - _before;
        _command = new(Channel.CorneringCommand, HalfCommand * cornering.FinalCommand, Math.Sign(cornering.FinalCommand));
        _roll = new(Channel.BodyRoll, _before + (ReachedShare * way), _direction);
        _outside = new(_steady.Value, SettledBand * Math.Abs(way));
    }

    /// <summary>Adds a step.</summary>
    public void Add(StepView step)
    {
        if (0.5 * (step.Start + step.End) < _start)
            return;
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
    }

    public RollResponse ToResponse()
    {
        var isLeft = _direction == 0 ? _left.Value >= _right.Value : _direction > 0;
        var (peak, peakTime) = isLeft ? (_left.Value, _left.Time) : (-_right.Value, _right.Time);
        return new RollResponse
        {
            SteadyAngle = _steady,
            AngleBefore = _before,
            Gradient = _gradient,
            PeakAngle = peak,
            Overshoot = _direction == 0 ? null : ((peak - _before) / (_steady!.Value - _before)) - 1,
            ResponseTime = _reached.Time - _halfInput.Time,
            PeakTime = peakTime - _halfInput.Time,
            SettlingTime = _settled.Time - _start,
        };
    }

    /// <summary>Body roll of the static solution at the heights that the road events passed by a time leave the wheels at.</summary>
    private static double? RollOn(AssembledHalfCar car, Road road, double time, double ay)
    {
        var (left, right) = Heights(road, time);
        if (ay == 0 && left == right)
            return 0;
        return StaticEquilibrium.TryFind(car, ay, left, right, out var stand) ? stand.BodyRoll : null;
    }

    private static (double Left, double Right) Heights(Road road, double time) =>
        (road.Left.HeldSince(road.Speed * time), road.Right.HeldSince(road.Speed * time));

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
