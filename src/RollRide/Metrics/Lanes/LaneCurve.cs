using RollRide.Dynamics.Series;
using RollRide.Numerics;

namespace RollRide.Metrics.Lanes;

/// <summary>One row of one lane's series over the step, as a function of time.</summary>
internal sealed class LaneCurve
{
    private readonly double _start;
    private readonly double[] _terms;

    /// <summary>Copies the row.</summary>
    /// <param name="source">The solver.</param>
    /// <param name="row">The row.</param>
    /// <param name="terms">Number of its terms.</param>
    /// <param name="lane">The lane.</param>
    /// <param name="rule">At whose nodes the step is looked at.</param>
    public LaneCurve(ISeriesSource source, int row, int terms, int lane, GaussLobatto rule)
    {
        var stride = source.LaneCount;
        var all = source.Terms[((row * SeriesRow.Terms * stride) + lane)..];
        _start = source.Start(lane);
        _terms = new double[terms];
        for (var k = 0; k < terms; k++)
            _terms[k] = all[k * stride];
        Times = WithTurns(rule, source.End(lane));
    }

    /// <summary>Times of the nodes, and those at which the row turns round between them, s, ascending: between two of them it rises or falls.</summary>
    public double[] Times { get; }

    /// <summary>The row at a time in the step, s.</summary>
    public double At(double time)
    {
        var (sum, t) = (0.0, time - _start);
        for (var k = _terms.Length - 1; k >= 0; k--)
            sum = Math.FusedMultiplyAdd(sum, t, _terms[k]);
        return sum;
    }

    /// <summary>When the row passes through a level between two times at which it lies on either side of it, s.</summary>
    public double Passage(double level, double from, double to) => _start + KinkSearch.Passage(_terms, level, from - _start, to - _start);

    private double[] WithTurns(GaussLobatto rule, double end)
    {
        var times = new List<double>(rule.Count + 2);
        var (before, rateBefore) = (0.0, 0.0);
        for (var node = 0; node < rule.Count; node++)
        {
            var time = rule.Fractions[node] * (end - _start);
            var rate = KinkSearch.Evaluate(_terms, time).Rate;
            if (rate * rateBefore < 0)
                times.Add(_start + KinkSearch.Turn(_terms, before, rateBefore, time, rate));
            times.Add(Math.Min(_start + time, end));
            (before, rateBefore) = (time, rate);
        }

        return [.. times];
    }
}
