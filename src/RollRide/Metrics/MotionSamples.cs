using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>A signal that <see cref="MotionSamples"/> samples.</summary>
internal enum MotionSignal
{
    /// <summary>Vertical acceleration of the body at its centre of gravity, m/s²; weighted with Wk.</summary>
    Body,

    /// <summary>Roll acceleration, rad/s²; weighted with Wk, for its part in the vertical acceleration of a seat.</summary>
    Roll,

    /// <summary>Lateral acceleration, m/s²; weighted with Wd.</summary>
    Lateral,

    /// <summary>Roll acceleration, rad/s²; weighted with Wd, for its part in the lateral acceleration of a seat.</summary>
    RollSideways,

    /// <summary>Roll acceleration, rad/s²; weighted with We, for itself.</summary>
    RollItself,

    /// <summary>Mean load change of the two sides over the static load; never weighted.</summary>
    LoadChange,
}

/// <summary>
/// The motion of the body at a fixed rate, as it is and weighted, up to eight samples at a time. The filters run over the whole run, since
/// they remember what came before. Between the nodes of a step it follows the polynomial through them: steps are short against
/// the highest frequency that the weightings let pass. A seat's weighted acceleration is the sum of the body's and of roll's share in it, as the
/// filters are linear.
/// </summary>
internal sealed class MotionSamples(AssembledHalfCar car)
{
    /// <summary>
    /// Sampling rate, Hz: the weightings hold the standard's tolerance, and the body hardly moves above 50 Hz. Fixed, so that
    /// the figures do not depend on the rate of the output.
    /// </summary>
    public const double Rate = 640;

    private static readonly Vector512<double> Indices = Vector512.Create(0, 1, 2, 3, 4, 5, 6, 7.0);

    private readonly WeightingBank _bank = new(
        Rate, FrequencyWeighting.Wk, FrequencyWeighting.Wk, FrequencyWeighting.Wd, FrequencyWeighting.Wd, FrequencyWeighting.We);

    private readonly double _staticLoad = car.Vehicle.StaticTyreLoad * car.Vehicle.ContactPositions.Count / 2;
    private readonly Vector512<double>[] _shares = new Vector512<double>[GaussLobatto.Lanes];
    private readonly Vector512<double>[] _samples = new Vector512<double>[GaussLobatto.Lanes];
    private readonly Vector512<double>[] _weighted = new Vector512<double>[GaussLobatto.Lanes];
    private long _first;

    /// <summary>Number of samples at hand, 0 to 8.</summary>
    public int Count { get; private set; }

    /// <summary>Time of a sample, s.</summary>
    public double Time(int sample) => (_first + sample) / Rate;

    /// <summary>A signal as it is.</summary>
    public double this[int sample, MotionSignal signal] => Element(_samples, sample, signal);

    /// <summary>A signal weighted.</summary>
    public double Weighted(int sample, MotionSignal signal) => Element(_weighted, sample, signal);

    /// <summary>Takes the next samples that lie in a step.</summary>
    /// <returns>False once there are no more.</returns>
    public bool Next(StepSamples step)
    {
        _first += Count;
        for (Count = 0; Count < GaussLobatto.Lanes && Time(Count) <= step.End;)
            Count++;
        if (Count == 0)
            return false;

        Sample(step);
        _samples.AsSpan(0, Count).CopyTo(_weighted);
        _bank.Filter(_weighted.AsSpan(0, Count));
        return true;
    }

    private static double Element(Vector512<double>[] samples, int sample, MotionSignal signal) =>
        MemoryMarshal.Cast<Vector512<double>, double>(samples)[(sample * GaussLobatto.Lanes) + (int)signal];

    private void Sample(StepSamples step)
    {
        // The first sample may lie before the step by a rounding of time, and lanes without a sample lie behind it.
        var times = (Vector512.Create((double)_first) + Indices) / Rate;
        var places = Vector512.Max(Vector512<double>.Zero, Vector512.Min(Vector512<double>.One, (times - Vector512.Create(step.Start)) / step.Length));
        step.Rule.Shares(places, _shares);
        var at = step.Nodes;
        var body = Between(at[Channel.BodyAcceleration]);
        var roll = Between(at[Channel.BodyRollAcceleration]);
        var lateral = Between(at[Channel.LateralAcceleration]);
        var load = Between(at[Channel.TyreLoadLeft] + at[Channel.TyreLoadRight]);
        for (var i = 0; i < Count; i++)
            _samples[i] = Vector512.Create(body[i], roll[i], lateral[i], roll[i], roll[i], (load[i] / (2 * _staticLoad)) - 1, 0, 0);

        Vector512<double> Between(Vector512<double> values)
        {
            var sum = Vector512<double>.Zero;
            for (var node = 0; node < step.Rule.Count; node++)
                sum += _shares[node] * Vector512.Create(values[node]);
            return sum;
        }
    }
}
