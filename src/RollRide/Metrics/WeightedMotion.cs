using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// The body's accelerations sampled at a constant rate from the polynomials through their nodes, and frequency-weighted, each lane at the
/// times that fall into its own step. Not thread-safe.
/// </summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class WeightedMotion<T>
    where T : struct, ILanes<T>
{
    private readonly LaneBuffer<T> _shares = new(GaussLobatto.Count);
    private readonly LaneBuffer<T> _numbers = new(8);
    private readonly WeightingFilter<T> _body = new(FrequencyWeighting.Wk, WeightedMotion.Rate);
    private readonly WeightingFilter<T> _roll = new(FrequencyWeighting.Wk, WeightedMotion.Rate);
    private readonly WeightingFilter<T>? _lateral, _rollSideways, _rollItself;

    /// <summary>Prepares the sampling.</summary>
    /// <param name="inAllDirections">Whether lateral and roll vibration are weighted too.</param>
    public WeightedMotion(bool inAllDirections)
    {
        if (!inAllDirections)
            return;
        _lateral = new(FrequencyWeighting.Wd, WeightedMotion.Rate);
        _rollSideways = new(FrequencyWeighting.Wd, WeightedMotion.Rate);
        _rollItself = new(FrequencyWeighting.We, WeightedMotion.Rate);
    }

    /// <summary>Vertical acceleration of the body at its centre of gravity, weighted with Wk, m/s².</summary>
    public ref T Body => ref _numbers[0];

    /// <summary>Roll acceleration, weighted with Wk: what an offset to the side adds vertically, rad/s².</summary>
    public ref T Roll => ref _numbers[1];

    /// <summary>Vertical acceleration at the vehicle's own seat, weighted with Wk, m/s².</summary>
    public ref T Seat => ref _numbers[6];

    /// <summary>Lateral acceleration, weighted with Wd, m/s².</summary>
    public ref T Lateral => ref _numbers[2];

    /// <summary>Roll acceleration, weighted with Wd: what a height adds laterally, rad/s².</summary>
    public ref T RollSideways => ref _numbers[3];

    /// <summary>Roll acceleration, weighted with We, rad/s².</summary>
    public ref T RollItself => ref _numbers[4];

    private ref T NextSample => ref _numbers[5];

    private ref T SeatOffset => ref _numbers[7];

    /// <summary>Begins anew in a lane: filters at rest, the first sample at time 0.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="seatOffset">Lateral offset of its car's seat, m.</param>
    public void Start(int lane, double seatOffset)
    {
        _numbers[5, lane] = 0;
        _numbers[7, lane] = seatOffset;
        _body.Reset(lane);
        _roll.Reset(lane);
        _lateral?.Reset(lane);
        _rollSideways?.Reset(lane);
        _rollItself?.Reset(lane);
    }

    /// <summary>Time of the sample that a lane stands at, s.</summary>
    public double Time(int lane) => (_numbers[5, lane] - 1) / WeightedMotion.Rate;

    /// <summary>Takes the next sample of each lane that has one in its step.</summary>
    /// <param name="steps">The steps at their nodes.</param>
    /// <param name="lanes">A bit for each lane that has accepted a step.</param>
    /// <returns>A bit for each lane that has a sample.</returns>
    public int Next(StepNodes<T> steps, int lanes)
    {
        var due = lanes & ~T.Greater(NextSample, steps.End * T.All(WeightedMotion.Rate));
        if (due == 0)
            return 0;

        // The first sample may lie before the step by a rounding of time.
        var time = NextSample * T.All(1 / WeightedMotion.Rate);
        GaussLobatto.WriteShares(T.Max(T.Min((time - steps.Start) / steps.Length, T.All(1)), default), _shares.Elements);
        Body = _body.Next(At(steps, Channel.BodyAcceleration), due);
        var roll = At(steps, Channel.BodyRollAcceleration);
        Roll = _roll.Next(roll, due);
        Seat = T.Fma(SeatOffset, Roll, Body);
        if (_lateral is not null)
        {
            Lateral = _lateral.Next(At(steps, Channel.LateralAcceleration), due);
            RollSideways = _rollSideways!.Next(roll, due);
            RollItself = _rollItself!.Next(roll, due);
        }

        NextSample = T.Where(due, NextSample + T.All(1), NextSample);
        return due;
    }

    /// <summary>A channel at the sample taken last: the polynomial through its nodes.</summary>
    public T At(StepNodes<T> steps, Channel channel)
    {
        var sum = default(T);
        for (var node = 0; node < GaussLobatto.Count; node++)
            sum = T.Fma(_shares[node], steps[node][channel], sum);
        return sum;
    }
}

/// <summary>What all sampling of weighted motion has in common.</summary>
internal static class WeightedMotion
{
    /// <summary>
    /// Sampling rate, Hz: the weightings hold the standard's tolerance, and the body hardly moves above 50 Hz. Fixed, so that
    /// the figures do not depend on the rate of the output.
    /// </summary>
    public const double Rate = 640;
}
