using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <summary>
/// A signal over time within one segment, as a straight line plus sinusoids: its Taylor series is known in closed form at every
/// instant. Immutable.
/// </summary>
internal sealed class SeriesInput
{
    private readonly double _reference;
    private readonly double _level;
    private readonly double _slope;
    private readonly Sinusoid[] _sinusoids;

    private SeriesInput(double reference, double level, double slope, Sinusoid[] sinusoids)
    {
        (_reference, _level, _slope, _sinusoids) = (reference, level, slope, sinusoids);
    }

    /// <summary>Whether all terms of the series beyond the first two vanish.</summary>
    public bool IsStraight => _sinusoids.Length == 0;

    /// <summary>Number of terms of a row that may differ from zero.</summary>
    public int TermCount => IsStraight ? 2 : SeriesRow.Terms;

    /// <summary>Whether it stays as it is.</summary>
    public bool IsConstant => IsStraight && _slope == 0;

    /// <summary>The signal in a segment; null if it holds a shape without such a series.</summary>
    /// <param name="signal">The signal over time, or over distance.</param>
    /// <param name="speed">Speed at which its variable runs: 1 for time, m/s for distance.</param>
    /// <param name="midpoint">A time strictly inside the segment, s.</param>
    public static SeriesInput? TryCreate(PiecewiseSignal signal, double speed, double midpoint)
    {
        var (reference, level, slope) = (midpoint, 0.0, 0.0);
        var sinusoids = new List<Sinusoid>();
        foreach (var piece in signal.Pieces)
        {
            if (!(piece.Start < speed * midpoint && speed * midpoint < piece.End))
                continue;
            var start = piece.Start / speed;
            switch (piece.Shape)
            {
                case ConstantShape constant:
                    level += constant.Level;
                    break;
                case LinearShape line:
                    // Counted from the start of the line, where its value is exact.
                    level += line.InitialValue + (slope * (start - reference));
                    slope += speed * line.Slope;
                    reference = start;
                    break;
                case HaversineShape bump:
                    level += 0.5 * bump.Height;
                    sinusoids.Add(new Sinusoid(-0.5 * bump.Height, 2 * Math.PI * speed / bump.Length, start, Math.PI / 2));
                    break;
                case SineShape sine:
                    sinusoids.Add(new Sinusoid(sine.Amplitude, 2 * Math.PI * speed / sine.Period, start, sine.Phase));
                    break;
                default:
                    return null;
            }
        }

        return new SeriesInput(reference, level, slope, [.. sinusoids]);
    }

    /// <summary>Writes the coefficients of the powers of <c>t − time</c>.</summary>
    /// <param name="time">Where to expand, s.</param>
    /// <param name="terms">Receives them, the constant first: at least two, at most one more than a row has.</param>
    public void Expand(double time, Span<double> terms)
    {
        terms[2..].Clear();
        terms[0] = _level + (_slope * (time - _reference));
        terms[1] = _slope;
        foreach (var sinusoid in _sinusoids)
            sinusoid.AddTo(time, terms);
    }

    /// <summary><c>A sin(ω(t − t₀) + φ)</c>.</summary>
    private sealed class Sinusoid
    {
        private readonly double _frequency;
        private readonly double _start;
        private readonly double _phase;

        // A ωᵏ/k!, each from the one before.
        private readonly double[] _factors = new double[SeriesRow.Terms + 1];

        public Sinusoid(double amplitude, double frequency, double start, double phase)
        {
            (_frequency, _start, _phase) = (frequency, start, phase);
            var factor = amplitude;
            for (var k = 0; k < _factors.Length; k++)
            {
                _factors[k] = factor;
                factor *= frequency / (k + 1);
            }
        }

        public void AddTo(double time, Span<double> terms)
        {
            var (sin, cos) = Math.SinCos((_frequency * (time - _start)) + _phase);
            for (var k = 0; k < terms.Length; k++)
            {
                // Each derivative leads the one before by a quarter turn.
                terms[k] += _factors[k] * sin;
                (sin, cos) = (cos, -sin);
            }
        }
    }
}
