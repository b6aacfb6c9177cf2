using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Finds where a live axle's dampers fit, and the damping ratios in heave and roll at each place.</summary>
public static class PlacementStudy
{
    private const int CurvePoints = 60;

    // Nearer to the centre plane, m, both dampers are one and the curve ends; common practice, no source.
    private const double Innermost = 0.02;

    /// <summary>Runs the study.</summary>
    /// <param name="study">The case, with a damper to place and the room around it.</param>
    /// <param name="cancellation">Stops the study.</param>
    /// <exception cref="ArgumentException">The case has no placement.</exception>
    /// <exception cref="StudyException">The body cannot stand on its springs.</exception>
    public static PlacementResult Run(StudyCase study, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        var placement = study.Placement ?? throw new ArgumentException("The case gives no room to place dampers in.", nameof(study));
        try
        {
            var found = BandSearch.Find(RoomOf(study, placement), cancellation);
            var placed = found.Bands.Select(band => Placed(study, band)).ToArray();
            double best = placed.Select(band => band.Modes.Roll.DampingRatio).DefaultIfEmpty(0).Max();
            double from = Math.Max(placement.Space.SearchFrom, Innermost);
            var curve = EvenSteps.Of(from, placement.Space.SearchTo, CurvePoints).Select(position =>
            {
                var modes = ModesOf(study, study.Assemble(LayoutAt(study.Vehicle, placement, position, "")));
                return new PlacedPoint(position, modes.Heave.DampingRatio, modes.Roll.DampingRatio);
            });
            return new PlacementResult(
                study, found, Drawn(study, placement, cancellation), [.. placed.Select(band => band with { RollDampingLost = best > 0 ? 1 - (band.Modes.Roll.DampingRatio / best) : 0 })], [.. curve]);
        }
        catch (Exception e) when (e is UnstableBodyException or NoRestPositionException)
        {
            throw StudyException.At("Placement", e);
        }
    }

    /// <summary>Where the damper fits as the case stands: the bands of <see cref="Run"/> alone.</summary>
    /// <param name="study">The case, with a damper to place and the room around it.</param>
    /// <param name="cancellation">Stops the search.</param>
    /// <exception cref="ArgumentException">The case has no placement.</exception>
    /// <exception cref="NoRestPositionException">The body cannot stand on its springs.</exception>
    public static ImmutableArray<Band> Bands(StudyCase study, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        return BandSearch.Bands(RoomOf(study, study.Placement ?? throw new ArgumentException("The case gives no room to place dampers in.", nameof(study))), cancellation);
    }

    /// <summary>Where the damper fits in every load state; without load states, where it fits.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="placement">The damper and the room around it.</param>
    /// <param name="loads">The load states; one in which the vehicle cannot stand is left out.</param>
    /// <param name="cancellation">Stops the search.</param>
    internal static PlacementBands Bands(HalfCar vehicle, PlacementCase placement, ImmutableArray<LoadState> loads, CancellationToken cancellation)
    {
        PlacementBands? In(LoadState load)
        {
            try
            {
                var loaded = LoadedHalfCar.Settle(vehicle, Anywhere(vehicle, placement), load);
                return BandSearch.Find(StudyCase.RoomUnder(placement.Space, loaded), cancellation);
            }
            catch (NoRestPositionException)
            {
                return null;
            }
        }

        (string Load, PlacementBands Found)[] states = [.. from load in loads let found = In(load) where found is not null select (load.Name, found)];
        if (states.Length == 0)
            return BandSearch.Find(placement.Space, cancellation);
        ImmutableArray<Band> common = [.. CommonBand.Shared([.. states.Select(state => (state.Load, state.Found.Bands))]).Select(shared => shared.Band)];
        var shortfalls = states.SelectMany(state => state.Found.Shortfalls).Where(slot => !common.Any(band => band.Side == slot.Side)).DistinctBy(slot => slot.Side);
        return new PlacementBands(placement.Space, common, [.. shortfalls]);
    }

    /// <summary>Modes and setting window of the best position of a band, its outer end.</summary>
    /// <param name="study">The case, with a placement.</param>
    /// <param name="band">The band.</param>
    internal static PlacedBand Placed(StudyCase study, Band band)
    {
        var car = study.Assemble(LayoutAt(study.Vehicle, study.Placement!, band.Outer, NameOf(band.Side)));
        var window = study.Targets is { } targets ? SettingWindow.Find(LinearHalfCar.AtRest(car), targets) : null;
        return new PlacedBand(band, car.Layout, ModesOf(study, car), window, 0);
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
        .. study.Layouts.SelectMany(layout => study.InRoom(layout).Places.Select(place => new PlacedLayout(place.Name, PlaceCheck.Of(study.Room(layout)!, study.InRoom(layout).On(place.Side), cancellation), null))),
        .. placement.Unplaced.Select(layout => new PlacedLayout(layout.Name, null, layout.Reason)),
    ];

    /// <summary>The room around the damper, drawn where everything stands with it.</summary>
    private static PackagingSpace RoomOf(StudyCase study, PlacementCase placement) => study.Room(Anywhere(study.Vehicle, placement))!;

    /// <summary>The placed damper at some lateral position: one moved sideways carries the same in heave, so that the vehicle stands the same with all of them.</summary>
    private static DamperLayout Anywhere(HalfCar vehicle, PlacementCase placement) => LayoutAt(vehicle, placement, placement.Space.SearchTo, "");

    /// <summary>The placed damper at a lateral position, as it would be written.</summary>
    private static DamperLayout LayoutAt(HalfCar vehicle, PlacementCase placement, double position, string name)
    {
        var mounts = placement.Space.Mounts;
        var fitting = new LiveAxleMountFitting(mounts.AxleEndAt(position), mounts.BodyEndAt(position), vehicle.RollCentreHeight, vehicle.HalfTrack);
        return new DamperLayout { Name = name, Fitting = fitting, Damper = placement.Damper };
    }

    private static ModeSet ModesOf(StudyCase study, AssembledHalfCar car) =>
        ModeFollower.Solve(LinearHalfCar.AtRest(car), car.Layout, study.Analysis.ReferenceVelocity, study.Analysis.IncludeFriction);
}
