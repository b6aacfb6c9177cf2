using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>Where a loaded vehicle stands on a level road, counted from its position at the design load, and what its elements carry there.</summary>
public sealed record RestPosition
{
    /// <summary>Rise of the body <c>zs</c>, m; negative where it sinks.</summary>
    public required double BodyHeave { get; init; }

    /// <summary>Rise of the axle, or of both wheels, <c>zu</c>, m; negative where the tyres give way.</summary>
    public required double UnsprungHeave { get; init; }

    /// <summary>Travel of the wheels against the body <c>q = zu − zs</c>, m, positive in bump.</summary>
    public double Travel => UnsprungHeave - BodyHeave;

    /// <summary>Roll angle of the body there, rad; 0 unless the load stands beside the centre plane or the sides are unlike.</summary>
    public required double BodyRoll { get; init; }

    /// <summary>Roll angle of the axle there, rad.</summary>
    public required double UnsprungRoll { get; init; }

    /// <summary>The left side.</summary>
    public required SideAtRest Left { get; init; }

    /// <summary>The right side; the same as the left one where <see cref="IsAlike"/>.</summary>
    public required SideAtRest Right { get; init; }

    /// <summary>Whether both sides carry the same and stand the same.</summary>
    public required bool IsAlike { get; init; }

    /// <summary>The sides that differ, each with its name: of sides that are the same one without a name.</summary>
    public IReadOnlyList<(string Name, SideAtRest Side)> Sides => IsAlike ? [("", Left)] : [("left", Left), ("right", Right)];

    /// <summary>Describes it.</summary>
    /// <param name="layout">The damper layout in the design position.</param>
    /// <param name="change">How far everything has risen.</param>
    /// <param name="car">Vehicle and layout drawn anew at the rest.</param>
    /// <param name="vehicle">The vehicle in its design position.</param>
    internal static RestPosition Of(DamperLayout layout, RideHeightChange change, AssembledHalfCar car, HalfCar vehicle)
    {
        var standing = car.Standing;
        var roll = standing.UnsprungRoll - standing.BodyRoll;
        SideAtRest Of(Side side)
        {
            ElementAtRest Element(IFitting design, IFitting there, double force) =>
                new(design.At(change.Travel, roll, side).Compression, force, there.HeaveRatio, there.RollRatio);
            StopAtRest? Stop(TravelStop? stop) =>
                stop is null ? null : new StopAtRest(Math.Max(0, stop.Clearance), Math.Max(0, -stop.Clearance), stop.Force(-stop.Clearance));
            var (suspension, damper) = (car.Vehicle.On(side), car.Layout.On(side));
            return new SideAtRest(
                Element(vehicle.On(side).Spring.Fitting, suspension.Spring.Fitting, standing.Spring(side)),
                Element(layout.On(side).Fitting, damper.Fitting, damper.Damper.GasForce),
                (damper.Fitting as IMountedElement)?.Length,
                damper.CompressionTravel,
                damper.ReboundTravel,
                Stop(suspension.BumpStop),
                Stop(suspension.ReboundStop),
                standing.SideLoad(side));
        }

        return new RestPosition
        {
            BodyHeave = change.Body,
            UnsprungHeave = change.Unsprung,
            BodyRoll = standing.BodyRoll,
            UnsprungRoll = standing.UnsprungRoll,
            Left = Of(Side.Left),
            Right = Of(Side.Right),
            IsAlike = !car.HasUnlikeSides,
        };
    }
}

/// <summary>What the elements of one side do at rest.</summary>
/// <param name="Spring">The spring.</param>
/// <param name="Damper">The damper; its force is that of the gas.</param>
/// <param name="DamperLength">Distance between the damper's mounts, m; null where only ratios are given.</param>
/// <param name="LeftToClosed">What is left until the damper is closed, m; null where not known.</param>
/// <param name="LeftToExtended">What is left until the damper is fully extended, m; null where not known.</param>
/// <param name="BumpStop">The bump stop; null without one.</param>
/// <param name="ReboundStop">The rebound stop; null without one.</param>
/// <param name="TyreLoad">Load of the side's tyres together, N.</param>
public sealed record SideAtRest(
    ElementAtRest Spring,
    ElementAtRest Damper,
    double? DamperLength,
    double? LeftToClosed,
    double? LeftToExtended,
    StopAtRest? BumpStop,
    StopAtRest? ReboundStop,
    double TyreLoad);

/// <summary>An element at rest.</summary>
/// <param name="Compression">Its compression from the design position, m.</param>
/// <param name="Force">Its force, N, positive where it pushes body and wheel apart.</param>
/// <param name="HeaveRatio">Element travel over wheel travel in heave, <c>∂X/∂q</c>, there.</param>
/// <param name="RollRatio">Element travel over wheel travel in roll, <c>(s/T) ∂X/∂r</c>, there.</param>
public sealed record ElementAtRest(double Compression, double Force, double HeaveRatio, double RollRatio);

/// <summary>A stop at rest.</summary>
/// <param name="Clearance">Free travel until it touches, measured at the stop, m; 0 where it touches.</param>
/// <param name="Compression">How far it is compressed, m; 0 where it is free.</param>
/// <param name="Force">Its force, N; 0 where it is free.</param>
public sealed record StopAtRest(double Clearance, double Compression, double Force);
