using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Mounting;

namespace RollRide.Metrics;

/// <summary>One time that all tyres of a side were in the air.</summary>
/// <param name="Side">The side.</param>
/// <param name="Start">When it left the road, s.</param>
/// <param name="Duration">How long it was in the air within the run, s.</param>
/// <param name="LateralAcceleration">The lateral acceleration when it left or came back, whichever is larger in size, m/s².</param>
public sealed record WheelLift(Side Side, double Start, double Duration, double LateralAcceleration)
{
    // Below this, in m/s², a driver is going straight; common practice, no source.
    private const double StraightAhead = 0.5;

    /// <summary>Whether the vehicle was cornering: only then is it a step towards rolling over, and not a hop over an obstacle.</summary>
    public bool IsWhileCornering => Math.Abs(LateralAcceleration) > StraightAhead;

    /// <summary>The lifts of both sides, in the order of time, from the spans of time in which each was in the air.</summary>
    internal static ImmutableArray<WheelLift> Of(
        Manoeuvre manoeuvre, IReadOnlyList<(double Start, double End)> left, IReadOnlyList<(double Start, double End)> right)
    {
        if (left.Count + right.Count == 0)
            return [];
        var cursor = manoeuvre.Cornering.CreateCursor();
        var lifts = new WheelLift[left.Count + right.Count];
        for (var i = 0; i < lifts.Length; i++)
        {
            var (side, (start, end)) = i < left.Count ? (Side.Left, left[i]) : (Side.Right, right[i - left.Count]);
            var (off, back) = (LateralAccelerationAt(start), LateralAccelerationAt(end));
            lifts[i] = new WheelLift(side, start, end - start, Math.Abs(off) >= Math.Abs(back) ? off : back);
        }

        return [.. lifts.OrderBy(lift => lift.Start)];

        double LateralAccelerationAt(double time)
        {
            cursor.EnterSegment(manoeuvre.MiddleOfSegment(time));
            return cursor.LateralAcceleration(time);
        }
    }
}
