using System.Numerics;
using MathNet.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace RollRide.Numerics;

/// <summary>
/// Gathers a <see cref="SpectralDensity"/> sample by sample; its memory does not grow. Not thread-safe; one per signal.
/// </summary>
public sealed class SpectralAccumulator
{
    private const int ShortestSegment = 8;

    private readonly double _rate;
    private readonly double[] _window;
    private readonly double _power;
    private readonly double[] _first;
    private readonly double[]? _second;
    private readonly double[] _x;
    private readonly double[] _y;
    private readonly double[] _xx;
    private readonly double[] _yy;
    private readonly Complex[] _xy;
    private int _filled;
    private int _segments;

    /// <summary>Prepares the gathering.</summary>
    /// <param name="rate">Sampling rate (Hz or 1/m), above 0.</param>
    /// <param name="segmentLength">Samples in a segment; even, 8 or more.</param>
    /// <param name="withSecond">Whether there is a second signal.</param>
    public SpectralAccumulator(double rate, int segmentLength, bool withSecond = false)
    {
        _rate = Require.Positive(rate, "Hz or 1/m");
        if (segmentLength < ShortestSegment || segmentLength % 2 != 0)
        {
            throw new ArgumentOutOfRangeException(nameof(segmentLength), segmentLength, FormattableString.Invariant(
                $"A segment must have an even number of samples, {ShortestSegment} or more."));
        }

        _window = Window.HannPeriodic(segmentLength);
        _power = _window.Sum(w => w * w);
        _first = new double[segmentLength];
        _second = withSecond ? new double[segmentLength] : null;
        (_x, _y) = (new double[segmentLength + 2], new double[segmentLength + 2]);
        var bins = (segmentLength / 2) + 1;
        (_xx, _yy, _xy) = (new double[bins], new double[bins], new Complex[bins]);
    }

    /// <summary>Adds a sample.</summary>
    /// <param name="first">Of the first signal.</param>
    /// <param name="second">Of the second; ignored if there is none.</param>
    public void Add(double first, double second = 0)
    {
        _first[_filled] = first;
        if (_second is not null) _second[_filled] = second;
        if (++_filled == _first.Length) TakeSegment();
    }

    /// <summary>The density so far; null before the first whole segment.</summary>
    public SpectralDensity? ToDensity()
    {
        if (_segments == 0) return null;
        var bins = _xx.Length;

        // One-sided: twice the power, but at 0 and at half the rate, which have no mirror image.
        double Scale(int bin) => (bin == 0 || bin == bins - 1 ? 1 : 2) / (_rate * _power * _segments);
        double[] Scaled(double[] sums) => [.. sums.Select((sum, bin) => sum * Scale(bin))];
        return new SpectralDensity(
            _rate / _first.Length,
            _segments,
            Scaled(_xx),
            _second is null ? null : Scaled(_yy),
            _second is null ? null : [.. _xy.Select((sum, bin) => sum * Scale(bin))]);
    }

    private void TakeSegment()
    {
        Transform(_first, _x);
        if (_second is not null) Transform(_second, _y);
        for (var i = 0; i < _xx.Length; i++)
        {
            var x = new Complex(_x[2 * i], _x[(2 * i) + 1]);
            _xx[i] += (x.Real * x.Real) + (x.Imaginary * x.Imaginary);
            if (_second is null) continue;
            var y = new Complex(_y[2 * i], _y[(2 * i) + 1]);
            _yy[i] += (y.Real * y.Real) + (y.Imaginary * y.Imaginary);
            _xy[i] += Complex.Conjugate(x) * y;
        }

        _segments++;
        _filled = _first.Length / 2;
        Array.Copy(_first, _filled, _first, 0, _filled);
        if (_second is not null) Array.Copy(_second, _filled, _second, 0, _filled);
    }

    private void Transform(double[] segment, double[] transform)
    {
        double mean = 0;
        foreach (var value in segment) mean += value;
        mean /= segment.Length;
        for (var i = 0; i < segment.Length; i++) transform[i] = (segment[i] - mean) * _window[i];
        Fourier.ForwardReal(transform, segment.Length, FourierOptions.NoScaling);
    }
}
