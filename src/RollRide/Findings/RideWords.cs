using RollRide.Dynamics;
using RollRide.Metrics;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>Over which part of a run its ride is measured, in words.</summary>
public static class RideWords
{
    /// <summary>The part, after the name of the road: <c>, 3 to 21 s</c>; empty where no ride is measured.</summary>
    /// <param name="manoeuvre">The manoeuvre.</param>
    public static string Window(Manoeuvre manoeuvre) => RideRecorder.MeasuredSpan(manoeuvre) is { } span ? Invariant($", {span.Start:0.#} to {span.End:0.#} s") : "";

    /// <summary>Which of the obstacles and of the corner the ride's figures leave out, in a sentence; empty where they leave out nothing.</summary>
    /// <param name="manoeuvre">The manoeuvre.</param>
    public static string LeftOut(Manoeuvre manoeuvre)
    {
        if (RideRecorder.MeasuredSpan(manoeuvre) is not { } span)
            return "";
        string[] left =
        [
            .. Met(manoeuvre).FirstOrDefault(stretch => stretch.From < span.Start) is { To: > 0 } first
                ? [Invariant($"{(first.To <= span.Start ? "the obstacle" : "the beginning of the obstacle")} that the wheels meet at {first.From:0.0#} s")] : Array.Empty<string>(),
            .. manoeuvre.HasCorner ? ["the corner"] : Array.Empty<string>(),
        ];
        return left.Length == 0 ? "" : Invariant($"The ride is measured from {span.Start:0.0#} to {span.End:0.0#} s, without {string.Join(" and ", left)}. ");
    }

    /// <summary>That the ride's figures begin inside an obstacle, and what to do about it, in a sentence; null where they hold each obstacle whole or not at all.</summary>
    /// <param name="manoeuvre">The manoeuvre.</param>
    public static string? BegunInside(Manoeuvre manoeuvre) =>
        RideRecorder.MeasuredSpan(manoeuvre) is { } span && Met(manoeuvre).FirstOrDefault(stretch => stretch.From < span.Start && stretch.To > span.Start) is { To: > 0 } cut
            ? Invariant($"The ride's figures begin at {span.Start:0.0#} s, inside the obstacle that the wheels meet at {cut.From:0.0#} s, so they are of a part of it. Let it begin {Math.Ceiling((span.Start - cut.From) * manoeuvre.Road.Speed):0} m later, and they hold it whole.")
            : null;

    /// <summary>From when to when the wheels are on each stretch of obstacles, s.</summary>
    private static IEnumerable<(double From, double To)> Met(Manoeuvre manoeuvre) => manoeuvre.Road.EventStretches
        .Select(stretch => (From: stretch.From / manoeuvre.Road.Speed, To: stretch.To / manoeuvre.Road.Speed))
        .Where(stretch => stretch.From < manoeuvre.Duration);
}
