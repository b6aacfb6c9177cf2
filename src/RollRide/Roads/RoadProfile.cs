using System.Collections.Immutable;
using MathNet.Numerics;
using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>A road sampled at a constant spacing in two wheel tracks. Immutable, checked when made.</summary>
public sealed record RoadProfile
{
    /// <summary>Makes a profile.</summary>
    /// <param name="step">Sample spacing, m; above 0.</param>
    /// <param name="left">Elevations of the left track, m; three or more, finite.</param>
    /// <param name="right">Elevations of the right track, m; as many.</param>
    /// <exception cref="ArgumentException">The values are too few, not finite, or not as many.</exception>
    public RoadProfile(double step, IReadOnlyList<double> left, IReadOnlyList<double> right)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(right);
        Step = Require.Positive(step, "m");
        if (left.Count < 3) throw new ArgumentException(FormattableString.Invariant($"A profile needs three samples or more; there are {left.Count}."), nameof(left));
        if (right.Count != left.Count) throw new ArgumentException(FormattableString.Invariant($"The left track has {left.Count} samples and the right {right.Count}."), nameof(right));
        foreach (var elevation in left.Concat(right)) Require.Finite(elevation, "m");
        (Left, Right) = ([.. left], [.. right]);
    }

    /// <summary>Sample spacing, m.</summary>
    public double Step { get; }

    /// <summary>Elevations of the left track, m.</summary>
    public ImmutableArray<double> Left { get; }

    /// <summary>Elevations of the right track, m.</summary>
    public ImmutableArray<double> Right { get; }

    /// <summary>Number of samples.</summary>
    public int Count => Left.Length;

    /// <summary>Length, m.</summary>
    public double Length => (Count - 1) * Step;

    /// <summary>Distance of a sample, m.</summary>
    /// <param name="index">Its index.</param>
    public double Distance(int index) => index * Step;

    /// <summary>The mean of both tracks: what the middle of the axle rides over.</summary>
    public ImmutableArray<double> Mean => [.. Left.Zip(Right, (l, r) => 0.5 * (l + r))];

    /// <summary>Largest departure of either track from its straight line, m: a road's is centimetres to decimetres.</summary>
    public double LargestDeparture
    {
        get
        {
            var flat = Detrended();
            return flat.Left.Concat(flat.Right).Max(Math.Abs);
        }
    }

    /// <summary>The profile without its gradient: each track less its least-squares straight line.</summary>
    public RoadProfile Detrended() => With(track =>
    {
        var (offset, slope) = Trend(track);
        return [.. track.Select((z, i) => z - offset - (slope * i))];
    });

    /// <summary>
    /// The profile as a tyre's contact of some length averages it: at each sample the mean of the straight lines between the
    /// samples over the contact centred there. Near the ends, where the contact would hang over, it is as much shorter.
    /// </summary>
    /// <param name="contactLength">Length of the contact, m; 0 leaves the profile as it is.</param>
    public RoadProfile Enveloped(double contactLength)
    {
        Require.NotNegative(contactLength, "m");
        return contactLength == 0 ? this : With(track =>
        {
            var integral = new double[track.Length];
            for (var i = 1; i < integral.Length; i++) integral[i] = integral[i - 1] + (0.5 * (track[i - 1] + track[i]));

            double IntegralTo(double u)
            {
                var i = Math.Min((int)u, track.Length - 2);
                var t = u - i;
                return integral[i] + (t * (track[i] + (0.5 * t * (track[i + 1] - track[i]))));
            }

            var result = track.ToArray();
            for (var i = 1; i < track.Length - 1; i++)
            {
                var reach = Math.Min(0.5 * contactLength / Step, Math.Min(i, track.Length - 1 - i));
                result[i] = (IntegralTo(i + reach) - IntegralTo(i - reach)) / (2 * reach);
            }

            return result;
        });
    }

    /// <summary>
    /// The profile at another spacing, without what the new spacing could only show as a false longer wave: a low-pass by a
    /// windowed sinc that ends at half the new sampling frequency. Gradients are kept.
    /// </summary>
    /// <param name="step">New spacing, m; above 0.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="ArgumentException">Fewer than three samples would be left.</exception>
    public RoadProfile Resampled(double step, CancellationToken cancellation = default)
    {
        Require.Positive(step, "m");
        var count = (int)Math.Floor((Length / step) + 1e-9) + 1;

        // Lanczos: 12 lobes a side; the cut-off is set back so that the roll-off is over at the new limit.
        const int Lobes = 12;
        var cutoff = Math.Min(1, Step / step) * (step > Step ? 1 - (1.0 / Lobes) : 1);
        double[] Resample(ImmutableArray<double> track)
        {
            var (offset, slope) = Trend(track);
            var result = new double[count];
            for (var j = 0; j < count; j++)
            {
                cancellation.ThrowIfCancellationRequested();
                var at = j * step / Step;
                var (from, to) = ((int)Math.Ceiling(at - (Lobes / cutoff)), (int)Math.Floor(at + (Lobes / cutoff)));
                double sum = 0, weights = 0;
                for (var i = Math.Max(0, from); i <= Math.Min(track.Length - 1, to); i++)
                {
                    var x = (at - i) * cutoff;
                    var weight = Trig.Sinc(x) * Trig.Sinc(x / Lobes);
                    sum += weight * (track[i] - offset - (slope * i));
                    weights += weight;
                }

                result[j] = (sum / weights) + offset + (slope * at);
            }

            return result;
        }

        return new RoadProfile(step, Resample(Left), Resample(Right));
    }

    /// <summary>The profile as a road to be driven over; its first elevation becomes zero, its last one is held.</summary>
    /// <param name="speed">Speed, m/s, above 0.</param>
    /// <param name="start">Distance of the first sample, m; the road is flat before.</param>
    public Road ToRoad(double speed, double start = 0)
    {
        var distances = Enumerable.Range(0, Count).Select(i => start + Distance(i)).ToArray();
        PiecewiseSignal Track(ImmutableArray<double> track) => RoadEvents.Sampled(distances, [.. track.Select(z => z - track[0])]);
        return new Road(Track(Left), Track(Right), speed);
    }

    private RoadProfile With(Func<ImmutableArray<double>, IReadOnlyList<double>> change) => new(Step, change(Left), change(Right));

    private static (double Offset, double SlopePerSample) Trend(ImmutableArray<double> track)
    {
        var (offset, slope) = Fit.Line([.. Enumerable.Range(0, track.Length).Select(i => (double)i)], [.. track]);
        return (offset, slope);
    }
}
