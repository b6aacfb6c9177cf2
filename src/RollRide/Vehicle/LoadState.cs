using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>What the body weighs in one state of load: what the state sets of the body itself, and what is added to it or taken out.</summary>
public sealed record LoadState
{
    /// <summary>The body as written.</summary>
    public static LoadState Design { get; } = new() { Name = "as written" };

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Mass of the body without the masses added, kg; null for that of the design.</summary>
    public double? BodyMass { get; init => field = value is { } mass ? Require.Positive(mass, "kg", nameof(BodyMass)) : null; }

    /// <summary>Height of its centre of gravity above the road with the body at its design height, m; null for that of the design.</summary>
    public double? CgHeight { get; init => field = value is { } height ? Require.Positive(height, "m", nameof(CgHeight)) : null; }

    /// <summary>Its roll inertia about that centre, kg·m²; null for that of the design.</summary>
    public double? RollInertia { get; init => field = value is { } inertia ? Require.Positive(inertia, "kg·m²", nameof(RollInertia)) : null; }

    /// <summary>Lateral position of its centre of gravity, m, positive to the left; null for that of the design.</summary>
    public double? CgOffset { get; init => field = value is { } offset ? Require.Finite(offset, "m", nameof(CgOffset)) : null; }

    /// <summary>The state of the other axle of a vehicle with two; null for that of the design.</summary>
    public LoadState? OtherAxle { get; init; }

    /// <summary>Pitch inertia of the whole body about its centre of gravity in this state, kg·m²; null for that of the design.</summary>
    public double? PitchInertia { get; init => field = value is { } inertia ? Require.Positive(inertia, "kg·m²", nameof(PitchInertia)) : null; }

    /// <summary>The state in which the dampers are, by name, such as hot or worn; null for the dampers as written.</summary>
    public string? DamperState { get; init; }

    /// <summary>What the vehicle weighs alone: equal for states that differ in the dampers' state only.</summary>
    public LoadState Weights => this with { Name = "", DamperState = null };

    /// <summary>The masses added or taken out.</summary>
    public ImmutableArray<LoadedMass> Masses { get; init; } = [];

    /// <summary>The body in this state, as one rigid body at its design height.</summary>
    /// <remarks>
    /// <c>m = m0 + Σ mi</c>, <c>hc = (m0 h0 + Σ mi zi)/m</c>, <c>yG = (m0 y0 + Σ mi yi)/m</c>,
    /// <c>I = I0 + m0 [(h0 − hc)² + (y0 − yG)²] + Σ {Ii + mi [(zi − hc)² + (yi − yG)²]}</c>: centre of mass and parallel axes.
    /// </remarks>
    /// <param name="design">The body at the design load.</param>
    /// <exception cref="ArgumentException">
    /// Mass, height of the centre of gravity or roll inertia is not above 0, or a mass and its own inertia have different signs; the message names
    /// the state and the values.
    /// </exception>
    public SprungBody Of(SprungBody design)
    {
        ArgumentNullException.ThrowIfNull(design);
        var body = design with { Mass = BodyMass ?? design.Mass, CgHeight = CgHeight ?? design.CgHeight, RollInertia = RollInertia ?? design.RollInertia, CgOffset = CgOffset ?? design.CgOffset };
        if (Masses.IsDefaultOrEmpty)
            return body;
        if (Masses.FirstOrDefault(part => part.Mass * part.RollInertia < 0) is { } odd)
        {
            throw new ArgumentException(FormattableString.Invariant(
                $"In load state “{Name}” a mass of {odd.Mass:G4} kg has a roll inertia of {odd.RollInertia:G4} kg·m²: what is taken out takes its inertia with it, so both are negative or both positive."));
        }

        var mass = Above0(body.Mass + Masses.Sum(part => part.Mass), "mass", "kg");
        var height = Above0(((body.Mass * body.CgHeight) + Masses.Sum(part => part.Mass * part.Height)) / mass, "height of its centre of gravity", "m");
        var offset = ((body.Mass * body.CgOffset) + Masses.Sum(part => part.Mass * part.Offset)) / mass;
        double Transferred(double own, double partMass, double partHeight, double partOffset) =>
            own + (partMass * (partHeight - height) * (partHeight - height)) + (partMass * (partOffset - offset) * (partOffset - offset));
        var inertia = Above0(
            Transferred(body.RollInertia, body.Mass, body.CgHeight, body.CgOffset) + Masses.Sum(part => Transferred(part.RollInertia, part.Mass, part.Height, part.Offset)),
            "roll inertia",
            "kg·m²");
        return new SprungBody { Mass = mass, CgHeight = height, RollInertia = inertia, CgOffset = offset };
    }

    private double Above0(double value, string quantity, string unit) => value > 0
        ? value
        : throw new ArgumentException(FormattableString.Invariant($"the body under load state “{Name}” has a {quantity} of {value:G4} {unit}; it must be greater than 0."));
}
