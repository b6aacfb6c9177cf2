using System.Numerics;
using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;
using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>
/// Reads a <see cref="RandomRoad"/> as it is driven over, and keeps only the stretch it stands on: memory does not grow with
/// distance. Fastest going forward; not thread-safe, one per run.
/// </summary>
/// <remarks>
/// Blocks of Gaussian road are made by inverse Fourier transform, each from its own random numbers and used once. They overlap
/// by half and are faded into each other with <c>cos</c> and <c>sin</c>, whose squares add up to one: sums of independent
/// blocks keep their power. What is kept are coefficients of a uniform cubic B-spline, made in the frequency domain so that it
/// passes through the road's samples. It is twice continuously differentiable, so that the integrator meets no kink.
/// </remarks>
public sealed class RandomRoadCursor
{
    /// <summary>Samples on the shortest wave; the spline's image of that wave is then 0.4 % of it.</summary>
    private const double SamplesPerShortestWave = 5;

    /// <summary>
    /// Length of a block, at least, in longest waves, or in waves of the width of a narrow band: the fading smears the spectrum by far
    /// less than a third octave, or the band.
    /// </summary>
    private const double LongestWavesPerBlock = 12;

    private readonly RandomRoad _road;
    private readonly double _spacing;
    private readonly double _perSpacing;
    private readonly int _half;
    private readonly double[] _amplitudes;
    private readonly double[] _gammas;
    private readonly double[] _noise;
    private readonly int _firstBin;
    private readonly double[] _fadeIn;
    private readonly double[] _ring;
    private readonly int _mask;
    private Complex[] _previous;
    private Complex[] _block;
    private long _chunk = long.MinValue;

    internal RandomRoadCursor(RandomRoad road)
    {
        _road = road;
        var spectrum = road.Spectrum;
        _spacing = 1 / (SamplesPerShortestWave * spectrum.HighestWavenumber);
        _perSpacing = 1 / _spacing;
        var narrowest = Math.Min(spectrum.LowestWavenumber, spectrum.HighestWavenumber - spectrum.LowestWavenumber);
        var size = (int)BitOperations.RoundUpToPowerOf2((uint)Math.Ceiling(LongestWavesPerBlock / (narrowest * _spacing)));
        _half = size / 2;
        var resolution = 1 / (size * _spacing);
        _firstBin = (int)Math.Round(spectrum.LowestWavenumber / resolution);
        var bins = (int)Math.Round(spectrum.HighestWavenumber / resolution) - _firstBin + 1;
        (_amplitudes, _gammas, _noise) = (new double[bins], new double[bins], new double[4 * bins]);
        for (var i = 0; i < bins; i++)
        {
            var n = (_firstBin + i) * resolution;
            var spline = (2 + Math.Cos(2 * Math.PI * n * _spacing)) / 3;

            // Each bin stands for the elevation around it, the first and last for what of that lies within the band. Half of a
            // one-sided amplitude goes to the positive and half to the negative frequency.
            var meanSquare = spectrum.MeanSquare(n - (0.5 * resolution), n + (0.5 * resolution));
            _amplitudes[i] = 0.5 * Math.Sqrt(meanSquare) * Trig.Sinc(n * road.ContactLength) / spline;
            _gammas[i] = road.Coherence.Gamma(n);
        }

        _fadeIn = [.. Enumerable.Range(0, _half).Select(i => Math.Sin(0.5 * Math.PI * i / _half))];
        (_previous, _block) = (new Complex[size], new Complex[size]);
        _ring = new double[2 * size];
        _mask = size - 1;
    }

