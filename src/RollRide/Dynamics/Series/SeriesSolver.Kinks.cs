using System.Numerics;

namespace RollRide.Dynamics.Series;

/// <content>The kinks: where a guarded quantity reaches a bound, the step ends, and the next piece of its law acts.</content>
internal sealed partial class SeriesSolver<T>
{
    // The lanes in which some guard may reach a bound, a bit each.
    private int _kinked;

    // The guards that some lane may reach a bound of, a bit each; and when.
    private int _watched;
    private readonly double[] _times = new double[SeriesGuard.Count];

    /// <summary>Shortens the step of every lane in which a bound is reached.</summary>
    /// <returns>Whether there was one.</returns>
    private bool FindKinks()
    {
        WatchGuards();
        if (_kinked == 0)
            return false;
        if ((_watched & ((1 << SeriesGuard.Spring) - 1)) != 0)
            CrossDampers();
        for (var kinked = (uint)_kinked; kinked != 0; kinked &= kinked - 1)
            ShortenStep(BitOperations.TrailingZeroCount(kinked));
        return true;
    }

    private void ShortenStep(int lane)
    {
        var it = _lanes[lane];
        var step = _step[0, lane];
        var (first, rise) = (step, it.Rising);
        for (var guards = (uint)_watched; guards != 0; guards &= guards - 1)
        {
            var guard = BitOperations.TrailingZeroCount(guards);
            _times[guard] = double.PositiveInfinity;
            if ((_outside[guard] >> lane & 1) == 0)
                continue;
            bool rising;
            if (guard < SeriesGuard.Spring && (_reachingKnown[guard] >> lane & 1) != 0)
                (_times[guard], rising) = (_reaching[guard, lane], (_reachingHigh[guard] >> lane & 1) != 0);
            else
                _times[guard] = KinkSearch.FirstReach(_polynomial.AsSpan(0, WritePolynomial(lane, guard)), _low[guard, lane], _high[guard, lane], step, out rising);
            rise = rising ? rise | (1 << guard) : rise & ~(1 << guard);
            first = Math.Min(first, _times[guard]);
        }

        var reached = 0;
        for (var guards = (uint)_watched; guards != 0; guards &= guards - 1)
        {
            var guard = BitOperations.TrailingZeroCount(guards);
            reached |= _times[guard] <= first + KinkSearch.SameInstant ? 1 << guard : 0;
        }

        (it.Rising, it.Reached, _step[0, lane]) = (rise, reached, first);
    }

    /// <summary>Writes the series of a guarded quantity.</summary>
    /// <returns>Number of terms.</returns>
    private int WritePolynomial(int lane, int guard)
    {
        var car = _lanes[lane].Car!;
        switch (guard)
        {
            case < SeriesGuard.Spring:
                Write(SeriesRow.Velocity, SeriesRow.Order, car.DamperRatio, guard == SeriesGuard.Damper ? car.DamperArm : -car.DamperArm);
                return SeriesRow.Order;
            case < SeriesGuard.Stop:
                Write(SeriesRow.Position, SeriesRow.Terms, car.SpringRatio, guard == SeriesGuard.Spring ? car.SpringArm : -car.SpringArm);
                return SeriesRow.Terms;
            case < SeriesGuard.Contact:
                var stop = car.Stops[guard - SeriesGuard.Stop]!;
                Write(SeriesRow.Position, SeriesRow.Terms, stop.Ratio, stop.Arm);
                return SeriesRow.Terms;
            default:
                WriteTyre(guard - SeriesGuard.Contact);
                return SeriesRow.Terms;
        }

        void Write(int row, int terms, double ratio, double arm)
        {
            for (var k = 0; k < terms; k++)
            {
                var q = Term(row + HalfCarState.UnsprungHeave, k, lane) - Term(row + HalfCarState.BodyHeave, k, lane);
                var r = Term(row + HalfCarState.UnsprungRoll, k, lane) - Term(row + HalfCarState.BodyRoll, k, lane);
                _polynomial[k] = (ratio * q) + (arm * r);
            }
        }

        void WriteTyre(int slot)
        {
            var y = car.Contacts[slot]!.Value;
            var push = slot < SeriesCar.Slots / 2 ? SeriesRow.LeftPush : SeriesRow.RightPush;
            for (var k = 0; k < SeriesRow.Terms; k++)
            {
                var z = Term(SeriesRow.Position + HalfCarState.UnsprungHeave, k, lane) + (y * Term(SeriesRow.Position + HalfCarState.UnsprungRoll, k, lane));
                var v = Term(SeriesRow.Velocity + HalfCarState.UnsprungHeave, k, lane) + (y * Term(SeriesRow.Velocity + HalfCarState.UnsprungRoll, k, lane));
                _polynomial[k] = Term(push, k, lane) - (car.TyreStiffness * z) - (car.TyreDamping * v);
            }

            _polynomial[0] += car.StaticTyreLoad;
        }
    }

    /// <summary>Moves on to the pieces beyond the bounds that the step ended on.</summary>
    private void CrossKinks(int lane)
    {
        var it = _lanes[lane];
        var reached = (uint)it.Reached;
        it.Reached = 0;
        var isDamperAlone = reached < 1 << SeriesGuard.Spring;
        for (; reached != 0; reached &= reached - 1)
        {
            var guard = BitOperations.TrailingZeroCount(reached);
            switch (guard)
            {
                case < SeriesGuard.Stop:
                    it.Pieces[guard] += (it.Rising >> guard & 1) != 0 ? 1 : -1;
                    break;
                case < SeriesGuard.Contact:
                    it.Closed[guard - SeriesGuard.Stop] ^= true;
                    break;
                default:
                    it.Lifted[guard - SeriesGuard.Contact] ^= true;
                    break;
            }
        }

        if (isDamperAlone)
            UpdateDampers(lane);
        else
            UpdateLaws(lane);
    }
}
