namespace RollRide.Dynamics;

/// <summary>The body of a vehicle with two axles in numbers: what an end moves by what would move it and the other by themselves, and the frame's twist.</summary>
internal sealed class JoinedBody
{
    /// <summary>Takes a vehicle with two axles.</summary>
    public JoinedBody(AssembledHalfCar car)
    {
        var second = car.Vehicle.SecondAxle!;
        var (m1, m2) = (car.Vehicle.Body.Mass, second.Vehicle.Body.Mass);
        (RollInertia, RollInertiaOfSecond) = (car.Vehicle.BodyRollInertia, second.Vehicle.BodyRollInertia);
        var chassis = second.Chassis;
        Stiffness = chassis.TorsionalStiffness;
        Damping = chassis.LossBetween(RollInertia, RollInertiaOfSecond);
        if (chassis.PitchInertia is { } inertia)
        {
            var (mass, a) = (m1 + m2, second.CgFromStudied(car.Vehicle));
            var b = chassis.Wheelbase - a;
            Heave = new Shares(m1 * ((1 / mass) + (a * a / inertia)), m2 * ((1 / mass) - (a * b / inertia)), m1 * ((1 / mass) - (a * b / inertia)), m2 * ((1 / mass) + (b * b / inertia)));
        }

        if (chassis.IsRigid)
        {
            var (own, other) = (RollInertia / (RollInertia + RollInertiaOfSecond), RollInertiaOfSecond / (RollInertia + RollInertiaOfSecond));
            Roll = new Shares(own, other, own, other);
        }
    }

    /// <summary>The heave accelerations of the ends over those that each would have by itself.</summary>
    public Shares Heave { get; } = Shares.Apart;

    /// <summary>The same of the roll accelerations, the frame's twist apart.</summary>
    public Shares Roll { get; } = Shares.Apart;

    /// <summary>Torsional stiffness of the frame, N·m/rad; null where it does not twist.</summary>
    public double? Stiffness { get; }

    /// <summary>Loss in its torsion, N·m·s/rad.</summary>
    public double Damping { get; }

    /// <summary>Roll inertia of the body at the axle that the layouts are for, about its roll centre, kg·m².</summary>
    public double RollInertia { get; }

    /// <summary>The same at the other axle, kg·m².</summary>
    public double RollInertiaOfSecond { get; }

    /// <summary>What either end moves by itself and by the other one.</summary>
    public sealed record Shares(double OfOwn, double OfOwnBySecond, double OfSecondByOwn, double OfSecond)
    {
        /// <summary>Ends that move on their own.</summary>
        public static Shares Apart { get; } = new(1, 0, 0, 1);
    }
}
