using System.Numerics;
using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Numerics;

namespace RollRide.Metrics.Lanes;

/// <content>The roll response to the corner: its peaks are taken with the others, its instants found here.</content>
internal sealed partial class LaneFigures<T>
{
    // Body roll before the corner, and one over its way from there to the steady angle.
    private readonly LaneBuffer<T> _rollBefore = new(1);
    private readonly LaneBuffer<T> _inverseWay = new(1);

    // One over the final command.
    private readonly LaneBuffer<T> _inverseCommand = new(1);

    private readonly LaneCurve _curve = new(Rule);

    // The lanes in their corner; of those the ones with a way to go, of those the ones whose first step in it is to come, whose input and whose
    // roll have not come far enough yet, and those last seen outside the band around the steady angle: a bit each.
    private int _cornering;
    private int _following;
    private int _beginning;
    private int _awaitingInput;
    private int _awaitingRoll;
    private int _outside;

    private void EnterRoll(int lane)
    {
        _cornering &= ~(1 << lane);
        _following &= ~(1 << lane);
        _beginning &= ~(1 << lane);
        _awaitingInput &= ~(1 << lane);
        _awaitingRoll &= ~(1 << lane);
        _outside &= ~(1 << lane);
    }

    private void LeaveRoll(int lane)
    {
        if ((_cornering >> lane & 1) != 0)
            _recorders[lane]!.Roll!.TakePeaks((_peaks[RollPeak, lane], _peakTimes[RollPeak, lane]), (_peaks[RollPeak + 1, lane], _peakTimes[RollPeak + 1, lane]));
        EnterRoll(lane);
    }

    /// <summary>Starts to follow roll once a step lies in the corner.</summary>
    /// <returns>When the corner starts, s; infinite once it has.</returns>
    private double TurnIn(int lane, double middle)
    {
        if (_recorders[lane]!.Roll is not { } roll || (_cornering >> lane & 1) != 0)
            return double.PositiveInfinity;
        if (middle < roll.Start)
            return roll.Start;
        _cornering |= 1 << lane;
        (_peaks[RollPeak, lane], _peaks[RollPeak + 1, lane]) = (double.NegativeInfinity, double.NegativeInfinity);
        if (roll.HasWay)
        {
            _following |= 1 << lane;
            _beginning |= 1 << lane;
            _awaitingInput |= 1 << lane;
            _awaitingRoll |= 1 << lane;
            (_rollBefore[0, lane], _inverseWay[0, lane], _inverseCommand[0, lane]) = (roll.Before, 1 / roll.Way, 1 / roll.Command);
        }

        return double.PositiveInfinity;
    }

    private void FollowRoll()
    {
        var following = _following & _lanes;
        if (following == 0)
            return;
        if ((_awaitingInput & following) != 0)
            FollowInput(following);
        // Between two nodes it may go a little further, as where a peak is looked for.
        var (highest, lowest) = Range(ref _values[LaneSignal.Roll * Nodes]);
        var (one, other) = ((highest - _rollBefore[0]) * _inverseWay[0], (lowest - _rollBefore[0]) * _inverseWay[0]);
        var (furthest, nearest) = (T.Max(one, other), T.Min(one, other));
        var rise = (furthest - nearest) * T.All(Rise);
        (furthest, nearest) = (furthest + rise, nearest - rise);
        var (low, high) = (T.All(1 - RollResponseRecorder.SettledBand), T.All(1 + RollResponseRecorder.SettledBand));
        var isOutside = T.Greater(nearest, high) | T.Greater(low, furthest);
        var isInside = T.Greater(high, furthest) & T.Greater(nearest, low);
        var reaches = ~T.Greater(T.All(RollResponseRecorder.ReachedShare), furthest);
        var changing = _beginning | (reaches & _awaitingRoll) | (_outside & ~isOutside) | (~_outside & ~isInside);
        for (var rest = (uint)(changing & following); rest != 0; rest &= rest - 1)
        {
            var lane = BitOperations.TrailingZeroCount(rest);
            var roll = _recorders[lane]!.Roll!;
            _curve.Take(_solver, SeriesRow.Position + HalfCarState.BodyRoll, SeriesRow.Terms, lane);
            roll.AddRoll(_curve);
            _beginning &= ~(1 << lane);
            _awaitingRoll = roll.AwaitsRoll ? _awaitingRoll : _awaitingRoll & ~(1 << lane);
            _outside = roll.IsOutside ? _outside | (1 << lane) : _outside & ~(1 << lane);
        }
    }

    private void FollowInput(int following)
    {
        ref var c = ref _solver.Series[SeriesRow.Lateral * SeriesRow.Terms];
        var (reached, order) = (0, _solver.InputTerms - 1);
        for (var node = 0; node < Nodes; node++)
        {
            var input = Unsafe.Add(ref c, order);
            for (var k = order - 1; k >= 0; k--)
                input = T.Fma(input, _times[node], Unsafe.Add(ref c, k));
            reached |= ~T.Greater(T.All(RollResponseRecorder.HalfCommand), input * _inverseCommand[0]);
        }

        for (var rest = (uint)(reached & _awaitingInput & following); rest != 0; rest &= rest - 1)
        {
            var lane = BitOperations.TrailingZeroCount(rest);
            var roll = _recorders[lane]!.Roll!;
            _curve.Take(_solver, SeriesRow.Lateral, _solver.InputTerms, lane);
            roll.AddInput(_curve);
            _awaitingInput = roll.AwaitsInput ? _awaitingInput : _awaitingInput & ~(1 << lane);
        }
    }
}
