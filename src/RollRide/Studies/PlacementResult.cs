using System.Collections.Immutable;
using RollRide.Modes;
using RollRide.Packaging;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>Where the dampers fit, and what each place is worth.</summary>
/// <param name="Study">The case.</param>
/// <param name="Found">The bands, and what closed slots lack.</param>
/// <param name="Layouts">Whether the scenario's own layouts can stand where they are drawn.</param>
/// <param name="Bands">What each band's best position is worth, in the order of the bands.</param>
/// <param name="Curve">Damping ratios over the lateral position, from the centre outward, whether it fits or not.</param>
public sealed record PlacementResult(StudyCase Study, PlacementBands Found, ImmutableArray<PlacedLayout> Layouts, ImmutableArray<PlacedBand> Bands, ImmutableArray<PlacedPoint> Curve);

/// <summary>A layout of the scenario, as it is drawn.</summary>
/// <param name="Name">Its name, with the side where its dampers do not mirror each other.</param>
/// <param name="Place">Where it stands and what is in the way there; null where it has no mounts to look at, or no place at all.</param>
/// <param name="Unplaced">Why no place was found for it; null where it was not to be placed, or was.</param>
public sealed record PlacedLayout(string Name, DrawnPlace? Place, string? Unplaced);

/// <summary>A band with the best position in it: the most outboard, since roll damping grows with the square of the roll ratio.</summary>
/// <param name="Band">The band.</param>
/// <param name="Layout">The damper fitted at that position.</param>
/// <param name="Modes">The modes with it, at the reference damper velocity.</param>
/// <param name="Window">The damper coefficients that meet the targets there; null where the case has none.</param>
/// <param name="RollDampingLost">Share of the roll damping ratio lost against the best of all bands; 0 for that one.</param>
public sealed record PlacedBand(Band Band, DamperLayout Layout, ModeSet Modes, SettingWindow? Window, double RollDampingLost);

/// <summary>Damping ratios with the damper at one lateral position.</summary>
/// <param name="Position">Lateral position of the axle end, m.</param>
/// <param name="Heave">Damping ratio in heave.</param>
/// <param name="Roll">Damping ratio in roll.</param>
public sealed record PlacedPoint(double Position, double Heave, double Roll);
