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
    private Peak<Value> _left = new(new(Channel.BodyRoll));
    private Peak<Value> _right = new(new(Channel.BodyRoll, -1));
    private readonly ShareOfWay _command;
    private readonly ShareOfWay _roll;
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
        _command = new(Channel.CorneringCommand, 0, cornering.FinalCommand, HalfCommand);
        _roll = new(Channel.BodyRoll, _before, _steady!.Value, ReachedShare);
        _outside = new(new(Channel.BodyRoll, _before, _steady.Value, 1), SettledBand);
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
            _left.Add(step, roll);
        if (_direction <= 0)
        {
            for (var node = 0; node < roll.Length; node++)
                values[node] = -roll[node];
            _right.Add(step, values);
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

    /// <summary>By how much a channel exceeds a share of the way from one value to another, as a share of that.</summary>
    private readonly struct ShareOfWay(Channel channel, double before, double after, double share) : IQuantity
    {
        public double At(double value) => Of(new OneLane(value)).Value;

        public T Of<T>(in Channels<T> at)
            where T : struct, ILanes<T> => Of(at[channel]);

        public T Of<T>(in T value)
            where T : struct, ILanes<T> => ((value - T.All(before)) / T.All(after - before)) - T.All(share);
    }

    /// <summary>How far a channel is outside the band around a value, as a share of the way to it.</summary>
    private readonly struct OutsideBand(ShareOfWay beyond, double band) : IQuantity
    {
        public double At(double value) => Math.Abs(beyond.At(value)) - band;

        public T Of<T>(in Channels<T> at)
            where T : struct, ILanes<T> => T.Abs(beyond.Of(at)) - T.All(band);
    }
}
