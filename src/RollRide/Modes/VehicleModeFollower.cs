using System.Collections.Immutable;
using System.Numerics;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Modes;

/// <summary>
/// Finds the modes of a vehicle with two axles and keeps their names while its dampers are set harder: named where all are soft, then followed while those of
/// the axle that stays as it is come to their setting, then while those of the axle that the layouts are for do.
/// </summary>
/// <remarks>Settings must be asked for in ascending order. Not thread-safe; one per sequence.</remarks>
public sealed class VehicleModeFollower : IModeFollower
{
    private readonly LinearVehicle _vehicle;
    private readonly Func<double, double[]> _coefficients;
    private readonly Axle _studied;
    private readonly ImmutableArray<VehicleModeName> _names;
    private readonly PairFollower _pairs;
    private readonly double _second;

    /// <summary>Names the modes.</summary>
    /// <param name="car">Vehicle and layout, with two axles.</param>
    /// <param name="velocity">Velocity amplitude at all dampers, m/s, at least 0.</param>
    /// <param name="includeFriction">Whether friction counts in the coefficients.</param>
    /// <exception cref="UnstableBodyException">The stiffness is not positive definite.</exception>
    /// <exception cref="UnnamedModesException">The tyres are damped so strongly that an axle does not swing.</exception>
    public VehicleModeFollower(AssembledHalfCar car, double velocity, bool includeFriction = false)
    {
        ArgumentNullException.ThrowIfNull(car);
        _vehicle = LinearVehicle.AtRest(car);
        _studied = car.Vehicle.SecondAxle!.StudiedPlace;
        if (!Stability.Holds(_vehicle.Mass, _vehicle.Stiffness))
            throw new UnstableBodyException(_vehicle.Own, _vehicle.Second);
        var layout = car.Second!.Layout;
        var (own, second) = (car.Layout.SideShares(velocity, includeFriction: includeFriction), layout.SideShares(velocity, includeFriction: includeFriction));
        _second = layout.EquivalentCoefficient(velocity, includeFriction: includeFriction);
        NamingCoefficient = ModeNaming.Coefficient(_vehicle.Own);
        OwnAxle = _vehicle.Own.WithShares(own);
        double[] At(double mean, double secondMean) => [mean * own.Left, mean * own.Right, secondMean * second.Left, secondMean * second.Right];
        _coefficients = mean => At(mean, _second);

        // Where the other axle's dampers are soft themselves, nothing needs following.
        var soft = Math.Min(_second, ModeNaming.Coefficient(_vehicle.Second));
        _names = [.. Enum.GetValues<VehicleModeName>().Where(name => !_vehicle.IsRigid || name != VehicleModeName.Twist)];
        var rising = _vehicle.Over(mean => At(NamingCoefficient, mean));
        var system = EigenSystem.Solve(rising, soft);
        var named = new PairFollower(rising, soft, system, VehicleModeNaming.Pairs(system, [.. _names.Select(CoordinateOf)]));
        named.MoveTo(_second);
        _pairs = new PairFollower(_vehicle.Over(_coefficients), NamingCoefficient, named.System, named.Pairs);
    }

    private VehicleModeFollower(VehicleModeFollower other)
    {
        (_vehicle, _coefficients, _studied, _names, _second) = (other._vehicle, other._coefficients, other._studied, other._names, other._second);
        (NamingCoefficient, OwnAxle, _pairs) = (other.NamingCoefficient, other.OwnAxle, other._pairs.Fork());
    }

    /// <summary>The axle that the layouts are for by itself, its dampers sharing the coefficient as they do here.</summary>
    internal LinearHalfCar OwnAxle { get; }

    /// <summary>The setting at which modes are named, N·s/m.</summary>
    internal double NamingCoefficient { get; }

    /// <inheritdoc/>
    double IModeFollower.NamingCoefficient => NamingCoefficient;

    /// <summary>The modes with the equivalent coefficients of all dampers at a velocity amplitude.</summary>
    /// <param name="car">Vehicle and layout, with two axles.</param>
    /// <param name="velocity">Velocity amplitude at all dampers, m/s, at least 0.</param>
    /// <param name="includeFriction">Whether friction counts in the coefficients.</param>
    /// <exception cref="UnstableBodyException">The stiffness is not positive definite.</exception>
    /// <exception cref="UnnamedModesException">The tyres are damped so strongly that an axle does not swing.</exception>
    public static VehicleModeSet Solve(AssembledHalfCar car, double velocity, bool includeFriction)
    {
        ArgumentNullException.ThrowIfNull(car);
        return new VehicleModeFollower(car, velocity, includeFriction).ModesAt(car.Layout.EquivalentCoefficient(velocity, includeFriction: includeFriction));
    }

