using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <summary>Finds where a quantity, given as a polynomial over a step, first reaches a bound. Allocates nothing.</summary>
internal static class KinkSearch
{
    /// <summary>
    /// The shortest step, s, of a quantity that starts on its bound, to rounding, and leaves, so that the run goes on. What its force is
    /// wrong by in that time does not count: force laws are continuous, and a nanosecond of motion changes little.
    /// </summary>
    public const double ShortestStep = 1e-9;

    /// <summary>Bounds reached within this time, s, are reached together, as by both sides in pure heave.</summary>
    public const double SameInstant = 1e-12;

    /// <summary>Newton's method has arrived once it moves by less than this, s: the next move would be about its square.</summary>
    public const double LastMove = 1e-9;

    private const int NewtonSteps = 60;

    private const int TurnSteps = 5;

    /// <summary>
    /// Parts of a step looked at one by one: a quantity is taken to turn round at most once in each. Their ends are evaluated together, as many
    /// as an <see cref="Octet"/> holds.
    /// </summary>
    internal const int Parts = Octet.Count;

    private static readonly double[] PartEnds = [.. Enumerable.Range(1, Parts).Select(part => part / (double)Parts)];

    /// <summary>The first time in the step at which a quantity reaches a bound; +∞ if it does not.</summary>
    /// <param name="g">The quantity: coefficients of the powers of the time since the step's start, the constant first; at least two.</param>
    /// <param name="low">The lower bound.</param>
    /// <param name="high">The upper bound.</param>
    /// <param name="step">Length of the step, s.</param>
    /// <param name="rising">Whether it is the upper bound that is reached.</param>
    public static double FirstReach(ReadOnlySpan<double> g, double low, double high, double step, out bool rising)
    {
        var shortest = Math.Min(ShortestStep, step);
        var (from, rate) = (0.0, g[1]);
        rising = g[0] >= high;
        if (rising || g[0] <= low)
        {
            // On a bound, to rounding: it leaves at once, or it counts as inside.
            var outwards = rising ? rate : -rate;
            if (outwards == 0 && g[2..].ContainsAnyExcept(0))
            {
                var soon = Evaluate(g, step / Parts).Value;
                outwards = rising ? soon - high : low - soon;
            }

            if (outwards > 0)
                return shortest;
        }

        Span<double> ends = stackalloc double[Parts], values = stackalloc double[Parts], rates = stackalloc double[Parts];
        for (var part = 0; part < Parts; part++)
            ends[part] = step * PartEnds[part];
        Evaluate(g, ends, values, rates);
        var fromValue = g[0];
        for (var part = 0; part < Parts; part++)
        {
            var (to, value, nextRate) = (ends[part], values[part], rates[part]);
            if (rate * nextRate < 0)
            {
                // It turns round on the way: does it pass a bound before that?
                var turn = Turn(g, from, rate, to, nextRate);
                var extreme = Evaluate(g, turn).Value;
                if (extreme > high || extreme < low)
                    return Reach(g, new(from, fromValue, rate), new(turn, extreme, 0), out rising);
                (from, fromValue, rate) = (turn, extreme, 0);
            }

            if (value > high || value < low)
                return Reach(g, new(from, fromValue, rate), new(to, value, nextRate), out rising);
            (from, fromValue, rate) = (to, value, nextRate);
        }

        return double.PositiveInfinity;

        double Reach(ReadOnlySpan<double> g, in Instant inside, in Instant outside, out bool isHigh)
        {
            isHigh = outside.Value > high;
            return Math.Max(shortest, Crossing(g, isHigh ? high : low, isHigh ? 1 : -1, inside, outside));
        }
    }

    /// <summary>Values and rates of a polynomial at <see cref="Parts"/> times. Lengths are not checked.</summary>
    /// <param name="g">Its coefficients.</param>
    /// <param name="times">The times, s.</param>
    /// <param name="values">Receives its values.</param>
    /// <param name="rates">Receives its rates.</param>
    internal static void Evaluate(ReadOnlySpan<double> g, ReadOnlySpan<double> times, Span<double> values, Span<double> rates)
    {
        if (Vector512.IsHardwareAccelerated)
            Evaluate<EightLanes>(g, times, values, rates);
        else
            Evaluate<FourLanes>(g, times, values, rates);
    }

