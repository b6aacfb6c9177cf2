using System.Numerics;
using MathNet.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace RollRide.Numerics;

/// <summary>Discrete Fourier transforms in place and without scaling, on the calling thread alone.</summary>
/// <remarks>
/// Runs are spread over the processors already, and a transform here takes a fraction of a millisecond: waking other threads for it costs more
/// than they give, a fifth of the processor time of a long random road.
/// </remarks>
internal static class FourierTransform
{
    static FourierTransform() => Control.UseSingleThread();

    /// <summary>From samples to amplitudes: x̂ₖ = Σ xₙ e^(−2πi·kn/N).</summary>
    /// <param name="samples">The samples, replaced by their amplitudes.</param>
    public static void Forward(Complex[] samples) => Fourier.Forward(samples, FourierOptions.NoScaling);

    /// <summary>From amplitudes to samples: xₙ = Σ x̂ₖ e^(+2πi·kn/N).</summary>
    /// <param name="amplitudes">The amplitudes, replaced by their samples.</param>
    public static void Inverse(Complex[] amplitudes) => Fourier.Inverse(amplitudes, FourierOptions.NoScaling);
}
