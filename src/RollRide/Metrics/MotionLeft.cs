using RollRide.Dynamics;

namespace RollRide.Metrics;

/// <summary>Roll motion left over from before when a phase begins.</summary>
/// <param name="Phase">The phase.</param>
/// <param name="Amplitude">
/// Amplitude of the roll motion about the static roll angle at that time, rad: <c>√((φ − φ0)² + (φ̇/ω)²)</c>, ω being the circular frequency of
/// <see cref="RollResponse.RollPeriod"/>.
/// </param>
/// <param name="Share">The same over the size of the change of steady roll in the corner.</param>
public sealed record MotionLeft(Phase Phase, double Amplitude, double Share)
{
    /// <summary>Share of the steady roll above which it is reported: half the width of the band within which roll counts as settled.</summary>
    public const double Reported = 0.05;

    /// <summary>The motion left at the start of a phase; null where the steady roll or its period is not defined.</summary>
    internal static MotionLeft? Of(Phase phase, double roll, double rate, AssembledHalfCar car, Manoeuvre manoeuvre, RollResponse response)
    {
        if (response.RollPeriod is not { } period || response.SteadyAngle - response.AngleBefore is not { } change || change == 0)
            return null;
        if (Standing(car, manoeuvre, phase.Start) is not { } standing)
            return null;
        var amplitude = AmplitudeOf(roll - standing, rate, period);
        return new MotionLeft(phase, amplitude, amplitude / Math.Abs(change));
    }

    /// <summary>The amplitude of a roll motion about a static roll angle, rad.</summary>
    /// <param name="roll">Roll from the static angle, rad.</param>
    /// <param name="rate">Its rate, rad/s.</param>
    /// <param name="period">Period of body roll, s.</param>
    internal static double AmplitudeOf(double roll, double rate, double period) => double.Hypot(roll, rate * period / (2 * Math.PI));

    /// <summary>Body roll of the static solution at a time, on the heights that the road events passed by then leave the wheels at.</summary>
    private static double? Standing(AssembledHalfCar car, Manoeuvre manoeuvre, double time)
    {
        var (road, cornering) = (manoeuvre.Road, manoeuvre.Cornering.CreateCursor());
        cornering.EnterSegment(manoeuvre.MiddleOfSegment(time));
        var (left, right) = (road.Left.HeldSince(road.Speed * time), road.Right.HeldSince(road.Speed * time));
        return StaticEquilibrium.RollAngle(car, cornering.LateralAcceleration(time), left, right);
    }
}
