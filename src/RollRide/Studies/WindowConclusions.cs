using static System.FormattableString;

namespace RollRide.Studies;

/// <summary>What a practitioner concludes from the setting windows, in words, from the numbers.</summary>
public static class WindowConclusions
{
    private const double Mm = 1e3;

    /// <summary>Draws the conclusions.</summary>
    /// <param name="result">The windows.</param>
    public static IReadOnlyList<string> Of(SettingWindowResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var sentences = new List<string>();
        var halfTrack = result.Study.Vehicle.HalfTrack;
        if (result.ClosingPosition is { } closing)
            sentences.Add(Invariant($"With upright dampers the window closes {closing * Mm:F0} mm from the centre, at {closing / halfTrack:F2} of the half-track: nearer to the centre no setting serves heave and roll."));
        else if (result.ByPosition.Length > 0)
            sentences.Add(result.ByPosition[^1].Window.IsOpen ? "No position from the centre to the tyre closes the window." : "No position from the centre to the tyre opens the window: the targets ask for more than this axle can give.");
        else
            sentences.Add("On independent suspension the dampers' position changes heave and roll alike: it scales the window but cannot open or close it.");
        foreach (var layout in result.Layouts)
        {
            sentences.Add(Verdict(layout));
            if (layout.Verdict.Window.HasLaterInterval)
                sentences.Add(Invariant($"'{layout.Name}': past a gap harder settings meet the targets again; they are left out, since they rest on a narrow balance of modes."));
            sentences.AddRange(layout.Remedies.Select(remedy => $"'{layout.Name}': {remedy.Sentence}"));
        }

        return sentences;
    }

    private static string Verdict(LayoutWindow layout)
    {
        var verdict = layout.Verdict;
        return verdict.Standing switch
        {
            WindowStanding.Inside => Invariant($"'{layout.Name}': the window is open and the present setting lies in it; the curve may be scaled by {verdict.LowerScale:F2} to {verdict.UpperScale:F2}."),
            WindowStanding.TooSoft or WindowStanding.TooHard => Invariant($"'{layout.Name}': the window is open, but the present setting is too {(verdict.Standing == WindowStanding.TooSoft ? "soft" : "hard")}; scale the curve by {verdict.LowerScale:F2} to {verdict.UpperScale:F2}."),
            _ => Invariant($"'{layout.Name}': the window is {verdict.Words}."),
        };
    }
}
