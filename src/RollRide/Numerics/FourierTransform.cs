using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using MathNet.Numerics.IntegralTransforms;

namespace RollRide.Numerics;

/// <summary>
/// The discrete Fourier transform <c>Z(k) = Σ z(j) e^(−2πijk/n)</c> of one length, with its roots of unity computed once. It stays on the
/// thread that calls it: runs side by side are what keeps the cores busy. Not thread-safe.
/// </summary>
/// <remarks>
/// For powers of two the self-sorting radix-2 form of T. G. Stockham, High-speed convolution and correlation, 1966 (from memory), which
/// reads and writes in order at every stage; other lengths are left to MathNet.
/// </remarks>
internal sealed class FourierTransform
{
    private readonly int _length;
    private readonly double[] _cos = [];
    private readonly double[] _minusSin = [];
    private double[] _real = [];
    private double[] _imaginary = [];
    private double[] _otherReal = [];
    private double[] _otherImaginary = [];

    /// <summary>Prepares transforms of a length.</summary>
    /// <param name="length">Number of values; 1 or more.</param>
    public FourierTransform(int length)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(length, 1);
        _length = length;
        if (!BitOperations.IsPow2(length))
            return;
        (_cos, _minusSin) = (new double[length / 2], new double[length / 2]);
        for (var k = 0; k < length / 2; k++)
            (_minusSin[k], _cos[k]) = Math.SinCos(-2 * Math.PI * k / length);
        (_real, _imaginary, _otherReal, _otherImaginary) = (new double[length], new double[length], new double[length], new double[length]);
    }

    /// <summary>Transforms values in place.</summary>
    /// <param name="values">The values; as many as the length.</param>
    public void Forward(Complex[] values)
    {
        if (values.Length != _length)
            throw new ArgumentException(FormattableString.Invariant($"{values.Length} values are given; the transform is for {_length}."), nameof(values));
        if (_real.Length == 0)
        {
            Fourier.Forward(values, FourierOptions.NoScaling);
            return;
        }

        for (var i = 0; i < values.Length; i++)
            (_real[i], _imaginary[i]) = (values[i].Real, values[i].Imaginary);
        for (var run = 1; run < _length; run *= 2)
        {
            Stage(run);
            (_real, _otherReal) = (_otherReal, _real);
            (_imaginary, _otherImaginary) = (_otherImaginary, _imaginary);
        }

        for (var i = 0; i < values.Length; i++)
            values[i] = new Complex(_real[i], _imaginary[i]);
    }

    /// <summary>Halves the length of the transforms still to be made and doubles the length of the runs that belong together.</summary>
    private void Stage(int run)
    {
        var half = _length / 2;
        for (var from = 0; from < half; from += run)
        {
            // The root of this run: e^(−2πi·from/n), as every run before it used up `run` of the roots.
            var (cos, minusSin) = (_cos[from], _minusSin[from]);
            if (run < Vector512<double>.Count)
            {
                for (var i = from; i < from + run; i++)
                {
                    var (real, imaginary) = (_real[i] - _real[i + half], _imaginary[i] - _imaginary[i + half]);
                    _otherReal[i + from] = _real[i] + _real[i + half];
                    _otherImaginary[i + from] = _imaginary[i] + _imaginary[i + half];
                    _otherReal[i + from + run] = (real * cos) - (imaginary * minusSin);
                    _otherImaginary[i + from + run] = (real * minusSin) + (imaginary * cos);
                }

                continue;
            }

            var nearReal = Vectors(_real, from, run);
            var nearImaginary = Vectors(_imaginary, from, run);
            var farReal = Vectors(_real, from + half, run);
            var farImaginary = Vectors(_imaginary, from + half, run);
            var sumReal = Vectors(_otherReal, 2 * from, run);
            var sumImaginary = Vectors(_otherImaginary, 2 * from, run);
            var turnedReal = Vectors(_otherReal, (2 * from) + run, run);
            var turnedImaginary = Vectors(_otherImaginary, (2 * from) + run, run);
            for (var i = 0; i < nearReal.Length; i++)
            {
                var (real, imaginary) = (nearReal[i] - farReal[i], nearImaginary[i] - farImaginary[i]);
                sumReal[i] = nearReal[i] + farReal[i];
                sumImaginary[i] = nearImaginary[i] + farImaginary[i];
                turnedReal[i] = (real * cos) - (imaginary * minusSin);
                turnedImaginary[i] = (real * minusSin) + (imaginary * cos);
            }
        }
    }

    private static Span<Vector512<double>> Vectors(double[] values, int from, int count) =>
        MemoryMarshal.Cast<double, Vector512<double>>(values.AsSpan(from, count));
}
