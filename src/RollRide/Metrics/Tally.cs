namespace RollRide.Metrics;

/// <summary>What a <see cref="Gauge"/> has gathered over a span of time.</summary>
/// <param name="Value">A sum, the largest value, or of spans whether the first lasts from before (1 or 0).</param>
/// <param name="Spans">Spans of time, s, in their order; null if none.</param>
/// <param name="Time">When the largest value was reached, s; not a number where that is not gathered.</param>
/// <param name="Beside">Another channel at that instant; not a number where none is gathered.</param>
internal readonly record struct Tally(double Value, List<(double Start, double End)>? Spans = null, double Time = double.NaN, double Beside = double.NaN);

/// <summary>What the gauges of one run have gathered over a span of time.</summary>
internal sealed class Tallies(int count)
{
    private readonly Tally?[] _tallies = new Tally?[count];

    /// <summary>The weighted acceleration of the body at its centre of gravity.</summary>
    public ComfortTally AtBody { get; private set; }

    /// <summary>The weighted acceleration at the seat.</summary>
    public ComfortTally AtSeat { get; private set; }

    /// <summary>What a gauge has gathered.</summary>
    public Tally this[Gauge gauge] => _tallies[gauge.Index] ?? gauge.Nothing;

    /// <summary>Adds what a gauge has gathered over the span that follows.</summary>
    public void Add(Gauge gauge, in Tally later) =>
        _tallies[gauge.Index] = _tallies[gauge.Index] is { } tally ? gauge.Merge(tally, later) : later;

    /// <summary>Adds the weighted accelerations of the span that follows.</summary>
    public void Add(in ComfortTally atBody, in ComfortTally atSeat) => (AtBody, AtSeat) = (AtBody.With(atBody), AtSeat.With(atSeat));

    /// <summary>Adds all that was gathered over the span that follows.</summary>
    public void Add(IEnumerable<Gauge> gauges, Tallies later)
    {
        foreach (var gauge in gauges)
        {
            if (later._tallies[gauge.Index] is { } tally)
                Add(gauge, tally);
        }

        Add(later.AtBody, later.AtSeat);
    }
}
