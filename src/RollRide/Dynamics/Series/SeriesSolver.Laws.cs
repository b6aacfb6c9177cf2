using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <content>The force laws: which pieces act, and what the equations' constants are then.</content>
internal sealed partial class SeriesSolver<T>
{
    // The series of the penetrations of the stops, up to the power last asked for.
    private readonly LaneBuffer<T> _penetrations = new(SeriesCar.Slots * SeriesRow.Terms);

    /// <summary>What does not change during a run.</summary>
    private void WriteConstants(int lane, SeriesCar car)
    {
        Constant(SeriesConstant.BodyMobility) = car.BodyMobility;
        Constant(SeriesConstant.BodyRollMobility) = car.BodyRollMobility;
        Constant(SeriesConstant.UnsprungMobility) = -car.UnsprungMobility;
        Constant(SeriesConstant.UnsprungRollMobility) = -car.UnsprungRollMobility;
        Constant(SeriesConstant.BodyLateral) = car.BodyLateral;
        Constant(SeriesConstant.UnsprungLateral) = car.UnsprungLateral;
        Constant(SeriesConstant.Gravity) = car.GravityMoment;
        Constant(SeriesConstant.TyreTime) = car.TyreDamping / car.TyreStiffness;
        Constant(SeriesConstant.HalfTrack) = car.HalfTrack;
        Constant(SeriesConstant.DamperRatio) = car.DamperRatio;
        Constant(SeriesConstant.DamperArm) = car.DamperArm;
        Constant(SeriesConstant.SpringRatio) = car.SpringRatio;
        Constant(SeriesConstant.SpringArm) = car.SpringArm;
        Constant(SeriesConstant.TyreStiffness) = car.TyreStiffness;
        Constant(SeriesConstant.StaticLoad) = car.StaticTyreLoad;
        _hasBentSprings |= car.Spring.Knots.Length > 0;
        for (var i = 0; i < SeriesCar.Slots; i++)
        {
            var stop = car.Stops[i];
            Constant(SeriesConstant.StopRatio + i) = stop?.Ratio ?? 0;
            Constant(SeriesConstant.StopArm + i) = stop?.Arm ?? 0;
            Constant(SeriesConstant.StopClearance + i) = stop?.Stop.Clearance ?? 0;
            Constant(SeriesConstant.Contact + i) = car.Contacts[i] ?? 0;
            if (car.Contacts[i] is not null)
                _contactSlots |= 1 << i;
        }

        ref double Constant(int index) => ref _constants[index, lane];
    }

    /// <summary>The pieces that act at the start of a run.</summary>
    private void Settle(int lane, SeriesCar car, ReadOnlySpan<double> state)
    {
        var it = _lanes[lane];
        var q = state[HalfCarState.UnsprungHeave] - state[HalfCarState.BodyHeave];
        var r = state[HalfCarState.UnsprungRoll] - state[HalfCarState.BodyRoll];
        var qRate = state[HalfCarState.Rates + HalfCarState.UnsprungHeave] - state[HalfCarState.Rates + HalfCarState.BodyHeave];
        var rRate = state[HalfCarState.Rates + HalfCarState.UnsprungRoll] - state[HalfCarState.Rates + HalfCarState.BodyRoll];
        for (var side = 0; side < 2; side++)
        {
            var sign = 1 - (2 * side);
            it.Pieces[SeriesGuard.Damper + side] = car.Damper.PieceAt((car.DamperRatio * qRate) + (sign * car.DamperArm * rRate));
            it.Pieces[SeriesGuard.Spring + side] = car.Spring.PieceAt((car.SpringRatio * q) + (sign * car.SpringArm * r));
        }

        for (var i = 0; i < SeriesCar.Slots; i++)
        {
            it.Closed[i] = car.Stops[i] is { } stop && (stop.Ratio * q) + (stop.Arm * r) > stop.Stop.Clearance;
            it.Lifted[i] = car.Contacts[i] is { } y && TyreLoad(lane, i, y, state) < 0;
        }
    }

    /// <summary>
    /// Which tyres are in the air where a segment begins: the slope of the road may jump there, and with it the load that a tyre's
    /// damping carries.
    /// </summary>
    private void LookAtTyres(int lane)
    {
        var it = _lanes[lane];
        Span<double> state = stackalloc double[HalfCarState.Count];
        EndState(lane, state);
        for (var i = 0; i < SeriesCar.Slots; i++)
        {
            if (it.Car!.Contacts[i] is not { } y)
                continue;
            var load = TyreLoad(lane, i, y, state);

            // At zero, to rounding, it stays as it is: the guard's own crossing decides.
            if (Math.Abs(load) > 1e-9 * it.Car.StaticTyreLoad)
                it.Lifted[i] = load < 0;
        }

        UpdateLaws(lane);
    }

