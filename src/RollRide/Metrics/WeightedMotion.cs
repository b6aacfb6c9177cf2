using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Metrics;

/// <summary>
/// The body's accelerations in one run, sampled at a constant rate from the polynomials through their nodes, and frequency-weighted. Each
/// run samples by itself: side by side, most lanes would wait for the one whose step holds most samples. Not thread-safe.
/// </summary>
/// <remarks>The filters are linear, so the weighted vibration at any place on the body is a sum of these.</remarks>
internal sealed class WeightedMotion
{
    /// <summary>
    /// Sampling rate, Hz: the weightings hold the standard's tolerance, and the body hardly moves above 50 Hz. Fixed, so that
    /// the figures do not depend on the rate of the output.
    /// </summary>
    public const double Rate = 640;

    private readonly WeightingFilter _body = new(FrequencyWeighting.Wk, Rate);
    private readonly WeightingFilter _rollVertical = new(FrequencyWeighting.Wk, Rate);
    private readonly WeightingFilter? _lateral, _rollLateral, _rollRotational;
    private readonly OneLane[] _polynomials = new OneLane[2 * GaussLobatto.Count];
    private readonly OneLane[] _nodes = new OneLane[GaussLobatto.Count];
    private readonly OneLane[] _lateralPolynomial = new OneLane[GaussLobatto.Count];
    private readonly OneLane[] _loadPolynomial = new OneLane[GaussLobatto.Count];
    private readonly double _seatOffset;
    private readonly WeightingFilter? _seat;
    private readonly OneLane[] _seatPolynomial = new OneLane[GaussLobatto.Count];
    private double _atSeat;
    private StepView? _step;
    private double _perLength;
    private double _place;
    private long _next;

    /// <summary>Prepares the sampling.</summary>
    /// <param name="vehicle">The vehicle, with its seat.</param>
    /// <param name="inAllDirections">Whether lateral and roll vibration are weighted too.</param>
    public WeightedMotion(HalfCar vehicle, bool inAllDirections)
    {
        _seatOffset = vehicle.SeatOffset;

        // Towards another axle the body there moves the seat too.
        _seat = vehicle.SeatTowardsSecondAxle == 0 ? null : new(FrequencyWeighting.Wk, Rate);
        if (!inAllDirections)
            return;
        _lateral = new(FrequencyWeighting.Wd, Rate);
        _rollLateral = new(FrequencyWeighting.Wd, Rate);
        _rollRotational = new(FrequencyWeighting.We, Rate);
    }

    /// <summary>Vertical acceleration of the body at its centre of gravity, weighted with Wk, m/s².</summary>
    public double Body { get; private set; }

    /// <summary>Roll acceleration weighted with Wk, for the vertical vibration at a lateral offset, rad/s².</summary>
    public double RollVertical { get; private set; }

    /// <summary>Vertical acceleration at the vehicle's own seat, weighted with Wk, m/s².</summary>
    public double Seat => _seat is null ? Body + (_seatOffset * RollVertical) : _atSeat;

    /// <summary>Lateral acceleration, weighted with Wd, m/s².</summary>
    public double Lateral { get; private set; }

    /// <summary>Roll acceleration weighted with Wd, for the lateral vibration at a height, rad/s².</summary>
    public double RollLateral { get; private set; }

    /// <summary>Roll acceleration weighted with We, as rotational vibration, rad/s².</summary>
    public double RollRotational { get; private set; }

    /// <summary>Vertical acceleration of the body, unweighted, m/s².</summary>
    public double BodyAcceleration { get; private set; }

    /// <summary>Load of both sides on the road, N; only where all directions are weighted.</summary>
    public double Load => GaussLobatto.At<OneLane>(_loadPolynomial, new OneLane(_place)).Value;

    /// <summary>Time of the sample taken last, s.</summary>
    public double Time => (_next - 1) / Rate;

    /// <summary>Takes a new step.</summary>
    public void Take(StepView step)
    {
        _step = step;
        _perLength = 1 / step.Length;
        for (var i = 0; i < _polynomials.Length; i++)
            _polynomials[i] = new(step.AccelerationPolynomials[i]);
        if (_seat is not null)
            Read(Channel.SeatAcceleration, _seatPolynomial);
        if (_lateral is null)
            return;
        Read(Channel.LateralAcceleration, _lateralPolynomial);
        for (var node = 0; node < _nodes.Length; node++)
            _nodes[node] = new(step[node, Channel.TyreLoadLeft] + step[node, Channel.TyreLoadRight]);
        GaussLobatto.WriteCoefficients<OneLane>(_nodes, _loadPolynomial);

        void Read(Channel channel, OneLane[] polynomial)
        {
            for (var node = 0; node < _nodes.Length; node++)
                _nodes[node] = new(step[node, channel]);
            GaussLobatto.WriteCoefficients<OneLane>(_nodes, polynomial);
        }
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
        _place = Math.Clamp(((_next * (1 / Rate)) - step.Start) * _perLength, 0, 1);
        _next++;
        var place = new OneLane(_place);
        BodyAcceleration = GaussLobatto.At<OneLane>(_polynomials.AsSpan(0, GaussLobatto.Count), place).Value;
        Body = _body.Next(BodyAcceleration);
        var roll = GaussLobatto.At<OneLane>(_polynomials.AsSpan(GaussLobatto.Count), place).Value;
        RollVertical = _rollVertical.Next(roll);
        if (_seat is not null)
            _atSeat = _seat.Next(GaussLobatto.At<OneLane>(_seatPolynomial, place).Value);
        if (_lateral is null)
            return true;
        Lateral = _lateral.Next(GaussLobatto.At<OneLane>(_lateralPolynomial, place).Value);
        RollLateral = _rollLateral!.Next(roll);
        RollRotational = _rollRotational!.Next(roll);
        return true;
    }
}
