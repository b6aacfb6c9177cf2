using MathNet.Numerics.Integration;
using RollRide.Numerics;

namespace RollRide.Damping;

/// <content>What the curve amounts to over a sinusoidal damper velocity <c>v = V cos θ</c>.</content>
public sealed partial class ForceVelocityCurve
{
    // On a cubic piece the integrands are polynomials of cos θ of degree four at most: 20 points leave rounding only.
    private const int GaussPoints = 20;

    /// <summary>
    /// The equivalent viscous coefficient for a sinusoid of velocity amplitude <c>V</c>, N·s/m: the linear damper that
    /// dissipates the same energy a cycle,
    /// <c>ceq(V) = (1/πV) ∫₀^{2π} F(V cos θ) cos θ dθ</c> (J. P. Den Hartog, <i>Mechanical Vibrations</i>, ch. 8).
    /// </summary>
    /// <remarks>
    /// For one direction the half cycle of that direction is mirrored into the other; the coefficient of
    /// <see cref="DampingDirection.Both"/> is the mean of the two. At <c>V = 0</c> it is the slope at rest: of that
    /// direction's side, or the mean of both sides.
    /// </remarks>
    /// <param name="velocityAmplitude">Velocity amplitude <c>V</c> of the damper, m/s, at least 0.</param>
    /// <param name="direction">The direction of travel that is looked at.</param>
    public double EquivalentCoefficient(double velocityAmplitude, DampingDirection direction = DampingDirection.Both)
    {
        double amplitude = Require.NotNegative(velocityAmplitude, "m/s");
        if (amplitude == 0)
        {
            var (rebound, compression) = SlopesAround(0);
            return direction switch
            {
                DampingDirection.Both => (compression + rebound) / 2,
                DampingDirection.Compression => compression,
                DampingDirection.Rebound => rebound,
                _ => throw UnknownDirection(direction),
            };
        }

        return direction switch
        {
            DampingDirection.Both => 2 / (Math.PI * amplitude) * Integrals(amplitude, -amplitude, amplitude).InPhase,
            DampingDirection.Compression => 4 / (Math.PI * amplitude) * Integrals(amplitude, 0, amplitude).InPhase,
            DampingDirection.Rebound => 4 / (Math.PI * amplitude) * Integrals(amplitude, -amplitude, 0).InPhase,
            _ => throw UnknownDirection(direction),
        };
    }

    /// <summary>
    /// The mean force over a sinusoid of velocity amplitude <c>V</c>, N: <c>(1/2π) ∫₀^{2π} F(V cos θ) dθ</c>, the
    /// jacking force by which unequal compression and rebound shift the ride height. Positive extends the damper.
    /// </summary>
    /// <param name="velocityAmplitude">Velocity amplitude <c>V</c> of the damper, m/s, at least 0.</param>
    public double MeanForce(double velocityAmplitude)
    {
        double amplitude = Require.NotNegative(velocityAmplitude, "m/s");
        return amplitude == 0 ? Force(0) : Integrals(amplitude, -amplitude, amplitude).Mean / Math.PI;
    }

    private static ArgumentOutOfRangeException UnknownDirection(DampingDirection direction) =>
        new(nameof(direction), direction, "The direction must be both, compression or rebound.");

    /// <summary>
    /// <c>∫ F(V cos θ) cos θ dθ</c> and <c>∫ F(V cos θ) dθ</c> over the part of half a cycle, <c>0 ≤ θ ≤ π</c>, in which
    /// the velocity lies between two values; segment by segment, so that no corner lies inside an integral.
    /// </summary>
    private (double InPhase, double Mean) Integrals(double amplitude, double from, double to)
    {
        double inPhase = 0, mean = 0;
        for (int k = 0; k < _segments.Length; k++)
        {
            double low = k == 0 ? from : Math.Max(from, _breaks[k - 1]);
            double high = k == _segments.Length - 1 ? to : Math.Min(to, _breaks[k]);
            if (low >= high)
                continue;

            var part = _segments[k].IsLinear
                ? LinearIntegrals(_segments[k], amplitude, low, high)
                : CubicIntegrals(_segments[k], amplitude, low, high);
            inPhase += part.InPhase;
            mean += part.Mean;
        }

        return (inPhase, mean);
    }

    /// <summary>The integrals of <c>F = b + m v</c>, in closed form.</summary>
    private static (double InPhase, double Mean) LinearIntegrals(CurveSegment segment, double amplitude, double low, double high)
    {
        double m = segment.C1;
        double b = segment.Force(0);
        double cosLow = low / amplitude, cosHigh = high / amplitude;
        double sinLow = Math.Sqrt((1 - cosLow) * (1 + cosLow)), sinHigh = Math.Sqrt((1 - cosHigh) * (1 + cosHigh));

        // Velocity falls as θ grows, so the high end comes first.
        double angle = Math.Acos(cosLow) - Math.Acos(cosHigh);
        double cosine = sinLow - sinHigh;
        double cosineSquared = (angle + sinLow * cosLow - sinHigh * cosHigh) / 2;
        return (b * cosine + m * amplitude * cosineSquared, b * angle + m * amplitude * cosine);
    }

    private static (double InPhase, double Mean) CubicIntegrals(CurveSegment segment, double amplitude, double low, double high)
    {
        double start = Math.Acos(high / amplitude), end = Math.Acos(low / amplitude);
        return (
            GaussLegendreRule.Integrate(θ => segment.Force(amplitude * Math.Cos(θ)) * Math.Cos(θ), start, end, GaussPoints),
            GaussLegendreRule.Integrate(θ => segment.Force(amplitude * Math.Cos(θ)), start, end, GaussPoints));
    }
}
