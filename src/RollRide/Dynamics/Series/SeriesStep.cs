using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <summary>
/// One lane's step as observers see it: the solution anywhere in it, and all channels at eight instants at once. Valid while the
/// solver has not moved on.
/// </summary>
/// <param name="source">The solver.</param>
/// <param name="lane">The lane.</param>
internal sealed class SeriesStep(ISeriesSource source, int lane) : IChannelStep, IKeptStep
{
    private readonly int _stride = source.LaneCount;
    private readonly double[] _unasked = new double[IChannelStep.MostTogether];
    private readonly double[] _coefficients = new double[HalfCarState.Count * SeriesRow.Terms];

    /// <inheritdoc/>
    public double Start => source.Start(lane);

    /// <inheritdoc/>
    public double End => source.End(lane);

    /// <inheritdoc/>
    public GaussLobatto Rule => GaussLobatto.Eight;

    /// <inheritdoc/>
    public ReadOnlySpan<double> Coefficients => WriteCoefficients();

    private SeriesLane Lane => source.Lanes[lane];

    /// <inheritdoc/>
    /// <exception cref="ArgumentOutOfRangeException">The time is outside the step.</exception>
    public void StateAt(double time, Span<double> state)
    {
        if (!(time >= Start && time <= End))
            throw new ArgumentOutOfRangeException(nameof(time), time, $"time must lie in the step from {Start:R} s to {End:R} s.");
        if (time == End)
        {
            source.EndState(lane, state);
            return;
        }

        var t = time - Start;
        for (var i = 0; i < HalfCarState.Rates; i++)
        {
            state[i] = Sum(SeriesRow.Position + i, SeriesRow.Order);
            state[HalfCarState.Rates + i] = Sum(SeriesRow.Velocity + i, SeriesRow.Order - 1);
        }

        double Sum(int row, int order)
        {
            var series = source.Terms;
            var sum = series[Index(row, order)];
            for (var k = order - 1; k >= 0; k--)
                sum = Math.FusedMultiplyAdd(sum, t, series[Index(row, k)]);
            return sum;
        }
    }

    /// <inheritdoc/>
    public void Evaluate(ReadOnlySpan<double> coefficients, double fraction, Span<double> state)
    {
        for (var i = 0; i < HalfCarState.Count; i++)
        {
            var sum = 0.0;
            for (var k = SeriesRow.Order; k >= 0; k--)
                sum = Math.FusedMultiplyAdd(sum, fraction, coefficients[(i * SeriesRow.Terms) + k]);
            state[i] = sum;
        }
    }

    /// <inheritdoc/>
    public void WriteMotions(ReadOnlySpan<double> sinceStart, double[]?[] channels, int first)
    {
        if (Vector512.IsHardwareAccelerated)
            WriteMotions<EightLanes>(sinceStart, channels, first);
        else
            WriteMotions<FourLanes>(sinceStart, channels, first);
    }

    /// <inheritdoc/>
    public void WriteChannels(in Octet times, Span<double> rows)
    {
        if (Vector512.IsHardwareAccelerated)
        {
            WriteChannels(new EightLanes(Vector512.Create(times.Lower, times.Upper)), rows);
            return;
        }

        WriteChannels(new FourLanes(times.Lower), rows);
        WriteChannels(new FourLanes(times.Upper), rows[FourLanes.Count..]);
    }

    /// <summary>As <see cref="WriteMotions"/>, in vectors of a length; it makes no difference to the values.</summary>
    internal void WriteMotions<T>(ReadOnlySpan<double> sinceStart, double[]?[] channels, int first)
        where T : struct, ILanes<T>
    {
        for (var row = 0; row <= (int)IChannelStep.LastMotion; row += HalfCarState.Rates)
        {
            var (one, two, three, four) = (channels[row], channels[row + 1], channels[row + 2], channels[row + 3]);
            if ((one ?? two ?? three ?? four) is null)
                continue;
            ref var terms = ref Unsafe.Add(ref MemoryMarshal.GetReference(source.Terms), (row * SeriesRow.Terms * _stride) + lane);
            var order = row == SeriesRow.Position ? SeriesRow.Order : SeriesRow.Order - 1;
            WriteRows<T>(ref terms, order, sinceStart, Values(one), Values(two), Values(three), Values(four));
        }

        Span<double> Values(double[]? channel) => channel is null ? _unasked : channel.AsSpan(first);
    }

