using System.Collections.Immutable;
using MathNet.Numerics.Integration;
using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>
/// A damper: its force–velocity curve, and what its seals, its gas and its top mount add. Immutable and thread-safe.
/// </summary>
/// <param name="Name">What the damper is called in tables and figures; not blank.</param>
/// <param name="Curve">The force of its valves against velocity.</param>
public sealed record Damper(string Name, ForceVelocityCurve Curve) : IForceLaw
{
    /// <summary>The default of <see cref="FrictionVelocity"/>, m/s.</summary>
    public const double DefaultFrictionVelocity = 0.01;

    /// <summary>What the damper is called in tables and figures.</summary>
    public string Name { get; init => field = CheckedName(value); } = CheckedName(Name);

    /// <summary>The force of the damper's valves against velocity. With a top mount it must be strictly increasing.</summary>
    public ForceVelocityCurve Curve
    {
        get;
        init
        {
            ArgumentNullException.ThrowIfNull(value);
            RequireInverse(value, TopMountStiffness, nameof(Curve));
            field = value;
        }
    } = Curve ?? throw new ArgumentNullException(nameof(Curve));

    /// <summary>By how much the forces of the dampers made may differ from <see cref="Curve"/>; null where nothing is agreed. It enters no force.</summary>
    public ForceTolerance? ForceTolerance { get; init; }

    /// <summary>Temperature of the oil for which <see cref="Curve"/> holds, °C; null where it is not known.</summary>
    public double? Temperature { get; init; }

    /// <summary>Its other states, such as hot and worn, each with a name of its own.</summary>
    public ImmutableArray<DamperState> States { get; init; } = [];

    /// <summary>How it gives off heat.</summary>
    public DamperHeat Heat { get; init; } = DamperHeat.Default;

    /// <summary>Name of the state in which it is; null for the damper as written.</summary>
    public string? State { get; private init; }

    /// <summary>The damper as written of which this is one state; itself where it is as written.</summary>
    public Damper AsWritten => Written ?? this;

    private Damper? Written { get; init; }

    /// <summary>The damper in one of its states; itself where it has none of that name.</summary>
    /// <param name="state">Name of the state; null for the damper as it is.</param>
    public Damper In(string? state) => States.FirstOrDefault(known => known.Name == state) is { } known
        ? this with { Curve = known.Of(Curve), Temperature = known.Temperature, States = [], State = state, Written = this }
        : this;

    /// <summary>The damper kept in one of its states and called after it, such as a worn one; itself where it has none of that name.</summary>
    /// <param name="state">Name of the state; null for the damper as it is.</param>
    public Damper KeptIn(string? state) => In(state) is var there && ReferenceEquals(there, this) ? this : there with { Name = $"{Name}, {state}" };

    /// <summary>Friction of seals and guide <c>Fc</c>, N, at least 0; its force is <c>Fc·tanh(v/v0)</c>. Default 0.</summary>
    public double Friction
    {
        get;
        init => field = Require.NotNegative(value, "N", nameof(Friction));
    }

    /// <summary>
    /// The velocity <c>v0</c> over which friction builds up, m/s, above 0. It stands in for the elasticity of the
    /// seals; a sharper reversal would only make the equations stiff.
    /// </summary>
    public double FrictionVelocity
    {
        get;
        init => field = Require.Positive(value, "m/s", nameof(FrictionVelocity));
    } = DefaultFrictionVelocity;

    /// <summary>
    /// Force of the gas on the rod at ride height, N, at least 0; it extends the damper, and is not part of <see cref="Force"/>. Constant over the
    /// stroke unless <see cref="Gas"/> is given, whose force it then is. Default 0.
    /// </summary>
    public double GasForce
    {
        get => Gas?.Force ?? field;
        init => field = Require.NotNegative(value, "N", nameof(GasForce));
    }

    /// <summary>The gas, where its force over the stroke is known; null for the constant <see cref="GasForce"/>.</summary>
    public GasChamber? Gas { get; init; }

    /// <summary>Force of the gas at rest at a stroke from ride height, N: the gas has the temperature around it.</summary>
    /// <param name="stroke">Stroke, m, positive in compression.</param>
    public double GasForceAtRest(double stroke) => Gas?.Isothermal.ForceAt(stroke) ?? GasForce;

    /// <summary>Stiffness of the elastic mount in series with the damper, N/m, above 0; null for a rigid one.</summary>
    public double? TopMountStiffness
    {
        get;
        init
        {
            if (value is { } stiffness)
                Require.Positive(stiffness, "N/m", nameof(TopMountStiffness));
            RequireInverse(Curve, value, nameof(TopMountStiffness));
            field = value;
        }
    }

