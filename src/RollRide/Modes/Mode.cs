using System.Collections.Immutable;
using System.Numerics;

namespace RollRide.Modes;

/// <summary>One natural mode of the half-car: a pair of eigenvalues and its mode shape.</summary>
public sealed record Mode : NaturalMode
{
    /// <summary>Its name.</summary>
    public required ModeName Name { get; init; }

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
}