    /// <summary>Writes every channel at as many instants as there are lanes, a row each as <see cref="IChannelStep.WriteChannels"/> says.</summary>
    internal void WriteChannels<T>(T times, Span<double> rows)
        where T : struct, ILanes<T>
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(rows.Length, ((ChannelTable.Count - 1) * GaussLobatto.Lanes) + T.Count);
        new SeriesChannels<T>(Lane, ref Unsafe.Add(ref MemoryMarshal.GetReference(source.Terms), lane), _stride, rows).Write(times - T.All(Start));
    }

    /// <summary>Writes four rows' polynomials at many instants: together, so that the processor need not wait for any.</summary>
    private void WriteRows<T>(
        ref double terms, int order, ReadOnlySpan<double> sinceStart, Span<double> values0, Span<double> values1, Span<double> values2, Span<double> values3)
        where T : struct, ILanes<T>
    {
        var row = SeriesRow.Terms * _stride;
        ref var t = ref MemoryMarshal.GetReference(sinceStart);
        ref var x0 = ref MemoryMarshal.GetReference(values0[..sinceStart.Length]);
        ref var x1 = ref MemoryMarshal.GetReference(values1[..sinceStart.Length]);
        ref var x2 = ref MemoryMarshal.GetReference(values2[..sinceStart.Length]);
        ref var x3 = ref MemoryMarshal.GetReference(values3[..sinceStart.Length]);
        ref var last = ref Unsafe.Add(ref terms, order * _stride);
        var n = 0;
        for (; n <= sinceStart.Length - (2 * T.Count); n += 2 * T.Count)
        {
            var (ta, tb) = (At<T>(ref t, n), At<T>(ref t, n + T.Count));
            var (sum0a, sum1a, sum2a, sum3a) = (T.All(last), T.All(Unsafe.Add(ref last, row)), T.All(Unsafe.Add(ref last, 2 * row)), T.All(Unsafe.Add(ref last, 3 * row)));
            var (sum0b, sum1b, sum2b, sum3b) = (sum0a, sum1a, sum2a, sum3a);
            for (var k = (order - 1) * _stride; k >= 0; k -= _stride)
            {
                ref var term = ref Unsafe.Add(ref terms, k);
                var (term0, term1, term2, term3) = (T.All(term), T.All(Unsafe.Add(ref term, row)), T.All(Unsafe.Add(ref term, 2 * row)), T.All(Unsafe.Add(ref term, 3 * row)));
                sum0a = T.Fma(sum0a, ta, term0);
                sum0b = T.Fma(sum0b, tb, term0);
                sum1a = T.Fma(sum1a, ta, term1);
                sum1b = T.Fma(sum1b, tb, term1);
                sum2a = T.Fma(sum2a, ta, term2);
                sum2b = T.Fma(sum2b, tb, term2);
                sum3a = T.Fma(sum3a, ta, term3);
                sum3b = T.Fma(sum3b, tb, term3);
            }

            (At<T>(ref x0, n), At<T>(ref x0, n + T.Count)) = (sum0a, sum0b);
            (At<T>(ref x1, n), At<T>(ref x1, n + T.Count)) = (sum1a, sum1b);
            (At<T>(ref x2, n), At<T>(ref x2, n + T.Count)) = (sum2a, sum2b);
            (At<T>(ref x3, n), At<T>(ref x3, n + T.Count)) = (sum3a, sum3b);
        }

        for (; n < sinceStart.Length; n += T.Count)
        {
            var time = At<T>(ref t, n);
            var (sum0, sum1, sum2, sum3) = (T.All(last), T.All(Unsafe.Add(ref last, row)), T.All(Unsafe.Add(ref last, 2 * row)), T.All(Unsafe.Add(ref last, 3 * row)));
            for (var k = (order - 1) * _stride; k >= 0; k -= _stride)
            {
                ref var term = ref Unsafe.Add(ref terms, k);
                sum0 = T.Fma(sum0, time, T.All(term));
                sum1 = T.Fma(sum1, time, T.All(Unsafe.Add(ref term, row)));
                sum2 = T.Fma(sum2, time, T.All(Unsafe.Add(ref term, 2 * row)));
                sum3 = T.Fma(sum3, time, T.All(Unsafe.Add(ref term, 3 * row)));
            }

            (At<T>(ref x0, n), At<T>(ref x1, n), At<T>(ref x2, n), At<T>(ref x3, n)) = (sum0, sum1, sum2, sum3);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static ref T At<T>(ref double values, int index)
        where T : struct, ILanes<T> => ref Unsafe.As<double, T>(ref Unsafe.Add(ref values, index));

    /// <summary>The coefficients of the powers of the fraction of the step, state after state.</summary>
    private double[] WriteCoefficients()
    {
        var length = End - Start;
        for (var row = 0; row < HalfCarState.Count; row++)
        {
            var (factor, order) = (1.0, row < HalfCarState.Rates ? SeriesRow.Order : SeriesRow.Order - 1);
            for (var k = 0; k <= order; k++)
            {
                _coefficients[(row * SeriesRow.Terms) + k] = factor * source.Terms[Index(row, k)];
                factor *= length;
            }
        }

        return _coefficients;
    }

    private int Index(int row, int power) => (((row * SeriesRow.Terms) + power) * _stride) + lane;
}
