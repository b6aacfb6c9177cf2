using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Finds where a live axle's dampers fit and what each place is worth in heave and in roll.</summary>
public static class PlacementStudy
{
    private const int CurvePoints = 60;

    /// <summary>Runs the study.</summary>
    /// <param name="study">The case, with a damper to place and the room around it.</param>
    /// <param name="cancellation">Stops the study.</param>
    /// <exception cref="ArgumentException">The case has no placement.</exception>
    /// <exception cref="StudyException">The body cannot stand on its springs.</exception>
    public static PlacementResult Run(StudyCase study, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        var placement = study.Placement ?? throw new ArgumentException("The case gives no room to place dampers in.", nameof(study));
        var found = BandSearch.Find(placement.Space, cancellation);
        try
        {
            var placed = found.Bands.Select(band =>
            {
                var layout = LayoutAt(study.Vehicle, placement, band.Outer, NameOf(band.Side));
                var window = study.Targets is { } targets ? SettingWindow.Find(LinearHalfCar.AtRest(new AssembledHalfCar(study.Vehicle, layout)), targets) : null;
                return new PlacedBand(band, layout, ModesOf(study, layout), window, 0);
            }).ToArray();
            double best = placed.Select(band => band.Modes.Roll.DampingRatio).DefaultIfEmpty(0).Max();
            double from = Math.Max(placement.Space.SearchFrom, 0.02);
            var curve = EvenSteps.Of(from, placement.Space.SearchTo, CurvePoints).Select(position =>
            {
                var modes = ModesOf(study, LayoutAt(study.Vehicle, placement, position, ""));
                return new PlacedPoint(position, modes.Heave.DampingRatio, modes.Roll.DampingRatio);
            });
            return new PlacementResult(
                study, found, Drawn(study, placement, cancellation), [.. placed.Select(band => band with { RollDampingLost = best > 0 ? 1 - (band.Modes.Roll.DampingRatio / best) : 0 })], [.. curve]);
        }
        catch (UnstableBodyException e)
        {
            throw StudyException.At("Placement", e);
        }
    }

    /// <summary>What a side of the rail is called.</summary>
    /// <param name="side">The side.</param>
    public static string NameOf(RailSide side) => side switch
    {
        RailSide.Inboard => "Inboard of the rail",
        RailSide.Outboard => "Outboard of the rail",
        _ => "Free of a rail",
    };

    /// <summary>The layouts as the scenario gives them.</summary>
    private static ImmutableArray<PlacedLayout> Drawn(StudyCase study, PlacementCase placement, CancellationToken cancellation) =>
    [
        .. study.Layouts.Select(layout => new PlacedLayout(layout.Name, PlaceCheck.Of(placement.Space, layout, cancellation), null)),
        .. placement.Unplaced.Select(layout => new PlacedLayout(layout.Name, null, layout.Reason)),
    ];

    private static DamperLayout LayoutAt(HalfCar vehicle, PlacementCase placement, double position, string name)
    {
        var mounts = placement.Space.Mounts;
        var fitting = new LiveAxleMountFitting(mounts.AxleEndAt(position), mounts.BodyEndAt(position), vehicle.RollCentreHeight, vehicle.HalfTrack);
        return new DamperLayout { Name = name, Fitting = fitting, Damper = placement.Damper };
    }

    private static ModeSet ModesOf(StudyCase study, DamperLayout layout) => ModeFollower.Solve(
        LinearHalfCar.AtRest(new AssembledHalfCar(study.Vehicle, layout)),
        layout.Damper.EquivalentCoefficient(study.Analysis.ReferenceVelocity, DampingDirection.Both, study.Analysis.IncludeFriction));
}
