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
    public void WriteMotions(ReadOnlySpan<Channel> motions, ReadOnlySpan<double> sinceStart, double[]?[] channels, int first)
    {
        ref var terms = ref Unsafe.Add(ref MemoryMarshal.GetReference(source.Terms), lane);
        foreach (var motion in motions)
        {
            var row = (int)motion;
            ArgumentOutOfRangeException.ThrowIfGreaterThan(row, (int)IChannelStep.LastMotion);
            var order = row < HalfCarState.Rates ? SeriesRow.Order : SeriesRow.Order - 1;
            var values = channels[row].AsSpan(first, sinceStart.Length);
            if (Vector512.IsHardwareAccelerated)
                WriteRow<EightLanes>(ref Unsafe.Add(ref terms, row * SeriesRow.Terms * _stride), order, sinceStart, values);
            else
                WriteRow<FourLanes>(ref Unsafe.Add(ref terms, row * SeriesRow.Terms * _stride), order, sinceStart, values);
        }
    }

    /// <inheritdoc/>
    public void WriteChannels(Vector512<double> times, Span<double> rows)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(rows.Length, ChannelTable.Count * GaussLobatto.Lanes);
        if (Vector512.IsHardwareAccelerated)
        {
            WriteChannels(new EightLanes(times), rows);
            return;
        }

        WriteChannels(new FourLanes(times.GetLower()), rows);
        WriteChannels(new FourLanes(times.GetUpper()), rows[FourLanes.Count..]);
    }

    private void WriteChannels<T>(T times, Span<double> rows)
        where T : struct, ILanes<T> => new SeriesChannels<T>(Lane, ref Unsafe.Add(ref MemoryMarshal.GetReference(source.Terms), lane), _stride, rows).Write(times - T.All(Start));

    /// <summary>Writes a row's polynomial at many instants: four vectors of them at a time, so that the processor need not wait for any.</summary>
    private void WriteRow<T>(ref double terms, int order, ReadOnlySpan<double> sinceStart, Span<double> values)
        where T : struct, ILanes<T>
    {
        ref var times = ref MemoryMarshal.GetReference(sinceStart);
        ref var sums = ref MemoryMarshal.GetReference(values);
        var n = 0;
        for (; n <= sinceStart.Length - (4 * T.Count); n += 4 * T.Count)
        {
            var (t0, t1, t2, t3) = (At<T>(ref times, n), At<T>(ref times, n + T.Count), At<T>(ref times, n + (2 * T.Count)), At<T>(ref times, n + (3 * T.Count)));
            var first = T.All(Unsafe.Add(ref terms, order * _stride));
            var (sum0, sum1, sum2, sum3) = (first, first, first, first);
            for (var k = (order - 1) * _stride; k >= 0; k -= _stride)
            {
                var term = T.All(Unsafe.Add(ref terms, k));
                (sum0, sum1, sum2, sum3) = (T.Fma(sum0, t0, term), T.Fma(sum1, t1, term), T.Fma(sum2, t2, term), T.Fma(sum3, t3, term));
            }

            At<T>(ref sums, n) = sum0;
            At<T>(ref sums, n + T.Count) = sum1;
            At<T>(ref sums, n + (2 * T.Count)) = sum2;
            At<T>(ref sums, n + (3 * T.Count)) = sum3;
        }

        for (; n < sinceStart.Length; n += T.Count)
        {
            var (t, sum) = (At<T>(ref times, n), T.All(Unsafe.Add(ref terms, order * _stride)));
            for (var k = (order - 1) * _stride; k >= 0; k -= _stride)
                sum = T.Fma(sum, t, T.All(Unsafe.Add(ref terms, k)));
            At<T>(ref sums, n) = sum;
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
