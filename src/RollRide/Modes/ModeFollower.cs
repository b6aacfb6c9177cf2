using System.Numerics;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Modes;

/// <summary>
/// Finds the modes of a linearised half-car and keeps their names while the damper setting grows. Modes are named where damping
/// is small, by the coordinate that holds most of the kinetic energy, and followed from there: at a high setting a shape alone no
/// longer tells which mode it was.
/// </summary>
/// <remarks>Settings must be asked for in ascending order. Not thread-safe; one per sequence.</remarks>
public sealed class ModeFollower : IModeFollower
{
    private readonly LinearHalfCar _linear;
    private readonly PairFollower _pairs;

    /// <summary>Names the modes at a small setting.</summary>
    /// <param name="linear">The linearised half-car.</param>
    /// <exception cref="UnstableBodyException">The stiffness is not positive definite: no setting makes it swing about rest.</exception>
    /// <exception cref="UnnamedModesException">The tyres are damped so strongly that the axle does not swing.</exception>
    public ModeFollower(LinearHalfCar linear)
    {
        ArgumentNullException.ThrowIfNull(linear);
        _linear = linear;
        if (!Stability.Holds(linear.Mass, linear.Stiffness))
            throw new UnstableBodyException(linear);
        NamingCoefficient = ModeNaming.Coefficient(linear);
        var system = EigenSystem.Solve(linear, NamingCoefficient);
        _pairs = new PairFollower(linear, NamingCoefficient, system, ModeNaming.Pairs(system));
    }

    private ModeFollower(ModeFollower other) => (_linear, NamingCoefficient, _pairs) = (other._linear, other.NamingCoefficient, other._pairs.Fork());

    /// <summary>The modes at one damper coefficient.</summary>
    /// <param name="linear">The linearised half-car.</param>
    /// <param name="coefficient">Coefficient of each damper, N·s/m; 0 or more.</param>
    /// <exception cref="UnstableBodyException">The stiffness is not positive definite.</exception>
    /// <exception cref="UnnamedModesException">The tyres are damped so strongly that the axle does not swing.</exception>
    public static ModeSet Solve(LinearHalfCar linear, double coefficient) => new ModeFollower(linear).At(coefficient);

    /// <summary>The modes with the equivalent coefficients of a layout's dampers at a velocity amplitude.</summary>
    /// <param name="linear">The linearised half-car.</param>
    /// <param name="layout">The layout; of unlike dampers each counts with its own.</param>
    /// <param name="velocity">Velocity amplitude at the dampers, m/s, at least 0.</param>
    /// <param name="includeFriction">Whether friction counts in the coefficient.</param>
    /// <exception cref="UnstableBodyException">The stiffness is not positive definite.</exception>
    /// <exception cref="UnnamedModesException">The tyres are damped so strongly that the axle does not swing.</exception>
    public static ModeSet Solve(LinearHalfCar linear, DamperLayout layout, double velocity, bool includeFriction)
    {
        ArgumentNullException.ThrowIfNull(linear);
        ArgumentNullException.ThrowIfNull(layout);
        return Solve(linear.WithShares(layout.SideShares(velocity, DampingDirection.Both, includeFriction)), layout.EquivalentCoefficient(velocity, DampingDirection.Both, includeFriction));
    }

    /// <summary>The modes at the next damper coefficient.</summary>
    /// <param name="coefficient">Coefficient of each damper, N·s/m; 0 or more, and not less than the one asked for before.</param>
    /// <exception cref="ArgumentException">The coefficient is negative, not finite, or less than the one before.</exception>
    public ModeSet At(double coefficient)
    {
        Require.NotNegative(coefficient, "N·s/m");
        if (coefficient < NamingCoefficient)
        {
            // Below the naming setting shapes are the undamped ones: nothing needs following.
            var system = EigenSystem.Solve(_linear, coefficient);
            return ToModes(system, ModeNaming.Pairs(system), coefficient);
        }

        _pairs.MoveTo(coefficient);
        return ToModes(_pairs.System, _pairs.Pairs, coefficient);
    }

    /// <inheritdoc/>
    double IModeFollower.NamingCoefficient => NamingCoefficient;

    /// <summary>The setting at which modes are named, N·s/m; below it they need no following.</summary>
    internal double NamingCoefficient { get; }

    /// <inheritdoc/>
    IModeFollower IModeFollower.Fork() => new ModeFollower(this);

    private ModeSet ToModes(EigenSystem system, (int First, int Second)[] pairs, double coefficient)
    {
        Mode ModeOf(ModeName name)
        {
            var (first, a, b) = system.Ordered(pairs[(int)name]);
            var weighted = system.Weighted[first];
            var shape = (Complex[])weighted.Clone();
            ((ILinearMotion)_linear).Unweigh(shape);
            var largest = shape.MaxBy(value => value.Magnitude);

            return new Mode
            {
                Name = name,
                Eigenvalue = a,
                Partner = b,
                Shape = [.. shape.Map(value => largest == Complex.Zero ? value : value / largest)],
                Participation = [.. weighted.Map(EigenSystem.MagnitudeSquared)],
            };
        }

        // Where heave and roll are coupled, the two body modes may change into each other on the way: each has the name of what it is here.
        var (heave, roll) = (ModeOf(ModeName.Heave), ModeOf(ModeName.Roll));
        if (roll.HeaveShare > heave.HeaveShare)
            (heave, roll) = (roll with { Name = ModeName.Heave }, heave with { Name = ModeName.Roll });
        return new ModeSet(coefficient, heave, roll, ModeOf(ModeName.Hop), ModeOf(ModeName.Tramp));
    }
}
