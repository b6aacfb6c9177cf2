using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What would open a closed window, one sentence per remedy; each value is the edge at which one setting serves.</summary>
public static class RemedyWords
{
    /// <summary>The remedy in one sentence.</summary>
    /// <param name="remedy">The remedy.</param>
    /// <param name="study">The case that it belongs to.</param>
    public static string Of(WindowRemedy remedy, StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(remedy);
        ArgumentNullException.ThrowIfNull(study);
        return remedy.Kind switch
        {
            RemedyKind.DamperPosition => remedy.Move is { } move ? OfMove(remedy, move) : OfDamperRatios(remedy, study),
            RemedyKind.SpringPosition => OfSprings(remedy, study.Vehicle),
            RemedyKind.AntiRollBar => OfBar(remedy),
            RemedyKind.Track => OfTrack(remedy),
            _ => OfSplit(remedy),
        };
    }

    private static string OfMove(WindowRemedy remedy, MountMove move)
    {
        if (remedy.Mounts is not var (axleEnd, bodyEnd))
            return Invariant($"Moving the dampers cannot open the window: it opens with the axle end {Unit.Millimetre.Show(move.Edge):F1} from the centre, but no damper fits there or {(move.IsOutward ? "farther out" : "farther in")}{(move.InTheWay is { } contact ? $": there {contact.Words}" : "")}.");
        var fits = move.Fit switch
        {
            MountFit.Fits => ", and it fits there",
            MountFit.FitsBeyond => Invariant($", and it fits there; nearer, from {Unit.Millimetre.Show(move.Edge):F1} on, it is open too, but the damper does not fit"),
            _ => "",
        };
        return Invariant($"Moving the dampers {Unit.Millimetre.Show(Math.Abs(move.Shift)):0.#} {(move.Shift > 0 ? "outboard" : "inboard")}, to axleEnd_mm {Point(axleEnd)} and bodyEnd_mm {Point(bodyEnd)}, opens the window{fits}.");
    }

    private static string OfDamperRatios(WindowRemedy remedy, StudyCase study) => remedy switch
    {
        { Present: null } => $"Damper position cannot open the window: on {study.Vehicle.Suspension.Noun} heave and roll share one motion ratio.",
        { Present: { } present, Needed: { } y, RollRatio: var (now, then) } => Invariant($"Moving the dampers from {Unit.Millimetre.Of(present):F0} to {Beyond(Unit.Millimetre.Of(y), Unit.Millimetre.Of(present)):F0} mm from the centre ({y / study.Vehicle.HalfTrack:F2} of the half-track; motionRatios.roll {Beyond(then, now, decimals: 3):F3}) opens the window{(study.Placement is null ? "" : ", if they fit there: ratios alone do not tell")}."),
        _ => "No damper position up to the tyre opens the window.",
    };

    private static string OfSprings(WindowRemedy remedy, HalfCar vehicle) => remedy switch
    {
        { Present: null } => $"Spring spacing cannot open the window: on {vehicle.Suspension.Noun} the springs have one motion ratio for heave and roll.",
        { Present: { } present, Needed: { } y } => Invariant($"Setting the springs {Beyond(Unit.Millimetre.Of(2 * y), Unit.Millimetre.Of(2 * present)):F0} mm apart instead of {Unit.Millimetre.Show(2 * present):F0} opens the window{Gradient(remedy)}."),
        _ => Invariant($"Spring spacing cannot open the window: no spacing on which the body can stand does, from {Unit.Millimetre.Show(SingleChange.InnermostShare * vehicle.Track):F0} to the full track of {Unit.Millimetre.Show(vehicle.Track):F0}."),
    };

    private static string OfBar(WindowRemedy remedy) => remedy switch
    {
        { Present: 0 } => "The anti-roll bar cannot open the window: there is none to soften, and a bar lowers the roll damping ratio.",
        { Needed: { } bar } => Invariant($"An anti-roll bar of {Beyond(Unit.NewtonMetrePerDegree.Of(bar), Unit.NewtonMetrePerDegree.Of(remedy.Present!.Value)):F0} instead of {Unit.NewtonMetrePerDegree.Show(remedy.Present):F0} opens the window{Gradient(remedy)}."),
        _ => Invariant($"The anti-roll bar cannot open the window: no stiffness from none to {SingleChange.StiffestBar:F0} times the present {Unit.NewtonMetrePerDegree.Show(remedy.Present):F0} does."),
    };

    private static string OfTrack(WindowRemedy remedy) => remedy.Needed is { } track
        ? Invariant($"A track of {Beyond(Unit.Millimetre.Of(track), Unit.Millimetre.Of(remedy.Present!.Value)):F0} instead of {Unit.Millimetre.Show(remedy.Present):F0} opens the window, everything else as it is.")
        : Invariant($"Track alone cannot open the window: no track within {SingleChange.TrackChange * 100:F0} % of {Unit.Millimetre.Show(remedy.Present):F0} does, with springs and dampers where they are.");

    private static string OfSplit(WindowRemedy remedy)
    {
        if (remedy is not { Needed: { } needed, Mean: { } mean })
            return "The compression/rebound split cannot open the window: both modes work on the mean of the two, and no practical split softens heave enough.";
        var now = remedy.Present <= needed ? "as now" : Invariant($"now {remedy.Present * 100:F0} %");
        return Invariant($"The compression/rebound split changes neither the mean nor the window. If the heave maximum need hold in compression strokes only, a mean of {Unit.KilonewtonSecondPerMetre.Show(mean):F2} serves both, with compression at most {needed * 100:F0} % of the mean ({now}).");
    }

    /// <summary>A round number on the far side of a value as seen from the present one, so that what is written down is open too.</summary>
    internal static double Beyond(double value, double present, int decimals = 0)
    {
        var fineness = Math.Pow(10, decimals);
        return (value > present ? Math.Ceiling(value * fineness) : Math.Floor(value * fineness)) / fineness;
    }

    /// <summary>What a change of the roll stiffness does to the steady roll of the body.</summary>
    private static string Gradient(WindowRemedy remedy)
    {
        var (now, then) = remedy.RollGradient is var (n, t) ? (Unit.DegreePerG.Of(n), Unit.DegreePerG.Of(t)) : throw new ArgumentException("A change of the roll stiffness needs its roll gradients.", nameof(remedy));
        return Invariant($", with {(then > now ? "more" : "less")} roll: the gradient goes from {now:F1} to {then:F1} {Unit.DegreePerG.Symbol}");
    }

    private static string Point(Point3 point) => Invariant($"[{Unit.Millimetre.Of(point.X):0.###}, {Unit.Millimetre.Of(point.Y):0.###}, {Unit.Millimetre.Of(point.Z):0.###}]");
}
