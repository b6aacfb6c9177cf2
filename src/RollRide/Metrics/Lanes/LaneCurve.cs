using RollRide.Dynamics.Series;
using RollRide.Numerics;

namespace RollRide.Metrics.Lanes;

/// <summary>
/// One row of one lane's series over the step, as a function of time. The next <see cref="Take"/> overwrites <see cref="Times"/> and
/// <see cref="Values"/>; it allocates nothing.
/// </summary>
/// <param name="rule">At whose nodes a step is looked at.</param>
internal sealed class LaneCurve(GaussLobatto rule)
{
    private readonly double[] _row = new double[SeriesRow.Terms];

    // At most one turn between two nodes.
    private readonly double[] _times = new double[2 * GaussLobatto.Lanes];
    private readonly double[] _values = new double[2 * GaussLobatto.Lanes];
    private double _start;
    private int _terms;
    private int _count;

    /// <summary>Takes a row.</summary>
    /// <param name="source">The solver.</param>
    /// <param name="row">The row.</param>
    /// <param name="terms">Number of its terms.</param>
    /// <param name="lane">The lane.</param>
    public void Take(ISeriesSource source, int row, int terms, int lane)
    {
        var stride = source.LaneCount;
        var all = source.Terms[((row * SeriesRow.Terms * stride) + lane)..];
        (_start, _terms) = (source.Start(lane), terms);
        for (var k = 0; k < terms; k++)
            _row[k] = all[k * stride];
        Look(source.End(lane));
    }

    /// <summary>Times of the nodes, and those at which the row turns round between them, s, ascending: between two of them it rises or falls.</summary>
    public ReadOnlySpan<double> Times => _times.AsSpan(0, _count);

    /// <summary>The row at these times.</summary>
    public ReadOnlySpan<double> Values => _values.AsSpan(0, _count);

    private ReadOnlySpan<double> Row => _row.AsSpan(0, _terms);

    /// <summary>The row at a time in the step, s.</summary>
    public double At(double time) => KinkSearch.Evaluate(Row, time - _start).Value;

    /// <summary>When the row passes through a level between two times at which it lies on either side of it, s.</summary>
    public double Passage(double level, double from, double to) => _start + KinkSearch.Passage(Row, level, from - _start, to - _start);

    private void Look(double end)
    {
        Span<double> times = stackalloc double[KinkSearch.Parts], values = stackalloc double[KinkSearch.Parts], rates = stackalloc double[KinkSearch.Parts];
        (rule.Places * Octet.All(end - _start)).CopyTo(times);
        KinkSearch.Evaluate(Row, times, values, rates);
        _count = 0;
        for (var node = 0; node < rule.Count; node++)
        {
            if (node > 0 && rates[node] * rates[node - 1] < 0)
            {
                var turn = KinkSearch.Turn(Row, times[node - 1], rates[node - 1], times[node], rates[node]);
                Add(_start + turn, KinkSearch.Evaluate(Row, turn).Value);
            }

            Add(Math.Min(_start + times[node], end), values[node]);
        }
    }

    private void Add(double time, double value)
    {
        (_times[_count], _values[_count]) = (time, value);
        _count++;
    }
}