    /// <summary>The same in vectors of a length; it makes no difference to the values.</summary>
    internal static void Evaluate<T>(ReadOnlySpan<double> g, ReadOnlySpan<double> times, Span<double> values, Span<double> rates)
        where T : struct, ILanes<T>
    {
        for (var first = 0; first < Parts; first += T.Count)
        {
            var time = Lanes<T>(ref MemoryMarshal.GetReference(times), first);
            var (value, rate) = (T.All(g[^1]), T.All(0));
            for (var k = g.Length - 2; k >= 0; k--)
            {
                rate = T.Fma(rate, time, value);
                value = T.Fma(value, time, T.All(g[k]));
            }

            Lanes<T>(ref MemoryMarshal.GetReference(values), first) = value;
            Lanes<T>(ref MemoryMarshal.GetReference(rates), first) = rate;
        }
    }

    private static ref T Lanes<T>(ref double numbers, int index)
        where T : struct, ILanes<T> => ref Unsafe.As<double, T>(ref Unsafe.Add(ref numbers, index));

    /// <summary>
    /// Where the polynomial turns round: where its rate passes through zero, by the chord. A small error of the place is a far smaller
    /// one of the value.
    /// </summary>
    internal static double Turn(ReadOnlySpan<double> g, double from, double fromRate, double to, double toRate)
    {
        var time = from;
        for (var i = 0; i < TurnSteps; i++)
        {
            time = from + ((to - from) * fromRate / (fromRate - toRate));
            var rate = Evaluate(g, time).Rate;
            if (rate > 0 == fromRate > 0)
                (from, fromRate, toRate) = (time, rate, 0.5 * toRate);
            else
                (to, toRate, fromRate) = (time, rate, 0.5 * fromRate);
        }

        return time;
    }

    /// <summary>When a polynomial passes through a level between two times at which it lies on either side of it, s.</summary>
    /// <param name="g">Its coefficients.</param>
    /// <param name="level">The level.</param>
    /// <param name="from">The earlier time, s.</param>
    /// <param name="to">The later time, s.</param>
    public static double Passage(ReadOnlySpan<double> g, double level, double from, double to)
    {
        var (before, after) = (Evaluate(g, from), Evaluate(g, to));
        return Crossing(g, level, after.Value > before.Value ? 1 : -1, new(from, before.Value, before.Rate), new(to, after.Value, after.Rate));
    }

    /// <summary>Where the polynomial reaches a bound that it is inside of at one end and outside of at the other.</summary>
    private static double Crossing(ReadOnlySpan<double> g, double bound, int sign, in Instant inside, in Instant outside)
    {
        var time = inside.Time + ((outside.Time - inside.Time) * Guess(bound, inside, outside));
        var (low, high) = (inside.Time, outside.Time);
        for (var i = 0; i < NewtonSteps; i++)
        {
            var (value, rate) = Evaluate(g, time);
            var excess = sign * (value - bound);
            if (excess > 0)
                high = time;
            else
                low = time;
            var next = time - ((value - bound) / rate);
            var isNewtons = next >= low && next <= high;
            if (!isNewtons)
                next = 0.5 * (low + high);
            if (Math.Abs(next - time) <= (isNewtons ? LastMove : SameInstant * 1e-2))
                return next;
            time = next;
        }

        return time;
    }

    /// <summary>The share of the way at which a bound is reached: by time as a cubic of the value, or by a parabola where it turns round at an end.</summary>
    private static double Guess(double bound, in Instant inside, in Instant outside)
    {
        var (change, length) = (outside.Value - inside.Value, outside.Time - inside.Time);
        var x = Math.Clamp((bound - inside.Value) / change, 0, 1);
        if (inside.Rate * change <= 0)
            return Math.Sqrt(x);
        if (outside.Rate * change <= 0)
            return 1 - Math.Sqrt(1 - x);
        var (slopeIn, slopeOut) = (change / (length * inside.Rate), change / (length * outside.Rate));
        return Math.Clamp((x * x * (3 - x - x)) + (x * (1 - x) * (((1 - x) * slopeIn) - (x * slopeOut))), 0, 1);
    }

    /// <summary>Value and rate of a quantity at a time, s.</summary>
    private readonly record struct Instant(double Time, double Value, double Rate);

    /// <summary>Value and rate of a polynomial at a time, s.</summary>
    internal static (double Value, double Rate) Evaluate(ReadOnlySpan<double> g, double time)
    {
        var (value, rate) = (g[^1], 0.0);
        for (var k = g.Length - 2; k >= 0; k--)
        {
            rate = Math.FusedMultiplyAdd(rate, time, value);
            value = Math.FusedMultiplyAdd(value, time, g[k]);
        }

        return (value, rate);
    }
}
