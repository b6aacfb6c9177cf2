using RollRide.Numerics;

namespace RollRide.Cornering;

/// <summary>A cornering by itself, as the answer of a vehicle at rest to it is judged: it begins at once and is followed until the body has come to rest. Immutable.</summary>
public sealed class CornerAlone
{
    /// <summary>How long the vehicle is followed after the last change, s: the slowest body mode of a road vehicle, 0.5 Hz, has five cycles in it.</summary>
    public const double Aftermath = 10;

    private const double SampleInterval = 0.002;

    // A record that ends within this share of its largest change, its noise, ends as it began.
    private const double Noise = 0.02;
    private const int NoiseSamples = 1000;

    // Those of 2000 s: of a longer record the samples stand further apart, which a ramp that long bears.
    private const int MostSamples = 1_000_000;

    private readonly Lazy<(double Length, double End)?> _equivalentRamp;
    private readonly Lazy<bool> _endsAsItBegan;

    /// <summary>Makes it.</summary>
    /// <param name="input">The cornering, its first change at time 0.</param>
    /// <param name="duration">How long it is followed, s; greater than 0.</param>
    public CornerAlone(ICorneringInput input, double duration)
    {
        ArgumentNullException.ThrowIfNull(input);
        (Input, Duration) = (input, Require.Positive(duration, "s"));
        var cursor = input.CreateCursor();
        cursor.EnterSegment(-1);
        InitialLateralAcceleration = cursor.LateralAcceleration(0);
        _equivalentRamp = new(FindRamp);
        _endsAsItBegan = new(() => Math.Abs(input.FinalLateralAcceleration - InitialLateralAcceleration) <= Noise * LargestChange());
    }

    /// <summary>The cornering, its first change at time 0.</summary>
    public ICorneringInput Input { get; }

    /// <summary>How long it is followed, s.</summary>
    public double Duration { get; }

    /// <summary>Lateral acceleration at its beginning, m/s²: not zero where a record begins within a turn.</summary>
    public double InitialLateralAcceleration { get; }

    /// <summary>
    /// Length of the ramp that goes from 10 to 90 % of the change of lateral acceleration in the same time, s; null where the cornering ends with the
    /// lateral acceleration that it began with.
    /// </summary>
    public double? EquivalentRamp => _equivalentRamp.Value?.Length;

    /// <summary>When that ramp is over at every axle, s after the beginning: only roll has yet to settle then; null where there is no such ramp.</summary>
    public double? BuiltUp => _equivalentRamp.Value?.End + Input.RearDelay;

    /// <summary>Whether it ends with the lateral acceleration that it began with, but for 2 % of its largest change: then there is no steady roll to go to.</summary>
    public bool EndsAsItBegan => _endsAsItBegan.Value;

    /// <summary>Takes a cornering by itself.</summary>
    /// <param name="breakpoints">When it changes, s.</param>
    /// <param name="moved">Makes the cornering that comes later by some time, s, and is known until another, s.</param>
    /// <exception cref="InvalidOperationException">It never changes.</exception>
    internal static CornerAlone Of(IReadOnlyList<double> breakpoints, Func<double, double, ICorneringInput> moved)
    {
        if (breakpoints.Count == 0)
            throw new InvalidOperationException("What never changes is no cornering.");
        var lastChange = breakpoints[^1] - breakpoints[0];
        return new CornerAlone(moved(-breakpoints[0], lastChange + Aftermath), lastChange + Aftermath);
    }

    private (double Length, double End)? FindRamp()
    {
        var change = Input.FinalLateralAcceleration - InitialLateralAcceleration;
        if (EndsAsItBegan)
            return null;
        var count = (int)Math.Min(MostSamples, Math.Ceiling(Duration / SampleInterval));
        var (from, before) = (double.NaN, 0.0);
        foreach (var (time, ay) in Samples(Duration, count))
        {
            var share = (ay - InitialLateralAcceleration) / change;
            if (double.IsNaN(from) && share >= 0.1)
                from = Reached(0.1);
            if (share >= 0.9)
            {
                var ramp = Math.Max(0, (Reached(0.9) - from) / 0.8);
                return (ramp, from + (0.9 * ramp));
            }

            before = share;

            double Reached(double wanted) => share == before ? time : time - ((share - wanted) / (share - before) * Duration / count);
        }

        return null;
    }

    private double LargestChange() => Samples(Math.Max(1, Duration - Aftermath), NoiseSamples).Max(sample => Math.Abs(sample.Value - InitialLateralAcceleration));

    /// <summary>Lateral acceleration at even steps from the beginning.</summary>
    private IEnumerable<(double Time, double Value)> Samples(double until, int count)
    {
        double[] ends = [.. Input.Breakpoints.Where(time => time > 0 && time < until), until];
        var cursor = Input.CreateCursor();
        cursor.EnterSegment(0.5 * ends[0]);
        var segment = 0;
        for (var i = 0; i <= count; i++)
        {
            var time = EvenSteps.At(0, until, i, count);
            while (time > ends[segment])
            {
                segment++;
                cursor.EnterSegment(0.5 * (ends[segment - 1] + ends[segment]));
            }

            yield return (time, cursor.LateralAcceleration(time));
        }
    }
}
