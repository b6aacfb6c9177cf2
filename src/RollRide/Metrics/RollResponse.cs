using RollRide.Dynamics;

namespace RollRide.Metrics;

/// <summary>How the body answers a cornering input in roll. Terms and time origin after ISO 7401:2011 (from memory).</summary>
public sealed record RollResponse
{
    /// <summary>Body roll of the static solution under the final lateral acceleration, rad; null if there is no stable one.</summary>
    public required double? SteadyAngle { get; init; }

    /// <summary>Roll gradient, rad per m/s²: steady roll over the final lateral acceleration, or over 1 m/s² where that is zero.</summary>
    public required double? Gradient { get; init; }

    /// <summary>The largest roll angle in the direction of the steady one, with its sign, rad; of either direction where there is no steady angle.</summary>
    public required double PeakAngle { get; init; }

    /// <summary>Overshoot over the steady value, as a ratio; null where the steady angle is zero or none.</summary>
    public required double? Overshoot { get; init; }

    /// <summary>From the instant the input passed half of its final value until roll first reached 90 % of steady, s.</summary>
    public required double? ResponseTime { get; init; }

    /// <summary>From the same instant until the peak, s.</summary>
    public required double? PeakTime { get; init; }

    /// <summary>From the start of the input until roll entered the ±5 % band around steady for the last time, s; null if it did not settle.</summary>
    public required double? SettlingTime { get; init; }
}

/// <summary>Gathers a <see cref="RollResponse"/> from the start of the cornering to the end of the run.</summary>
internal sealed class RollResponseRecorder
{
    private const double ReachedShare = 0.9;
    private const double SettledBand = 0.05;

    private readonly double _start;
    private readonly double? _steady;
    private readonly double? _gradient;
    private readonly double _direction;
    private readonly Maximum _peak;
    private readonly FirstRise? _halfInput;
    private readonly FirstRise? _reached;
    private readonly LastFall? _settled;

    public RollResponseRecorder(AssembledHalfCar car, Manoeuvre manoeuvre)
    {
        _start = manoeuvre.Cornering.StartTime;
        var ay = manoeuvre.Cornering.FinalLateralAcceleration;
        var reference = ay == 0 ? 1 : ay;
        if (StaticEquilibrium.TryFind(car, reference, out var stand))
        {
            _gradient = stand.BodyRoll / reference;
            _steady = ay == 0 ? 0 : stand.BodyRoll;
        }

        var steady = _steady ?? 0;
        _direction = Math.Sign(steady);
        _peak = _direction == 0
            ? new Maximum(c => Math.Abs(c[(int)Channel.BodyRoll]))
            : new Maximum(c => _direction * c[(int)Channel.BodyRoll]);
        if (_direction == 0)
            return;
        var command = manoeuvre.Cornering.FinalCommand;
        _halfInput = new FirstRise(c => (c[(int)Channel.CorneringCommand] / command) - 0.5);
        _reached = new FirstRise(c => (c[(int)Channel.BodyRoll] / steady) - ReachedShare);
        _settled = new LastFall(c => Math.Abs((c[(int)Channel.BodyRoll] / steady) - 1) - SettledBand);
    }

    public void Add(StepSamples step)
    {
        if (0.5 * (step.Start + step.End) < _start)
            return;
        _peak.Add(step);
        _halfInput?.Add(step);
        _reached?.Add(step);
        _settled?.Add(step);
    }

    public RollResponse ToResponse()
    {
        var peak = _direction == 0 ? _peak.Value : _direction * _peak.Value;
        return new RollResponse
        {
            SteadyAngle = _steady,
            Gradient = _gradient,
            PeakAngle = peak,
            Overshoot = _direction == 0 ? null : (peak / _steady) - 1,
            ResponseTime = _reached?.Time - _halfInput?.Time,
            PeakTime = _peak.Time - _halfInput?.Time,
            SettlingTime = _settled?.Time - _start,
        };
    }
}
