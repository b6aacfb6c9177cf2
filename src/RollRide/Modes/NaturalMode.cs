using System.Numerics;

namespace RollRide.Modes;

/// <summary>A pair of eigenvalues of a motion about rest.</summary>
public abstract record NaturalMode
{
    /// <summary>The eigenvalue with the positive imaginary part, or the slower of two real ones, 1/s.</summary>
    public required Complex Eigenvalue { get; init; }

    /// <summary>The other eigenvalue of the pair, 1/s.</summary>
    public required Complex Partner { get; init; }

    /// <summary>Whether the motion creeps back without swinging: both eigenvalues are real.</summary>
    public bool IsOverdamped => Eigenvalue.Imaginary == 0;

    /// <summary>Undamped natural frequency <c>|λ|/2π</c>, Hz; of an overdamped mode <c>√(λ₁λ₂)/2π</c>.</summary>
    public double NaturalFrequency => Math.Sqrt((Eigenvalue * Partner).Magnitude) / (2 * Math.PI);

    /// <summary>Damped frequency <c>Im λ/2π</c>, Hz; 0 when overdamped.</summary>
    public double DampedFrequency => Eigenvalue.Imaginary / (2 * Math.PI);

    /// <summary>Damping ratio <c>ζ = −Re λ/|λ|</c>; an overdamped mode counts as 1.</summary>
    public double DampingRatio => IsOverdamped ? 1 : -Eigenvalue.Real / Eigenvalue.Magnitude;

    /// <summary>
    /// Decay per cycle: the part of the amplitude gone after one damped cycle, <c>1 − exp(−2πζ/√(1−ζ²))</c>, 0 to 1.
    /// </summary>
    public double DecayPerCycle => IsOverdamped ? 1 : 1 - Math.Exp(2 * Math.PI * Eigenvalue.Real / Eigenvalue.Imaginary);
}
