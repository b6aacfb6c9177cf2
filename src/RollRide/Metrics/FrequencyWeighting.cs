using System.Numerics;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>
/// A frequency weighting of ISO 2631-1:1997, Annex A: band limits, acceleration–velocity transition and upward step, each a
/// second-order section.
/// </summary>
/// <remarks>Parameters after ISO 8041 as printed in a vibration meter's manual; the formula from memory of Annex A.</remarks>
public sealed class FrequencyWeighting
{
    private readonly Section[] _sections;

    private FrequencyWeighting(params Section[] sections) => _sections = sections;

    /// <summary>The weighting Wk for vertical acceleration of a seated person.</summary>
    public static FrequencyWeighting Wk { get; } = new(
        Section.HighPass(0.4, 1 / Math.Sqrt(2)),
        Section.LowPass(100, 1 / Math.Sqrt(2)),
        Section.Transition(12.5, 12.5, 0.63),
        Section.UpwardStep(2.37, 0.91, 3.35, 0.91));

    /// <summary>The weighting Wd for horizontal acceleration of a seated person.</summary>
    public static FrequencyWeighting Wd { get; } = new(
        Section.HighPass(0.4, 1 / Math.Sqrt(2)),
        Section.LowPass(100, 1 / Math.Sqrt(2)),
        Section.Transition(2, 2, 0.63));

    /// <summary>The weighting We for rotational acceleration of a seated person.</summary>
    public static FrequencyWeighting We { get; } = new(
        Section.HighPass(0.4, 1 / Math.Sqrt(2)),
        Section.LowPass(100, 1 / Math.Sqrt(2)),
        Section.Transition(1, 1, 0.63));

    /// <summary>The weighting Wf for motion sickness from vertical acceleration.</summary>
    public static FrequencyWeighting Wf { get; } = new(
        Section.HighPass(0.08, 1 / Math.Sqrt(2)),
        Section.LowPass(0.63, 1 / Math.Sqrt(2)),
        Section.Transition(double.PositiveInfinity, 0.25, 0.86),
        Section.UpwardStep(0.0625, 0.80, 0.1, 0.80));

    /// <summary>The weighting's factor at a frequency.</summary>
    /// <param name="frequency">Frequency, Hz; greater than 0.</param>
    public double Factor(double frequency) => _sections.Aggregate(
        1.0,
        (factor, section) => factor * section.Response(new Complex(0, 2 * Math.PI * frequency)).Magnitude);

    /// <summary>The sections as filters in time.</summary>
    /// <param name="rate">Sampling rate, Hz; at least 640 for the tolerance of the standard up to 125 Hz.</param>
    internal Biquad[] Discretise(double rate) => _sections.Map(section => section.Discretise(rate));

    /// <summary>
    /// A section <c>(b0 + b1 s + b2 s²)/(a0 + a1 s + a2 s²)</c>, and the frequency at which its time form is made exact.
    /// </summary>
    private sealed record Section(double B0, double B1, double B2, double A0, double A1, double A2, double Corner)
    {
        public static Section HighPass(double f, double q)
        {
            var w = 2 * Math.PI * f;
            return new Section(0, 0, 1, w * w, w / q, 1, f);
        }

        public static Section LowPass(double f, double q)
        {
            var w = 2 * Math.PI * f;
            return new Section(1, 0, 0, 1, 1 / (q * w), 1 / (w * w), f);
        }

        public static Section Transition(double f3, double f4, double q4)
        {
            var (w3, w4) = (2 * Math.PI * f3, 2 * Math.PI * f4);
            return new Section(1, 1 / w3, 0, 1, 1 / (q4 * w4), 1 / (w4 * w4), f4);
        }

        public static Section UpwardStep(double f5, double q5, double f6, double q6)
        {
            var (w5, w6) = (2 * Math.PI * f5, 2 * Math.PI * f6);
            var gain = w5 / w6 * (w5 / w6);
            return new Section(gain, gain / (q5 * w5), gain / (w5 * w5), 1, 1 / (q6 * w6), 1 / (w6 * w6), f6);
        }

        public Complex Response(Complex s) => (B0 + (s * (B1 + (s * B2)))) / (A0 + (s * (A1 + (s * A2))));

        /// <summary>Bilinear transform, <c>s = k (1 − z⁻¹)/(1 + z⁻¹)</c>, with k chosen so that the corner stays in place.</summary>
        public Biquad Discretise(double rate)
        {
            var k = 2 * Math.PI * Corner / Math.Tan(Math.PI * Corner / rate);
            var a0 = A0 + (A1 * k) + (A2 * k * k);
            return new Biquad(
                (B0 + (B1 * k) + (B2 * k * k)) / a0,
                2 * (B0 - (B2 * k * k)) / a0,
                (B0 - (B1 * k) + (B2 * k * k)) / a0,
                2 * (A0 - (A2 * k * k)) / a0,
                (A0 - (A1 * k) + (A2 * k * k)) / a0);
        }
    }

    /// <summary>Coefficients of a discrete second-order section.</summary>
    internal readonly record struct Biquad(double B0, double B1, double B2, double A1, double A2);
}
