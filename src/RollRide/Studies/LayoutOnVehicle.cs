using RollRide.Dynamics;
using RollRide.Modes;

namespace RollRide.Studies;

/// <summary>What a layout is on the whole vehicle: its modes, the setting window there, and how the axles share the load transfer.</summary>
public sealed record LayoutOnVehicle
{
    // Of damping ratios: what is lost is then nothing that the other axle could make up.
    private const double NoLoss = 0.005;

    /// <summary>The modes at the reference damper velocity.</summary>
    public required VehicleModeSet Modes { get; init; }

    /// <summary>The modes of the axle by itself at that velocity.</summary>
    public required ModeSet Alone { get; init; }

    /// <summary>Whether one setting can meet the case's targets on the vehicle, and whether this one does; null if the case asks for none, or there is no such setting to scale.</summary>
    public required WindowVerdict? Window { get; init; }

    /// <summary>The front axle's share of the load transfer in the corner from rest; null without a corner.</summary>
    public required TransferShare? Transfer { get; init; }

    /// <summary>The layout that losses count against: the one with most roll damping on the axle by itself.</summary>
    /// <param name="layouts">The layouts, at least one.</param>
    public static LayoutOnVehicle ReferenceOf(IEnumerable<LayoutOnVehicle> layouts) => layouts.MaxBy(layout => layout.Alone.Roll.DampingRatio)!;

    /// <summary>Examines a layout on the vehicle.</summary>
    /// <param name="study">The case.</param>
    /// <param name="car">Vehicle and layout, with two axles.</param>
    /// <param name="alone">The modes of the axle by itself at the reference velocity.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <exception cref="UnstableBodyException">The vehicle is unstable in roll.</exception>
    /// <exception cref="UnnamedModesException">Its modes cannot be told apart.</exception>
    public static LayoutOnVehicle Of(StudyCase study, AssembledHalfCar car, ModeSet alone, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        ArgumentNullException.ThrowIfNull(car);
        var (settings, manoeuvre) = (study.Analysis, study.Manoeuvre);
        return new LayoutOnVehicle
        {
            Modes = VehicleModeFollower.Solve(car, settings.ReferenceVelocity, settings.IncludeFriction),
            Alone = alone,
            Window = study.Targets is { } targets && car.Layout.EquivalentCoefficient(targets.Velocity) > 0 ? WindowVerdict.OnVehicle(car, targets, settings.IncludeFriction) : null,
            Transfer = manoeuvre.HasCorner
                ? TransferShare.Of(car, manoeuvre.Cornering.Alone, manoeuvre.Road.Speed, study.Solver, cancellation)
                : null,
        };
    }

    /// <summary>
    /// How much of the roll damping that this layout loses against a reference on the axle by itself the other axle makes up for on the vehicle:
    /// <c>1 − (ζveh,ref − ζveh)/(ζalone,ref − ζalone)</c>. Null where nothing is lost, where the other axle has no dampers to make it up with, and where the frame is so soft that
    /// its ends roll nearly independently.
    /// </summary>
    /// <param name="reference">The layout that it is compared with.</param>
    public double? MadeUpAgainst(LayoutOnVehicle reference)
    {
        ArgumentNullException.ThrowIfNull(reference);
        var lost = reference.Alone.Roll.DampingRatio - Alone.Roll.DampingRatio;
        return lost < NoLoss || Modes.Roll.DampingShares is { Second: 0 } || Modes.RollsInParts || reference.Modes.RollsInParts ? null
            : 1 - ((reference.Modes.Roll.DampingRatio - Modes.Roll.DampingRatio) / lost);
    }
}
