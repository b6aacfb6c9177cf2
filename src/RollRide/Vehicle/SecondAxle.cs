
namespace RollRide.Vehicle;

/// <summary>The other axle of the vehicle, with its share of the body and its own dampers, and what joins both.</summary>
public sealed record SecondAxle
{
    /// <summary>The axle with its share of the body; it has no second axle itself.</summary>
    public required HalfCar Vehicle
    {
        get;
        init => field = value is { SecondAxle: null } ? value : throw new ArgumentException("The second axle is one axle: it has no second axle of its own.", nameof(Vehicle));
    }

    /// <summary>Its dampers.</summary>
    public required DamperLayout Layout { get; init; }

    /// <summary>Where it stands; the axle that the layouts are for stands at the other end.</summary>
    public required Axle Place { get; init; }

    /// <summary>What joins both axles.</summary>
    public required Chassis Chassis { get; init; }

    /// <summary>Whether it was made from a few numbers, because the vehicle's own are not known.</summary>
    public bool IsEstimated { get; init; }

    /// <summary>Where the axle stands that the layouts are for.</summary>
    public Axle StudiedPlace => Place == Axle.Front ? Axle.Rear : Axle.Front;

    /// <summary>Body mass of both ends <c>ms</c>, kg.</summary>
    /// <param name="studied">The axle that the layouts are for.</param>
    public double BodyMass(HalfCar studied)
    {
        ArgumentNullException.ThrowIfNull(studied);
        return studied.Body.Mass + Vehicle.Body.Mass;
    }

    /// <summary>Distance of the body's centre of gravity from the studied axle, <c>L ms2/ms</c>, m.</summary>
    /// <param name="studied">The axle that the layouts are for.</param>
    public double CgFromStudied(HalfCar studied) => Chassis.Wheelbase * Vehicle.Body.Mass / BodyMass(studied);

    /// <summary>Pitch inertia of the body <c>Iy</c>, kg·m²: as given, or that of a dynamic index of 1, <c>ms a b</c>.</summary>
    /// <param name="studied">The axle that the layouts are for.</param>
    public double PitchInertia(HalfCar studied)
    {
        var from = CgFromStudied(studied);
        return Chassis.PitchInertia ?? (BodyMass(studied) * from * (Chassis.Wheelbase - from));
    }
}
