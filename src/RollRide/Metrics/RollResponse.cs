using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Metrics.Lanes;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Metrics;

/// <summary>How the body answers a cornering input in roll. Terms and time origin after ISO 7401:2011 (from memory).</summary>
public sealed record RollResponse
{
    /// <summary>
    /// Body roll of the static solution under the final lateral acceleration of the input, rad, whether or not the run is long
    /// enough to reach it, with the wheels at the heights that the road events passed in the run leave them at; null if there is
    /// no stable one.
    /// </summary>
    public required double? SteadyAngle { get; init; }

    /// <summary>
    /// Body roll of the static solution before the input began, rad: zero unless a road event passed by then left one wheel higher
    /// than the other.
    /// </summary>
    public required double AngleBefore { get; init; }

    /// <summary>Roll gradient on a flat road, rad per m/s²: steady roll over the final lateral acceleration, or over 1 m/s² where that is zero.</summary>
    public required double? Gradient { get; init; }

    /// <summary>
    /// The roll angle that goes furthest in the direction from <see cref="AngleBefore"/> to the steady one, rad, positive when the left
    /// side rises. Where the corner ends straight ahead or has no steady angle, the one of largest size in either direction. From the start of the input to the end of the run.
    /// </summary>
    public required double PeakAngle { get; init; }

    /// <summary>
    /// Overshoot <c>(PeakAngle − AngleBefore)/(SteadyAngle − AngleBefore) − 1</c>, as a ratio; negative where the run ends before roll
    /// reaches the steady angle; null where the corner ends straight ahead or has no steady angle.
    /// </summary>
    public required double? Overshoot { get; init; }

    /// <summary>
    /// From the instant at which the command (steering-wheel angle or given lateral acceleration) first reached half of its final value
    /// until roll first reached 90 % of the way from <see cref="AngleBefore"/> to steady, s; null where either did not happen, the
    /// corner ends straight ahead or there is no steady angle.
    /// </summary>
    public required double? ResponseTime { get; init; }

    /// <summary>From the same instant until <see cref="PeakAngle"/>, s; null where there is no such instant.</summary>
    public required double? PeakTime { get; init; }

    /// <summary>
    /// From the start of the input until roll entered the band around steady for the last time in the run, ±5 % of the way from
    /// <see cref="AngleBefore"/>, s; null if the run ends outside the band, the corner ends straight ahead or there is no steady angle.
    /// </summary>
    public required double? SettlingTime { get; init; }
}

/// <summary>Gathers a <see cref="RollResponse"/> from the start of the cornering to the end of the run.</summary>
internal sealed class RollResponseRecorder
{
    /// <summary>Share of the way at which roll counts as having answered.</summary>
    public const double ReachedShare = 0.9;

    /// <summary>Half the band around the steady angle, as a share of the way.</summary>
    public const double SettledBand = 0.05;

    /// <summary>Share of the final command at which the time begins.</summary>
    public const double HalfCommand = 0.5;

    private readonly double? _steady;
    private readonly double? _gradient;
    private readonly int _direction;
    private Peak<Scaled> _left = new(new(Channel.BodyRoll, 1));
    private Peak<Scaled> _right = new(new(Channel.BodyRoll, -1));
    private FirstRise<ShareOfCommand> _halfInput;
    private FirstRise<ShareOfWay> _reached;
    private LastFall<OutsideBand> _settled;

    public RollResponseRecorder(AssembledHalfCar car, Manoeuvre manoeuvre)
    {
        var (road, cornering) = (manoeuvre.Road, manoeuvre.Cornering);
        Start = cornering.StartTime;
        var ay = cornering.FinalLateralAcceleration;
        var reference = ay == 0 ? 1 : ay;
        double? onFlatRoad = StaticEquilibrium.TryFind(car, reference, out var stand) ? stand.BodyRoll : null;
        _gradient = onFlatRoad / reference;
        Before = RollOn(car, road, Start, 0) ?? 0;
        _steady = ay != 0 && Heights(road, manoeuvre.Duration) == (0, 0) ? onFlatRoad : RollOn(car, road, manoeuvre.Duration, ay);
        _direction = ay == 0 || _steady is null ? 0 : Math.Sign(_steady.Value - Before);
        if (_direction == 0)
            return;
        Command = cornering.FinalCommand;
        _halfInput = new(new ShareOfCommand(Command, HalfCommand));
        _reached = new(new ShareOfWay(Before, _steady!.Value, ReachedShare));
        _settled = new(new OutsideBand(Before, _steady.Value, SettledBand));
    }

    /// <summary>Start of the input, s.</summary>
    public double Start { get; }

    /// <summary>Body roll before the corner, rad.</summary>
    public double Before { get; }

    /// <summary>Whether roll has a way to go to a steady angle.</summary>
    public bool HasWay => _direction != 0;

