using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// The body's accelerations in one run, sampled at a constant rate from the polynomials through their nodes, and frequency-weighted. Each
/// run samples by itself: side by side, most lanes would wait for the one whose step holds most samples. Not thread-safe.
/// </summary>
/// <remarks>What a place on the body feels is a sum of these: filters are linear.</remarks>
internal sealed class WeightedMotion
{
    /// <summary>
    /// Sampling rate, Hz: the weightings hold the standard's tolerance, and the body hardly moves above 50 Hz. Fixed, so that
    /// the figures do not depend on the rate of the output.
    /// </summary>
    public const double Rate = 640;

    private readonly WeightingFilter _body = new(FrequencyWeighting.Wk, Rate);
    private readonly WeightingFilter _roll = new(FrequencyWeighting.Wk, Rate);
    private readonly WeightingFilter? _lateral, _rollSideways, _rollItself;
    private readonly OneLane[] _polynomials = new OneLane[2 * GaussLobatto.Count];
    private readonly double _seatOffset;
    private StepView? _step;
    private double _perLength;
    private long _next;

    /// <summary>Prepares the sampling.</summary>
    /// <param name="seatOffset">Lateral offset of the vehicle's own seat, m.</param>
    /// <param name="inAllDirections">Whether lateral and roll vibration are weighted too.</param>
    public WeightedMotion(double seatOffset, bool inAllDirections)
    {
        _seatOffset = seatOffset;
        if (!inAllDirections)
            return;
        _lateral = new(FrequencyWeighting.Wd, Rate);
        _rollSideways = new(FrequencyWeighting.Wd, Rate);
        _rollItself = new(FrequencyWeighting.We, Rate);
    }

    /// <summary>Vertical acceleration of the body at its centre of gravity, weighted with Wk, m/s².</summary>
    public double Body { get; private set; }

    /// <summary>Roll acceleration, weighted with Wk: what an offset to the side adds vertically, rad/s².</summary>
    public double Roll { get; private set; }

    /// <summary>Vertical acceleration at the vehicle's own seat, weighted with Wk, m/s².</summary>
    public double Seat => Body + (_seatOffset * Roll);

    /// <summary>Lateral acceleration, weighted with Wd, m/s².</summary>
    public double Lateral { get; private set; }

    /// <summary>Roll acceleration, weighted with Wd: what a height adds laterally, rad/s².</summary>
    public double RollSideways { get; private set; }

    /// <summary>Roll acceleration, weighted with We, rad/s².</summary>
    public double RollItself { get; private set; }

    /// <summary>Time of the sample taken last, s.</summary>
    public double Time => (_next - 1) / Rate;

    /// <summary>Place of the sample taken last, as a fraction of its step.</summary>
    private double Place { get; set; }

    /// <summary>Takes a new step.</summary>
    public void Load(StepView step)
    {
        _step = step;
        _perLength = 1 / step.Length;
        for (var i = 0; i < _polynomials.Length; i++)
            _polynomials[i] = new(step.AccelerationPolynomials[i]);
    }

    /// <summary>Takes the next sample.</summary>
    /// <returns>Whether there was one in the step.</returns>
    public bool Next()
    {
        // A step that ends at a sample holds it.
        var step = _step!;
        if (_next > step.End * Rate)
            return false;

        // The first sample may lie before the step by a rounding of time.
        Place = Math.Clamp(((_next * (1 / Rate)) - step.Start) * _perLength, 0, 1);
        _next++;
        var place = new OneLane(Place);
        Body = _body.Next(GaussLobatto.At(_polynomials.AsSpan(0, GaussLobatto.Count), place).Value);
        var roll = GaussLobatto.At(_polynomials.AsSpan(GaussLobatto.Count), place).Value;
        Roll = _roll.Next(roll);
        if (_lateral is null)
            return true;
        Lateral = _lateral.Next(At(Channel.LateralAcceleration));
        RollSideways = _rollSideways!.Next(roll);
        RollItself = _rollItself!.Next(roll);
        return true;
    }

    /// <summary>A channel at the sample taken last: the polynomial through its nodes.</summary>
    public double At(Channel channel)
    {
        Span<OneLane> values = stackalloc OneLane[GaussLobatto.Count], polynomial = stackalloc OneLane[GaussLobatto.Count];
        for (var node = 0; node < values.Length; node++)
            values[node] = new(_step![node, channel]);
        GaussLobatto.WriteCoefficients(values, polynomial);
        return GaussLobatto.At(polynomial, new OneLane(Place)).Value;
    }
}
