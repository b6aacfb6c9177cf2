using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>
/// A road in two wheel tracks, driven at a constant speed: at time <c>t</c> the axle stands at the distance
/// <c>Speed·t</c>. Immutable and thread-safe; <see cref="CreateCursor"/> gives the fast way to read it in a run.
/// </summary>
/// <param name="Left">Elevation of the left track, m, over distance, m.</param>
/// <param name="Right">Elevation of the right track, m, over distance, m.</param>
/// <param name="Speed">Speed, m/s, above 0.</param>
public sealed record Road(PiecewiseSignal Left, PiecewiseSignal Right, double Speed)
{
    /// <summary>Elevation of the left track, m, over distance, m.</summary>
    public PiecewiseSignal Left { get; init => field = NotNull(value, nameof(Left)); } = NotNull(Left, nameof(Left));

    /// <summary>Elevation of the right track, m, over distance, m.</summary>
    public PiecewiseSignal Right { get; init => field = NotNull(value, nameof(Right)); } = NotNull(Right, nameof(Right));

    /// <summary>Speed, m/s.</summary>
    public double Speed { get; init => field = Require.Positive(value, "m/s", nameof(Speed)); } = Require.Positive(Speed, "m/s");

    /// <summary>How far behind the first axle a second one follows on the same two tracks, m; null for one axle.</summary>
    public double? Wheelbase { get; init => field = value is { } length ? Require.Positive(length, "m", nameof(Wheelbase)) : null; }

    /// <summary>A random unevenness added to both tracks; null for none.</summary>
    public RandomRoad? Unevenness { get; init; }

    /// <summary>The times, s, ascending, at which a wheel may meet a kink or a jump of the road.</summary>
    public ImmutableArray<double> Breakpoints
    {
        get
        {
            // The unevenness is smooth but for the two ends of its lead-in.
            ReadOnlySpan<double> leadIn = Unevenness is { } random ? [0, random.LeadIn] : [];
            List<double> distances = [.. Left.Breakpoints, .. Right.Breakpoints, .. leadIn];
            if (Wheelbase is { } wheelbase)
                distances.AddRange([.. distances.Select(distance => distance + wheelbase)]);
            return [.. Ascending.Once(distances.ConvertAll(distance => distance / Speed))];
        }
    }

    /// <summary>Whether it moves no wheel anywhere.</summary>
    public bool IsFlat => !HasEvents && Unevenness is null;

    /// <summary>Whether obstacles or a profile are given, besides a random unevenness.</summary>
    public bool HasEvents => Left.Breakpoints.Length + Right.Breakpoints.Length > 0;

    /// <summary>The stretches on which obstacles or a given profile lie, m, ascending and apart from each other, each until the last axle has left it; heights that are held without end are none.</summary>
    public ImmutableArray<(double From, double To)> EventStretches
    {
        get
        {
            var stretches = new List<(double From, double To)>();
            foreach (var piece in Left.Pieces.Concat(Right.Pieces).Where(piece => double.IsFinite(piece.Start) && double.IsFinite(piece.End)).OrderBy(piece => piece.Start))
            {
                var end = piece.End + (Wheelbase ?? 0);
                if (stretches.Count > 0 && piece.Start <= stretches[^1].To)
                    stretches[^1] = (stretches[^1].From, Math.Max(stretches[^1].To, end));
                else
                    stretches.Add((piece.Start, end));
            }

            return [.. stretches];
        }
    }

    /// <summary>Whether the road moves a wheel somewhere in a span of time; a height that is held does not.</summary>
    /// <param name="start">Start, s; 0 or more.</param>
    /// <param name="end">End, s.</param>
    public bool IsUneven(double start, double end) => Unevenness is not null
        || Left.Pieces.Concat(Right.Pieces).Any(piece =>
            double.IsFinite(piece.Start) && double.IsFinite(piece.End) && piece.Start <= end * Speed && piece.End + (Wheelbase ?? 0) >= start * Speed);

    /// <summary>A road without any unevenness.</summary>
    /// <param name="speed">Speed, m/s, above 0.</param>
    public static Road Flat(double speed) => new(PiecewiseSignal.Zero, PiecewiseSignal.Zero, speed);

    /// <summary>This road with an event added to what it has already.</summary>
    /// <param name="roadEvent">The event: elevation, m, over distance, m.</param>
    /// <param name="side">The track or tracks it lies in.</param>
    /// <param name="lag">
    /// Only for both sides: how much further on the right wheel meets the event than the left, m; negative if the left
    /// wheel meets it later. The earlier wheel meets it where the event says.
    /// </param>
    /// <exception cref="ArgumentException">A lag is given for one side only, or is not finite.</exception>
    public Road With(PiecewiseSignal roadEvent, RoadSide side, double lag = 0)
    {
        ArgumentNullException.ThrowIfNull(roadEvent);
        Require.Finite(lag, "m");
        if (lag != 0 && side != RoadSide.Both)
            throw new ArgumentException(FormattableString.Invariant($"A lag ({lag} m) between the wheels needs an event on both sides; this one is on the {side} only."), nameof(lag));

        return side switch
        {
            RoadSide.Left => this with { Left = Left.Plus(roadEvent) },
            RoadSide.Right => this with { Right = Right.Plus(roadEvent) },
            RoadSide.Both => this with
            {
                Left = Left.Plus(lag < 0 ? roadEvent.Shifted(-lag) : roadEvent),
                Right = Right.Plus(lag > 0 ? roadEvent.Shifted(lag) : roadEvent),
            },
            _ => throw new ArgumentOutOfRangeException(nameof(side), side, "The side must be left, right or both."),
        };
    }

    /// <summary>The events and profiles of this road, without its random unevenness, sampled finely and from there at a spacing: what that cannot show is left out, and does not show as longer waves.</summary>
    /// <param name="length">Length from the start, m.</param>
    /// <param name="step">Sample spacing, m; above 0.</param>
    /// <param name="cancellation">Stops it.</param>
    public RoadProfile ToProfile(double length, double step, CancellationToken cancellation = default)
    {
        const double finest = 0.01;
        var finer = step / Math.Ceiling(step / finest * (1 - 1e-9));
        var (left, right) = (new double[(int)(length / finer) + 1], new double[(int)(length / finer) + 1]);
        for (var i = 0; i < left.Length; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            (left[i], right[i]) = (Left.Value(i * finer), Right.Value(i * finer));
        }

        var profile = new RoadProfile(finer, left, right);
        return finer < step ? profile.Resampled(step, cancellation) : profile;
    }

    /// <summary>Makes a cursor, which reads the road under the first axle, or the only one, in a run.</summary>
    public RoadCursor CreateCursor() => new(this, 0);

    /// <summary>Makes a cursor that reads the road under the second axle, at <see cref="Wheelbase"/> behind the first: flat at the height of its start until the axle gets there.</summary>
    /// <exception cref="InvalidOperationException">The road is uneven and for one axle.</exception>
    public RoadCursor CreateRearCursor() => new(this, Wheelbase ?? (IsFlat ? 0 : throw new InvalidOperationException("The road is for one axle.")));

    private static PiecewiseSignal NotNull(PiecewiseSignal track, string name)
    {
        ArgumentNullException.ThrowIfNull(track, name);
        return track;
    }
}
