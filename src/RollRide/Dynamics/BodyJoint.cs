using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>The body between two axles: what each end's heave and roll get from the other end, in every lane.</summary>
/// <remarks>
/// Rigid in bending, so that the forces of both ends move the centre of gravity and pitch the body:
/// <code>
/// z̈cg = (m1 z̈1⁰ + m2 z̈2⁰)/ms     θ̈ = (b m2 z̈2⁰ − a m1 z̈1⁰)/Iy     z̈1 = z̈cg − a θ̈     z̈2 = z̈cg + b θ̈
/// </code>
/// with <c>a</c> and <c>b</c> the distances of the ends from the centre of gravity and <c>z̈⁰</c> what each end would do by itself. In roll the frame
/// brings the moment <c>Kt (φ2 − φ1) + Ct (φ̇2 − φ̇1)</c>; one that does not twist gives both ends the mean of their roll accelerations,
/// weighted with their inertias.
/// </remarks>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class BodyJoint<T>
    where T : struct, ILanes<T>
{
    private readonly LaneBuffer<T> _numbers = new((int)Number.Count);

    private enum Number
    {
        HeaveOfOwn, HeaveOfOwnBySecond, HeaveOfSecondByOwn, HeaveOfSecond,
        RollOfOwn, RollOfOwnBySecond, RollOfSecondByOwn, RollOfSecond,
        Stiffness, Damping, InverseInertia, InverseInertiaOfSecond,
        FrontSign, PitchPerHeave, SeatShare,
        Count,
    }

    /// <summary>Puts a vehicle into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="car">The vehicle, with two axles.</param>
    public void Load(int lane, AssembledHalfCar car)
    {
        var joined = new JoinedBody(car);
        var (heave, roll) = (joined.Heave, joined.Roll);
        Set(Number.HeaveOfOwn, heave.OfOwn);
        Set(Number.HeaveOfOwnBySecond, heave.OfOwnBySecond);
        Set(Number.HeaveOfSecondByOwn, heave.OfSecondByOwn);
        Set(Number.HeaveOfSecond, heave.OfSecond);
        Set(Number.RollOfOwn, roll.OfOwn);
        Set(Number.RollOfOwnBySecond, roll.OfOwnBySecond);
        Set(Number.RollOfSecondByOwn, roll.OfSecondByOwn);
        Set(Number.RollOfSecond, roll.OfSecond);
        Set(Number.Stiffness, joined.Stiffness ?? 0);
        Set(Number.Damping, joined.Damping);
        Set(Number.InverseInertia, 1 / joined.RollInertia);
        Set(Number.InverseInertiaOfSecond, 1 / joined.RollInertiaOfSecond);
        var second = car.Vehicle.SecondAxle!;
        var sign = second.StudiedPlace == Axle.Front ? 1 : -1;
        Set(Number.FrontSign, sign);
        Set(Number.PitchPerHeave, sign / second.Chassis.Wheelbase);
        Set(Number.SeatShare, car.Vehicle.SeatTowardsSecondAxle / second.Chassis.Wheelbase);

        void Set(Number number, double value) => _numbers[(int)number, lane] = value;
    }

    /// <summary>Changes the accelerations of both ends of the body from those that each would have by itself.</summary>
    /// <param name="own">States of the axle that the layouts are for.</param>
    /// <param name="second">States of the other axle.</param>
    /// <param name="at">Its channels.</param>
    /// <param name="atSecond">Those of the other axle.</param>
    public void Join(ReadOnlySpan<T> own, ReadOnlySpan<T> second, ref T at, ref T atSecond)
    {
        Mix(Number.HeaveOfOwn, Channel.BodyAcceleration, ref at, ref atSecond);
        Mix(Number.RollOfOwn, Channel.BodyRollAcceleration, ref at, ref atSecond);
        const int Roll = HalfCarState.BodyRoll, Rate = HalfCarState.Rates + HalfCarState.BodyRoll;
        var moment = (this[Number.Stiffness] * (second[Roll] - own[Roll])) + (this[Number.Damping] * (second[Rate] - own[Rate]));
        Of(ref at, Channel.BodyRollAcceleration) += moment * this[Number.InverseInertia];
        Of(ref atSecond, Channel.BodyRollAcceleration) -= moment * this[Number.InverseInertiaOfSecond];
    }

    /// <summary>Writes the channels of the body as a whole.</summary>
    /// <param name="own">States of the axle that the layouts are for.</param>
    /// <param name="second">States of the other axle.</param>
    /// <param name="seatOffset">Lateral position of the seat, m.</param>
    /// <param name="at">Its channels.</param>
    /// <param name="atSecond">Those of the other axle.</param>
    public void Complete(ReadOnlySpan<T> own, ReadOnlySpan<T> second, in T seatOffset, ref T at, ref T atSecond)
    {
        var (heave, roll) = (second[HalfCarState.BodyHeave], second[HalfCarState.BodyRoll]);
        Of(ref at, Channel.SecondBodyHeave) = heave;
        Of(ref at, Channel.SecondBodyRoll) = roll;
        Of(ref at, Channel.Pitch) = this[Number.PitchPerHeave] * (heave - own[HalfCarState.BodyHeave]);
        Of(ref at, Channel.FrameTwist) = this[Number.FrontSign] * (own[HalfCarState.BodyRoll] - roll);

        // Heave and roll of a body that is straight between its ends.
        ref var seat = ref Of(ref at, Channel.SeatAcceleration);
        seat += this[Number.SeatShare] * (T.Fma(seatOffset, Of(ref atSecond, Channel.BodyRollAcceleration), Of(ref atSecond, Channel.BodyAcceleration)) - seat);
    }

    private ref T this[Number number] => ref _numbers[(int)number];

    private static ref T Of(ref T at, Channel channel) => ref System.Runtime.CompilerServices.Unsafe.Add(ref at, (int)channel);

    private void Mix(Number first, Channel channel, ref T at, ref T atSecond)
    {
        var (own, second) = (Of(ref at, channel), Of(ref atSecond, channel));
        Of(ref at, channel) = (this[first] * own) + (this[first + 1] * second);
        Of(ref atSecond, channel) = (this[first + 2] * own) + (this[first + 3] * second);
    }
}