    private double TyreLoad(int lane, int slot, double y, ReadOnlySpan<double> state)
    {
        var car = _lanes[lane].Car!;
        var push = Term(slot < SeriesCar.Slots / 2 ? SeriesRow.LeftPush : SeriesRow.RightPush, 0, lane);
        var deflection = state[HalfCarState.UnsprungHeave] + (y * state[HalfCarState.UnsprungRoll]);
        var rate = state[HalfCarState.Rates + HalfCarState.UnsprungHeave] + (y * state[HalfCarState.Rates + HalfCarState.UnsprungRoll]);
        return car.StaticTyreLoad + push - (car.TyreStiffness * deflection) - (car.TyreDamping * rate);
    }

    /// <summary>The constants and bounds of the pieces that act now: the tangent stiffness and damping matrices.</summary>
    private void UpdateLaws(int lane)
    {
        var it = _lanes[lane];
        var car = it.Car!;
        var spring = car.Spring;
        var (sl, sr) = (it.Pieces[SeriesGuard.Spring], it.Pieces[SeriesGuard.Spring + 1]);

        // At rest springs and gas carry the weight between them: only the change from there is left.
        var preload = car.SpringPreload;
        var (changeLeft, changeRight) = (spring.Offsets[sl] - preload, spring.Offsets[sr] - preload);
        var heave = car.SpringRatio * car.SpringRatio * (spring.Slopes[sl] + spring.Slopes[sr]);
        var cross = car.SpringRatio * car.SpringArm * (spring.Slopes[sl] - spring.Slopes[sr]);
        var roll = (car.SpringArm * car.SpringArm * (spring.Slopes[sl] + spring.Slopes[sr])) + car.AntiRollBar;
        var force = car.SpringRatio * (changeLeft + changeRight);
        var moment = car.SpringArm * (changeLeft - changeRight);
        for (var i = 0; i < SeriesCar.Slots; i += 2)
        {
            var (left, right) = (LinearStop(i), LinearStop(i + 1));
            heave += (left.Stiffness * left.Ratio * left.Ratio) + (right.Stiffness * right.Ratio * right.Ratio);
            cross += (left.Stiffness * left.Ratio * left.Arm) + (right.Stiffness * right.Ratio * right.Arm);
            roll += (left.Stiffness * left.Arm * left.Arm) + (right.Stiffness * right.Arm * right.Arm);
            force -= (left.Stiffness * left.Ratio * left.Clearance) + (right.Stiffness * right.Ratio * right.Clearance);
            moment -= (left.Stiffness * left.Arm * left.Clearance) + (right.Stiffness * right.Arm * right.Clearance);
        }

        Constant(SeriesConstant.HeaveStiffness) = heave;
        Constant(SeriesConstant.CrossStiffness) = cross;
        Constant(SeriesConstant.RollStiffness) = roll;
        (it.SpringForce, it.SpringMoment) = (force, moment);
        UpdateDampers(lane);
        UpdateTyres(lane, it, car);
        UpdateBounds(lane, it, car);

        (double Stiffness, double Ratio, double Arm, double Clearance) LinearStop(int i) =>
            it.Closed[i] && car.Stops[i] is { IsSquare: false } stop ? (stop.Stop.Stiffness, stop.Ratio, stop.Arm, stop.Stop.Clearance) : default;

        ref double Constant(int index) => ref _constants[index, lane];
    }

    /// <summary>What changes where only a damper has reached a kink.</summary>
    private void UpdateDampers(int lane)
    {
        var it = _lanes[lane];
        var car = it.Car!;
        var damper = car.Damper;
        var (left, right) = (it.Pieces[SeriesGuard.Damper], it.Pieces[SeriesGuard.Damper + 1]);
        var (leftSlope, rightSlope, leftOffset, rightOffset) = (damper.Slopes[left], damper.Slopes[right], damper.Offsets[left], damper.Offsets[right]);
        var (ratio, arm, sum) = (car.DamperRatio, car.DamperArm, leftSlope + rightSlope);
        ref var c = ref _constants[0, lane];
        Of(ref c, SeriesConstant.DamperSlope) = leftSlope;
        Of(ref c, SeriesConstant.DamperSlope + 1) = rightSlope;
        Of(ref c, SeriesConstant.DamperOffset) = leftOffset;
        Of(ref c, SeriesConstant.DamperOffset + 1) = rightOffset;
        Of(ref c, SeriesConstant.HeaveDamping) = ratio * ratio * sum;
        Of(ref c, SeriesConstant.CrossDamping) = ratio * arm * (leftSlope - rightSlope);
        Of(ref c, SeriesConstant.RollDamping) = arm * arm * sum;
        Of(ref c, SeriesConstant.Force) = it.SpringForce + (ratio * (leftOffset + rightOffset));
        Of(ref c, SeriesConstant.Moment) = it.SpringMoment + (arm * (leftOffset - rightOffset));
        Bound(SeriesGuard.Damper, lane, damper.Low(left), damper.High(left));
        Bound(SeriesGuard.Damper + 1, lane, damper.Low(right), damper.High(right));

        static ref double Of(ref double lane, int constant) => ref Unsafe.Add(ref lane, constant * T.Count);
    }

