using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>Roll that has not settled when the corner from rest is no longer followed, in words.</summary>
public static class SettlingWords
{
    /// <summary>A settling time that is longer than the corner was followed, as a number in a table: <c>&gt; 10.4</c>.</summary>
    /// <param name="followed">How long it was followed, s.</param>
    public static string Beyond(double followed) => Invariant($"> {followed:F1}");

    /// <summary>That it has not settled, after the subject of the sentence.</summary>
    /// <param name="study">The case.</param>
    internal static string NotSettled(StudyCase study) =>
        Invariant($"not settled to within 5 % of the steady angle in the {study.Manoeuvre.Cornering.Alone.Duration:F1} s for which the corner is followed");
}