    /// <summary>From the angle before the corner to the steady one, rad, where <see cref="HasWay"/>.</summary>
    public double Way => _steady!.Value - Before;

    /// <summary>The final command, where <see cref="HasWay"/>: steering-wheel angle, rad, or lateral acceleration, m/s².</summary>
    public double Command { get; }

    /// <summary>Whether the input has not reached half of its final value yet.</summary>
    public bool AwaitsInput => _halfInput.Time is null;

    /// <summary>Whether roll has not gone most of its way yet.</summary>
    public bool AwaitsRoll => _reached.Time is null;

    /// <summary>Whether roll was outside the band around the steady angle at last.</summary>
    public bool IsOutside => _settled.IsAbove;

    /// <summary>Takes the peaks of roll since the start of the input.</summary>
    /// <param name="left">The highest, rad, and when, s.</param>
    /// <param name="right">The same of roll with its sign turned.</param>
    public void TakePeaks((double Value, double Time) left, (double Value, double Time) right)
    {
        _left.Take(left.Time, left.Value);
        _right.Take(right.Time, right.Value);
    }

    /// <summary>Adds the input over a step.</summary>
    public void AddInput(LaneCurve command)
    {
        Span<double> values = stackalloc double[command.Times.Length];
        for (var i = 0; i < values.Length; i++)
            values[i] = (command.Values[i] / Command) - HalfCommand;
        _halfInput.Add(command.Times, values, (from, to) => command.Passage(HalfCommand * Command, from, to));
    }

    /// <summary>Adds roll over a step.</summary>
    public void AddRoll(LaneCurve roll)
    {
        Span<double> reached = stackalloc double[roll.Times.Length], outside = stackalloc double[roll.Times.Length];
        for (var i = 0; i < reached.Length; i++)
        {
            var way = WayAt(roll.Values[i]);
            (reached[i], outside[i]) = (way - ReachedShare, Math.Abs(way - 1) - SettledBand);
        }

        _reached.Add(roll.Times, reached, (from, to) => roll.Passage(RollAt(ReachedShare), from, to));
        _settled.Add(roll.Times, outside, (from, to) => roll.Passage(EdgeBeside(roll, from, to), from, to));
    }

    /// <summary>Adds a step.</summary>
    public void Add(StepSamples step)
    {
        if (0.5 * (step.Start + step.End) < Start)
            return;
        if (_direction >= 0)
            _left.Add(step);
        if (_direction <= 0)
            _right.Add(step);
        if (_direction == 0)
            return;
        _halfInput.Add(step);
        _reached.Add(step);
        _settled.Add(step);
    }

    public RollResponse ToResponse()
    {
        var isLeft = _direction == 0 ? _left.Value >= _right.Value : _direction > 0;
        var (peak, peakTime) = isLeft ? (_left.Value, _left.Time) : (-_right.Value, _right.Time);
        return new RollResponse
        {
            SteadyAngle = _steady,
            AngleBefore = Before,
            Gradient = _gradient,
            PeakAngle = peak,
            Overshoot = _direction == 0 ? null : WayAt(peak) - 1,
            ResponseTime = _reached.Time - _halfInput.Time,
            PeakTime = peakTime - _halfInput.Time,
            SettlingTime = _settled.Time - Start,
        };
    }

    /// <summary>The share of the way from the angle before the corner to the steady one.</summary>
    private double WayAt(double roll) => (roll - Before) / Way;

    private double RollAt(double way) => Before + (way * Way);

    /// <summary>The edge of the band around the steady angle that roll is inside of at one of two times and outside of at the other.</summary>
    private double EdgeBeside(LaneCurve roll, double from, double to)
    {
        var (before, after) = (WayAt(roll.At(from)) - 1, WayAt(roll.At(to)) - 1);
        var outside = Math.Abs(before) > Math.Abs(after) ? before : after;
        return RollAt(1 + Math.CopySign(SettledBand, outside));
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

    /// <summary>By how much the command exceeds a share of its final value, as a share of that.</summary>
    private readonly struct ShareOfCommand(double final, double share) : IQuantity
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Octet Of(ChannelRows at) => (at[Channel.CorneringCommand] / final) - Octet.All(share);
    }

    /// <summary>By how much roll exceeds a share of the way from the angle before the corner to the steady one, as a share of that.</summary>
    private readonly struct ShareOfWay(double before, double steady, double share) : IQuantity
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Octet Of(ChannelRows at) =>
            ((at[Channel.BodyRoll] - Octet.All(before)) / (steady - before)) - Octet.All(share);
    }

    /// <summary>How far roll is outside the band around the steady angle, as a share of the way to it.</summary>
    private readonly struct OutsideBand(double before, double steady, double band) : IQuantity
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public Octet Of(ChannelRows at) =>
            Octet.Abs(new ShareOfWay(before, steady, 1).Of(at)) - Octet.All(band);
    }
}
