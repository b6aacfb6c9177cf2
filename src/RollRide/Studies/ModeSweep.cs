using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;

namespace RollRide.Studies;

/// <summary>The modes of one layout over the damper's velocity amplitude: what a curve that is no straight line does to damping.</summary>
public sealed record ModeSweep
{
    private const double Lowest = 0.02;
    private const double Highest = 1.5;
    private const int Points = 40;

    /// <summary>Vehicle and layout.</summary>
    public required AssembledHalfCar Car { get; init; }

    /// <summary>Compression and rebound together, by ascending velocity.</summary>
    public required ImmutableArray<ModesAtVelocity> Both { get; init; }

    /// <summary>As if the damper worked in both directions as it does in compression.</summary>
    public required ImmutableArray<ModesAtVelocity> Compression { get; init; }

    /// <summary>As if the damper worked in both directions as it does in rebound.</summary>
    public required ImmutableArray<ModesAtVelocity> Rebound { get; init; }

    /// <summary>The velocity amplitudes swept unless others are given, m/s: 0.02 to 1.5, with the same ratio from each to the next.</summary>
    public static ImmutableArray<double> DefaultVelocities { get; } =
        [.. Enumerable.Range(0, Points).Select(i => Lowest * Math.Pow(Highest / Lowest, i / (Points - 1.0)))];

    /// <summary>The sweep of one direction.</summary>
    /// <param name="direction">The direction of damper travel.</param>
    public ImmutableArray<ModesAtVelocity> this[DampingDirection direction] => direction switch
    {
        DampingDirection.Compression => Compression,
        DampingDirection.Rebound => Rebound,
        _ => Both,
    };

    /// <summary>Finds the modes over velocity.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="velocities">Velocity amplitudes at the damper, m/s.</param>
    /// <param name="includeFriction">Whether friction counts in the coefficient.</param>
    /// <exception cref="UnstableBodyException">The body is unstable in roll.</exception>
    public static ModeSweep Of(AssembledHalfCar car, IReadOnlyList<double> velocities, bool includeFriction)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(velocities);
        var wanted =
            from direction in Enum.GetValues<DampingDirection>()
            from velocity in velocities
            let coefficient = car.Layout.EquivalentCoefficient(velocity, direction, includeFriction)
            orderby coefficient
            select (direction, velocity, coefficient);

        // One follower goes through all settings upward, whatever the order of the velocities: so every mode keeps its name. Unlike dampers share
        // the coefficient differently at each velocity, and each has a follower of its own.
        var linear = LinearHalfCar.AtRest(car);
        var follower = new ModeFollower(linear);
        var isAlike = car.Layout.On(Side.Right).Damper == car.Layout.Damper;
        ModeSet Modes(DampingDirection direction, double velocity, double coefficient) =>
            (isAlike ? follower : new ModeFollower(linear.WithShares(car.Layout.SideShares(velocity, direction, includeFriction)))).At(coefficient);
        var found = wanted.Select(point => (point.direction, At: new ModesAtVelocity(point.velocity, Modes(point.direction, point.velocity, point.coefficient)))).ToArray();
        ImmutableArray<ModesAtVelocity> Of(DampingDirection direction) =>
            [.. found.Where(point => point.direction == direction).Select(point => point.At).OrderBy(at => at.Velocity)];
        return new ModeSweep
        {
            Car = car,
            Both = Of(DampingDirection.Both),
            Compression = Of(DampingDirection.Compression),
            Rebound = Of(DampingDirection.Rebound),
        };
    }
}
