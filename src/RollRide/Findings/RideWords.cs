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
}
