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
        var stretches = manoeuvre.Road.EventStretches.Select(stretch => (From: stretch.From / manoeuvre.Road.Speed, To: stretch.To / manoeuvre.Road.Speed)).Where(stretch => stretch.From < manoeuvre.Duration).ToArray();
        string[] left =
        [
            .. stretches.FirstOrDefault(stretch => stretch.From < span.Start) is { To: > 0 } first
                ? [Invariant($"{(first.To <= span.Start ? "the obstacle" : "the beginning of the obstacle")} that the wheels meet at {first.From:0.0#} s")] : Array.Empty<string>(),
            .. manoeuvre.HasCorner ? ["the corner"] : Array.Empty<string>(),
        ];
        return left.Length == 0 ? "" : Invariant($"The ride is measured from {span.Start:0.0#} to {span.End:0.0#} s, without {string.Join(" and ", left)}. ");
    }
}
