using System.Collections.Immutable;
using System.Numerics;

namespace RollRide.Modes;

/// <summary>One natural mode: a pair of eigenvalues and its mode shape.</summary>
public sealed record Mode
{
    /// <summary>Its name.</summary>
    public required ModeName Name { get; init; }

    /// <summary>The eigenvalue with the positive imaginary part, or the slower of two real ones, 1/s.</summary>
    public required Complex Eigenvalue { get; init; }

    /// <summary>The other eigenvalue of the pair, 1/s.</summary>
    public required Complex Partner { get; init; }

    /// <summary>
    /// The motion <c>(zs, φs, zu, φu)</c> as complex amplitudes, m and rad, scaled so that the largest is 1.
    /// </summary>
    public required ImmutableArray<Complex> Shape { get; init; }

    /// <summary>
    /// The share of each of <c>zs, φs, zu, φu</c> in the mode's kinetic energy; the four add up to 1. Where the body's centre of gravity stands beside
    /// its roll centre, the first is that centre's own heave, the second the roll about it.
    /// </summary>
    public required ImmutableArray<double> Participation { get; init; }

    /// <summary>Share of heave, of body and axle, in the mode's kinetic energy.</summary>
    public double HeaveShare => Participation[Dynamics.HalfCarState.BodyHeave] + Participation[Dynamics.HalfCarState.UnsprungHeave];

    /// <summary>Share of roll, of body and axle, in the mode's kinetic energy.</summary>
    public double RollShare => Participation[Dynamics.HalfCarState.BodyRoll] + Participation[Dynamics.HalfCarState.UnsprungRoll];

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
