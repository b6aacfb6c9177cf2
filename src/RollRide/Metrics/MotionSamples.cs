using System.Runtime.CompilerServices;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>A weighted signal of <see cref="MotionSamples"/>; its value is its lane.</summary>
internal static class MotionSignal
{
    /// <summary>Vertical acceleration of the body at its centre of gravity, m/s², weighted with Wk.</summary>
    public const int Body = 0;

    /// <summary>Roll acceleration, rad/s², weighted with Wk, for its part in the vertical acceleration of a seat.</summary>
    public const int Roll = 1;

    /// <summary>Lateral acceleration, m/s², weighted with Wd.</summary>
    public const int Lateral = 2;

    /// <summary>Roll acceleration, rad/s², weighted with Wd, for its part in the lateral acceleration of a seat.</summary>
    public const int RollSideways = 3;

    /// <summary>Roll acceleration, rad/s², weighted with We, for itself.</summary>
    public const int RollItself = 4;
}

/// <summary>
/// The motion of the body at a fixed rate, as it is and weighted, up to eight samples at a time. The filters run over the whole run, since
/// they remember what came before. Between the nodes of a step it follows the polynomial through them: steps are short against
/// the highest frequency that the weightings let pass. A seat's weighted acceleration is the sum of the body's and of roll's share in it, as the
/// filters are linear.
/// </summary>
internal sealed class MotionSamples
{
    /// <summary>
    /// Sampling rate, Hz: the weightings hold the standard's tolerance, and the body hardly moves above 50 Hz. Fixed, so that
    /// the figures do not depend on the rate of the output.
    /// </summary>
    public const double Rate = 640;

    private readonly WeightingBank _bank = new(
        Rate, FrequencyWeighting.Wk, FrequencyWeighting.Wk, FrequencyWeighting.Wd, FrequencyWeighting.Wd, FrequencyWeighting.We);

    private readonly KeptOctet[] _shares = new KeptOctet[GaussLobatto.Lanes];
    private readonly KeptOctet[] _weighted = new KeptOctet[GaussLobatto.Lanes];
    private StepSamples? _step;
    private long _first;

    /// <summary>Number of samples at hand, 0 to 8.</summary>
    public int Count { get; private set; }

    /// <summary>The weighted signals of each sample, in the lanes of <see cref="MotionSignal"/>.</summary>
    public ReadOnlySpan<KeptOctet> Weighted => _weighted.AsSpan(0, Count);

    /// <summary>Time of a sample, s.</summary>
    public double Time(int sample) => (_first + sample) / Rate;

    /// <summary>Takes the next samples that lie in a step.</summary>
    /// <returns>False once there are no more.</returns>
    public bool Next(StepSamples step)
    {
        _first += Count;
        Count = (int)Math.Min(GaussLobatto.Lanes, (long)(step.End * Rate) + 1 - _first);
        if (Count <= 0)
        {
            Count = 0;
            return false;
        }

        _step = step;
        Sample(step);
        _bank.Filter(_weighted.AsSpan(0, Count));
        return true;
    }

    /// <summary>A channel as it is, in the lane of each sample; lanes without one hold anything.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public Octet At(Channel channel)
    {
        // The polynomial through the nodes.
        var values = _step!.Nodes.Lanes(channel);
        var sum = default(Octet);
        var shares = _shares.AsSpan(0, _step.Rule.Count);
        for (var node = 0; node < shares.Length; node++)
            sum = Octet.Fma(shares[node], Octet.All(values[node]), sum);
        return sum;
    }

    private void Sample(StepSamples step)
    {
        // The first sample may lie before the step by a rounding of time, and lanes without a sample lie behind it.
        var times = (Octet.All((double)_first) + Octet.Indices) * Octet.All(1 / Rate);
        var places = (times - Octet.All(step.Start)) * Octet.All(1 / step.Length);
        step.Rule.Shares(Octet.Max(default, Octet.Min(Octet.All(1), places)), _shares);
        var (body, roll, lateral) = (At(Channel.BodyAcceleration), At(Channel.BodyRollAcceleration), At(Channel.LateralAcceleration));
        for (var i = 0; i < Count; i++)
        {
            ref var signals = ref _weighted[i];
            signals[MotionSignal.Body] = body[i];
            signals[MotionSignal.Roll] = signals[MotionSignal.RollSideways] = signals[MotionSignal.RollItself] = roll[i];
            signals[MotionSignal.Lateral] = lateral[i];
        }
    }
}