    /// <summary>The modes at the next coefficient of the dampers that the layouts are for.</summary>
    /// <param name="coefficient">Mean coefficient of both, N·s/m; 0 or more, and not less than the one asked for before.</param>
    /// <exception cref="ArgumentException">The coefficient is negative, not finite, or less than the one before.</exception>
    public VehicleModeSet ModesAt(double coefficient)
    {
        Require.NotNegative(coefficient, "N·s/m");
        if (coefficient >= NamingCoefficient)
        {
            _pairs.MoveTo(coefficient);
            return ToModes(_pairs, coefficient);
        }

        // So soft a setting hardly changes a mode: the nearest is the same.
        var softer = _pairs.Fork();
        softer.JumpTo(coefficient);
        return ToModes(softer, coefficient);
    }

    /// <inheritdoc/>
    /// <remarks>As seen from the axle that the layouts are for: its own hop and tramp, the vehicle's roll, and as heave bounce or pitch, whichever is damped more.</remarks>
    ModeSet IModeFollower.At(double coefficient)
    {
        var modes = ModesAt(coefficient);
        var isRear = _studied == Axle.Rear;
        return new ModeSet(
            coefficient,
            Seen(ModeName.Heave, modes.MoreDampedHeave),
            Seen(ModeName.Roll, modes.Roll),
            Seen(ModeName.Hop, modes[isRear ? VehicleModeName.RearHop : VehicleModeName.FrontHop]!),
            Seen(ModeName.Tramp, modes[isRear ? VehicleModeName.RearTramp : VehicleModeName.FrontTramp]!));

        static Mode Seen(ModeName name, VehicleMode mode) => new()
        {
            Name = name,
            Eigenvalue = mode.Eigenvalue,
            Partner = mode.Partner,
            Shape = mode.Shape[..HalfCarState.Rates],
            Participation = [.. mode.Shape[..HalfCarState.Rates].Select(EigenSystem.MagnitudeSquared)],
        };
    }

    /// <inheritdoc/>
    IModeFollower IModeFollower.Fork() => new VehicleModeFollower(this);

    /// <summary>The weighted coordinate that a mode is named after, see <see cref="LinearVehicle.Weigh"/>.</summary>
    private int CoordinateOf(VehicleModeName name) => name switch
    {
        VehicleModeName.Bounce => HalfCarState.BodyHeave,
        VehicleModeName.Pitch => _vehicle.PlaceOf(HalfCarState.BodyHeave, true),
        VehicleModeName.Roll => HalfCarState.BodyRoll,
        VehicleModeName.Twist => _vehicle.PlaceOf(HalfCarState.BodyRoll, true),
        VehicleModeName.FrontHop or VehicleModeName.RearHop => _vehicle.PlaceOf(HalfCarState.UnsprungHeave, IsSecond(name)),
        _ => _vehicle.PlaceOf(HalfCarState.UnsprungRoll, IsSecond(name)),
    };

    private bool IsSecond(VehicleModeName name) => (name is VehicleModeName.FrontHop or VehicleModeName.FrontTramp) != (_studied == Axle.Front);

    private VehicleModeSet ToModes(PairFollower at, double coefficient) => new(coefficient, [.. _names.Select((name, i) => ModeOf(name, at, at.Pairs[i], coefficient))]);

    private VehicleMode ModeOf(VehicleModeName name, PairFollower at, (int First, int Second) pair, double coefficient)
    {
        var (first, a, b) = at.System.Ordered(pair);
        var weighted = at.System.Weighted[first];
        var shape = (Complex[])weighted.Clone();
        _vehicle.Unweigh(shape);
        var losses = _vehicle.Losses(_coefficients(coefficient), a, shape);
        var sum = losses.Sum();
        var largest = shape.MaxBy(value => value.Magnitude);
        return new VehicleMode
        {
            Name = name,
            Eigenvalue = a,
            Partner = b,
            Shape = [.. shape.Select(value => largest == Complex.Zero ? value : value / largest)],
            Participation = _names.ToImmutableDictionary(other => other, other => EigenSystem.MagnitudeSquared(weighted[CoordinateOf(other)])),
            DampingShares = a.Imaginary == 0 || !(sum > 0) ? null : new DampingShares(losses[0] / sum, losses[1] / sum, losses[2] / sum, losses[3] / sum, losses[4] / sum),
        };
    }
}