    /// <summary>Reads the road.</summary>
    /// <param name="distance">Distance, m.</param>
    /// <returns>Elevations, m, and slopes (m/m) in the places of the rates.</returns>
    public RoadSample At(double distance)
    {
        if (distance <= 0) return default;
        var u = distance * _perSpacing;
        var index = (long)Math.Floor(u);
        Prepare(index);
        var t = u - index;
        var s = 1 - t;
        var (b0, b3) = (s * s * s / 6, t * t * t / 6);
        var (b1, b2) = ((2.0 / 3) - (t * t * (1 - (0.5 * t))), (2.0 / 3) - (s * s * (1 - (0.5 * s))));
        var (d0, d3) = (-0.5 * s * s, 0.5 * t * t);
        var (d1, d2) = (t * ((1.5 * t) - 2), s * (2 - (1.5 * s)));

        int i0 = 2 * (int)(index & _mask), i1 = 2 * (int)((index + 1) & _mask), i2 = 2 * (int)((index + 2) & _mask), i3 = 2 * (int)((index + 3) & _mask);
        var c = _ring;
        var left = (b0 * c[i0]) + (b1 * c[i1]) + (b2 * c[i2]) + (b3 * c[i3]);
        var right = (b0 * c[i0 + 1]) + (b1 * c[i1 + 1]) + (b2 * c[i2 + 1]) + (b3 * c[i3 + 1]);
        var leftSlope = ((d0 * c[i0]) + (d1 * c[i1]) + (d2 * c[i2]) + (d3 * c[i3])) * _perSpacing;
        var rightSlope = ((d0 * c[i0 + 1]) + (d1 * c[i1 + 1]) + (d2 * c[i2 + 1]) + (d3 * c[i3 + 1])) * _perSpacing;
        if (distance >= _road.LeadIn) return new RoadSample(left, right, leftSlope, rightSlope);

        var (sin, cos) = Math.SinCos(Math.PI * distance / _road.LeadIn);
        var (grown, growth) = (0.5 * (1 - cos), 0.5 * Math.PI / _road.LeadIn * sin);
        return new RoadSample(
            grown * left, grown * right, (grown * leftSlope) + (growth * left), (grown * rightSlope) + (growth * right));
    }

    /// <summary>Sees to it that the four coefficients from an index on are there.</summary>
    private void Prepare(long index)
    {
        var chunk = Math.DivRem(index, _half, out var rest);
        if (rest < 0) chunk--;
        if (chunk == _chunk || (chunk == _chunk + 1 && index + 3 < (_chunk + 2) * _half)) return;
        if (chunk == _chunk + 1)
        {
            // A step forward: the next chunk takes the place of the one behind.
            _chunk = chunk;
        }
        else
        {
            _chunk = chunk;
            Synthesise(chunk, _block);
            Fill(chunk);
        }

        Fill(_chunk + 1);
    }

    /// <summary>Fills a chunk with the second half of its own block, held already, and the first half of the next.</summary>
    private void Fill(long chunk)
    {
        (_previous, _block) = (_block, _previous);
        Synthesise(chunk + 1, _block);
        var at = 2 * (int)((chunk * _half) & _mask);
        for (var i = 0; i < _half; i++, at += 2)
        {
            var (rise, fall) = (_fadeIn[i], i == 0 ? 1 : _fadeIn[_half - i]);
            var (old, next) = (_previous[_half + i], _block[i]);
            _ring[at] = (fall * old.Real) + (rise * next.Real);
            _ring[at + 1] = (fall * old.Imaginary) + (rise * next.Imaginary);
        }
    }

    /// <summary>Makes a block: the left track in the real and the right track in the imaginary parts.</summary>
    private void Synthesise(long number, Complex[] block)
    {
        Normal.Samples(new MersenneTwister(SeedOf(_road.Seed, number), false), _noise, 0, 1);
        Array.Clear(block);
        var size = block.Length;
        for (var i = 0; i < _amplitudes.Length; i++)
        {
            var a = _amplitudes[i] * new Complex(_noise[4 * i], _noise[(4 * i) + 1]);
            var other = _amplitudes[i] * new Complex(_noise[(4 * i) + 2], _noise[(4 * i) + 3]);
            var b = (_gammas[i] * a) + (Math.Sqrt(1 - (_gammas[i] * _gammas[i])) * other);
            var bin = _firstBin + i;
            block[bin] = a + (Complex.ImaginaryOne * b);
            block[size - bin] = Complex.Conjugate(a) + (Complex.ImaginaryOne * Complex.Conjugate(b));
        }

        FourierTransform.Inverse(block);
    }

    /// <summary>Neighbouring seeds and neighbouring blocks must not share random numbers.</summary>
    private static int SeedOf(int seed, long block) => (int)SplitMix64.At(SplitMix64.Stream(seed, 0), (ulong)block);
}