    /// <summary>Force of valves and friction at a velocity, N, without the gas. Allocates nothing.</summary>
    /// <param name="velocity">Damper velocity, m/s, positive in compression.</param>
    public double Force(double velocity) => Friction == 0
        ? Curve.Force(velocity)
        : Curve.Force(velocity) + Friction * Tanh(velocity / FrictionVelocity);

    /// <summary>Slope of <see cref="Force"/>, N·s/m; at a corner of the curve the mean of both sides. Allocates nothing.</summary>
    /// <param name="velocity">Damper velocity, m/s, positive in compression.</param>
    public double Slope(double velocity)
    {
        if (Friction == 0)
            return Curve.Slope(velocity);
        double tanh = Tanh(velocity / FrictionVelocity);
        return Curve.Slope(velocity) + Friction / FrictionVelocity * (1 - tanh * tanh);
    }

    /// <summary>
    /// The velocity at which valves and friction together give a force, m/s: the inverse of <see cref="Force"/>, to
    /// machine precision of the force. Allocates nothing.
    /// </summary>
    /// <param name="force">Damper force without the gas, N, positive when it resists compression.</param>
    /// <exception cref="InvalidOperationException">The curve is not strictly increasing.</exception>
    public double VelocityAt(double force)
    {
        if (Friction == 0 || !double.IsFinite(force))
            return Curve.VelocityAt(force);

        // Friction takes from −Fc to +Fc of the force, so the curve carries the rest. Seen from rest the friction is
        // concave: Newton's iteration started at the end nearest to rest approaches the answer from one side.
        double one = Curve.VelocityAt(force - Friction), other = Curve.VelocityAt(force + Friction);
        double low = Math.Min(one, other), high = Math.Max(one, other);
        return ForceInverse.Velocity(this, force, low, high, start: Math.Clamp(0, low, high));
    }

    /// <summary>
    /// The equivalent viscous coefficient for a sinusoid of velocity amplitude <c>V</c>, N·s/m: see
    /// <see cref="ForceVelocityCurve.EquivalentCoefficient"/>.
    /// </summary>
    /// <param name="velocityAmplitude">Velocity amplitude <c>V</c> of the damper, m/s, at least 0.</param>
    /// <param name="direction">The direction of travel that is looked at.</param>
    /// <param name="includeFriction">Whether friction counts; with it small motions are overdamped.</param>
    public double EquivalentCoefficient(
        double velocityAmplitude,
        DampingDirection direction = DampingDirection.Both,
        bool includeFriction = false)
    {
        double valves = Curve.EquivalentCoefficient(velocityAmplitude, direction);
        return includeFriction ? valves + FrictionCoefficient(velocityAmplitude) : valves;
    }

    private static double Tanh(double x)
    {
        LaneMath.Tanh(new OneLane(x), out var tanh);
        return tanh.Value;
    }

    private static string CheckedName(string name)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name, nameof(Name));
        return name;
    }

    private static void RequireInverse(ForceVelocityCurve curve, double? topMountStiffness, string name)
    {
        if (topMountStiffness is not null && !curve.IsStrictlyIncreasing)
        {
            throw new ArgumentException(
                "A damper with a top mount needs a force–velocity curve whose force rises with velocity everywhere: its velocity follows from the mount's force.",
                name);
        }
    }

    /// <summary><c>(4/πV) ∫₀^{π/2} Fc tanh(V cos θ / v0) cos θ dθ</c>: friction is odd, so a quarter cycle tells all.</summary>
    private double FrictionCoefficient(double amplitude)
    {
        if (Friction == 0 || amplitude == 0)
            return Friction / FrictionVelocity;

        // Up to here friction is saturated, ∫ cos θ dθ = sin θ; the rest is smooth on its own scale.
        double saturatedUntil = Math.Acos(Math.Min(1, LaneMath.SaturatedTanh * FrictionVelocity / amplitude));
        double reversal = GaussKronrodRule.Integrate(
            θ => Tanh(amplitude * Math.Cos(θ) / FrictionVelocity) * Math.Cos(θ),
            saturatedUntil, Math.PI / 2, out _, out _, targetRelativeError: 1e-13);
        return 4 * Friction / (Math.PI * amplitude) * (Math.Sin(saturatedUntil) + reversal);
    }
}
