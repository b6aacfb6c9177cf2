using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What a practitioner concludes from the setting windows, in words, from the numbers.</summary>
public static class WindowConclusions
{
    /// <summary>Draws the conclusions.</summary>
    /// <param name="result">The windows.</param>
    public static IReadOnlyList<string> Of(SettingWindowResult result) => [.. OnWindows(result), .. OnRemedies(result)];

    /// <summary>Where each window lies, and how the present setting stands to it.</summary>
    /// <param name="result">The windows.</param>
    public static IReadOnlyList<string> OnWindows(SettingWindowResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        List<string> sentences = [.. OnPositions(result.Study.Vehicle, result.Upright)];
        foreach (var layout in result.Layouts)
        {
            sentences.Add(Verdict(layout));
            if (layout.Verdict.Window.HasLaterInterval)
                sentences.Add(Invariant($"“{layout.Name}”: far harder settings meet the targets again; they are left out, since they depend on a narrow balance of modes."));
        }

        sentences.AddRange(VehicleConclusions.Of(result));
        return sentences;
    }

    /// <summary>What the position of upright dampers does to the window.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="upright">The windows from the centre to the tyre.</param>
    internal static IEnumerable<string> OnPositions(HalfCar vehicle, IReadOnlyCollection<UprightWindows> upright) => upright.Count == 0
        ? [$"On {vehicle.Suspension.Noun} the dampers' position changes heave and roll by the same factor: it scales the window but cannot open or close it."]
        : upright.Select(windows => OnPosition(windows, vehicle));

    /// <summary>What would open the windows; with several load states the same in each, for a change must open all at once.</summary>
    /// <param name="result">The windows.</param>
    public static IReadOnlyList<string> OnRemedies(SettingWindowResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        List<string> sentences = [.. result.Layouts.SelectMany(layout => layout.Remedies.Select(remedy => $"“{layout.Name}”: {RemedyWords.Of(remedy, result.Study)}"))];
        if (result.Layouts.Any(layout => layout.Remedies.Any(remedy => remedy.Needed is not null || remedy.Move is not null)))
        {
            var loads = result.Study.Load is null ? "" : result.Study.Loads.Length > 1 ? " for all load states at once" : $" for load state “{result.Study.Load.Name}”";
            sentences.Add($"Each change named opens the window{loads} just enough for one damper setting. Go further, to leave room for the dampers' tolerance.");
        }

        return sentences;
    }

    private static string OnPosition(UprightWindows upright, HalfCar vehicle)
    {
        var window = vehicle.SecondAxle is null ? "the window" : "the window of this axle alone";
        var dampers = upright.MountStiffness is { } stiffness ? Invariant($"upright dampers in top mounts of {Unit.NewtonPerMillimetre.Show(stiffness):F0}") : "upright dampers";
        if (upright.ClosingPosition is { } closing)
            return Invariant($"With {dampers} {window} closes {Unit.Millimetre.Show(closing):F0} from the centre, at {closing / vehicle.HalfTrack:F2} of the half-track: nearer to the centre no setting serves heave and roll.");
        return upright.ByPosition[^1].Window.IsOpen
            ? $"With {dampers} no position from the centre to the tyre closes {window}."
            : $"With {dampers} no position from the centre to the tyre opens {window}: the targets ask for more than this axle can give.";
    }

    private static string Verdict(LayoutWindow layout)
    {
        var verdict = layout.Verdict;
        return verdict.Standing switch
        {
            WindowStanding.Inside => Invariant($"“{layout.Name}”: the window is open and the present setting lies in it; the curve may be scaled by {WindowWords.Scales(verdict)}."),
            WindowStanding.TooSoft or WindowStanding.TooHard => Invariant($"“{layout.Name}”: the window is open, but the present setting is too {(verdict.Standing == WindowStanding.TooSoft ? "soft" : "hard")}; scale the curve by {WindowWords.Scales(verdict)}."),
            _ => Invariant($"“{layout.Name}”: the window is {WindowWords.Of(verdict)}."),
        };
    }
}