    private void UpdateTyres(int lane, SeriesLane it, SeriesCar car)
    {
        var (load, kt) = (car.StaticTyreLoad, car.TyreStiffness);
        Span<double> number = stackalloc double[2], arm = stackalloc double[2], square = stackalloc double[2];
        var (missing, missingMoment) = (0.0, 0.0);
        for (var i = 0; i < SeriesCar.Slots; i++)
        {
            if (car.Contacts[i] is not { } y)
                continue;
            if (it.Lifted[i])
            {
                missing -= load;
                missingMoment -= y * load;
                continue;
            }

            var side = i / (SeriesCar.Slots / 2);
            number[side]++;
            arm[side] += y;
            square[side] += y * y;
        }

        Constant(SeriesConstant.LeftTyres) = number[0];
        Constant(SeriesConstant.RightTyres) = number[1];
        Constant(SeriesConstant.LeftTyreArm) = arm[0];
        Constant(SeriesConstant.RightTyreArm) = arm[1];
        Constant(SeriesConstant.TyreHeaveStiffness) = kt * (number[0] + number[1]);
        Constant(SeriesConstant.TyreCrossStiffness) = kt * (arm[0] + arm[1]);
        Constant(SeriesConstant.TyreRollStiffness) = kt * (square[0] + square[1]);
        Constant(SeriesConstant.TyreForce) = missing;
        Constant(SeriesConstant.TyreMoment) = missingMoment;

        ref double Constant(int index) => ref _constants[index, lane];
    }

    private void UpdateBounds(int lane, SeriesLane it, SeriesCar car)
    {
        for (var side = 0; side < 2; side++)
        {
            var spring = it.Pieces[SeriesGuard.Spring + side];
            Bound(SeriesGuard.Spring + side, lane, car.Spring.Low(spring), car.Spring.High(spring));
        }

        var touches = false;
        for (var i = 0; i < SeriesCar.Slots; i++)
        {
            touches |= it.Closed[i] || it.Lifted[i];
            var contact = car.Stops[i]?.Stop.Clearance ?? double.PositiveInfinity;
            var isSquare = it.Closed[i] && car.Stops[i]!.IsSquare;
            _constants[SeriesConstant.SquareStop + i, lane] = isSquare ? car.Stops[i]!.Stop.Stiffness : 0;
            if (it.Closed[i])
                Bound(SeriesGuard.Stop + i, lane, contact, double.PositiveInfinity);
            else
                Bound(SeriesGuard.Stop + i, lane, double.NegativeInfinity, contact);
            if (car.Contacts[i] is null)
                Bound(SeriesGuard.Contact + i, lane, double.NegativeInfinity, double.PositiveInfinity);
            else if (it.Lifted[i])
                Bound(SeriesGuard.Contact + i, lane, double.NegativeInfinity, 0);
            else
                Bound(SeriesGuard.Contact + i, lane, 0, double.PositiveInfinity);
        }

        Touching = touches ? Touching | (1 << lane) : Touching & ~(1 << lane);
        _squareStops = 0;
        for (var i = 0; i < SeriesCar.Slots; i++)
        {
            if (T.Greater(_constants[SeriesConstant.SquareStop + i], T.All(0)) != 0)
                _squareStops |= 1 << i;
        }
    }

    /// <summary>Force and moment with the term of the square-law stops: <c>k δ²</c> as a product of series.</summary>
    private (T Force, T Moment) WithSquareStops(int k, T force, T moment)
    {
        for (var pair = 0; pair < SeriesCar.Slots; pair += 2)
        {
            if ((_squareStops >> pair & 3) == 0)
                continue;
            var (left, right) = (SquareStop(pair, k), SquareStop(pair + 1, k));
            force += (_constants[SeriesConstant.StopRatio + pair] * left) + (_constants[SeriesConstant.StopRatio + pair + 1] * right);
            moment += (_constants[SeriesConstant.StopArm + pair] * left) + (_constants[SeriesConstant.StopArm + pair + 1] * right);
        }

        return (force, moment);
    }

    private T SquareStop(int i, int k)
    {
        ref var penetration = ref _penetrations[i * SeriesRow.Terms];
        Unsafe.Add(ref penetration, k) = Penetration(i, k);
        var sum = T.All(0);
        for (var j = 0; j <= k; j++)
            sum = T.Fma(Unsafe.Add(ref penetration, j), Unsafe.Add(ref penetration, k - j), sum);
        return sum * _constants[SeriesConstant.SquareStop + i];
    }

    private T Penetration(int i, int k)
    {
        ref var s = ref _series[0];
        var q = At(ref s, SeriesRow.Position + HalfCarState.UnsprungHeave, k) - At(ref s, SeriesRow.Position + HalfCarState.BodyHeave, k);
        var r = At(ref s, SeriesRow.Position + HalfCarState.UnsprungRoll, k) - At(ref s, SeriesRow.Position + HalfCarState.BodyRoll, k);
        var closing = T.Fma(_constants[SeriesConstant.StopArm + i], r, _constants[SeriesConstant.StopRatio + i] * q);
        return k == 0 ? closing - _constants[SeriesConstant.StopClearance + i] : closing;
    }

    private void Bound(int guard, int lane, double low, double high)
    {
        _low[guard, lane] = low;
        _high[guard, lane] = high;
    }
}
