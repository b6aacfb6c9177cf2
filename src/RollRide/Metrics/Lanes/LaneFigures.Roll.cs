using System.Numerics;
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

    // The lanes in their corner, those of them with a way to go, and those last seen outside the band around the steady angle: a bit each.
    private int _cornering;
    private int _following;
    private int _outside;

    private void EnterRoll(int lane)
    {
        _cornering &= ~(1 << lane);
        _following &= ~(1 << lane);
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
            // Outside at first, so that the first step is looked at.
            _following |= 1 << lane;
            _outside |= 1 << lane;
            (_rollBefore[0, lane], _inverseWay[0, lane]) = (roll.Before, 1 / roll.Way);
        }

        return double.PositiveInfinity;
    }

    private void FollowRoll()
    {
        var following = _following & _lanes;
        if (following == 0)
            return;
        var (before, inverseWay) = (_rollBefore[0], _inverseWay[0]);
        var (reached, everOutside, alwaysOutside) = (0, 0, -1);
        for (var node = 0; node < Nodes; node++)
        {
            var way = (_values[(LaneSignal.Roll * Nodes) + node] - before) * inverseWay;
            reached |= ~T.Greater(T.All(RollResponseRecorder.ReachedShare), way);
            var outside = T.Greater(T.Abs(way - T.All(1)), T.All(RollResponseRecorder.SettledBand));
            everOutside |= outside;
            alwaysOutside &= outside;
        }

        var changing = following & ((_outside & ~alwaysOutside) | (~_outside & everOutside));
        for (var rest = (uint)following; rest != 0; rest &= rest - 1)
        {
            var lane = BitOperations.TrailingZeroCount(rest);
            var roll = _recorders[lane]!.Roll!;
            if (roll.AwaitsInput)
                roll.AddInput(new LaneCurve(_solver, SeriesRow.Lateral, _solver.InputTerms, lane, Rule));
            if ((changing >> lane & 1) != 0 || (roll.AwaitsReach && (reached >> lane & 1) != 0) || roll.HasNotBegun)
            {
                roll.AddRoll(new LaneCurve(_solver, SeriesRow.Position + HalfCarState.BodyRoll, SeriesRow.Terms, lane, Rule));
                _outside = roll.IsOutside ? _outside | (1 << lane) : _outside & ~(1 << lane);
            }
        }
    }
}
