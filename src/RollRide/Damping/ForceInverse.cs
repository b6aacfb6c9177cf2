namespace RollRide.Damping;

/// <summary>Finds the velocity at which a rising force law gives a force.</summary>
internal static class ForceInverse
{
    // Newton's iteration settles in a handful of steps; halving takes over should a kinked curve make it wander.
    private const int NewtonSteps = 40;

    private const double MachineEpsilon = 2.220446049250313e-16;

    /// <summary>
    /// Newton's iteration kept inside a shrinking bracket, to machine precision of the force. Allocates nothing.
    /// </summary>
    /// <param name="law">A strictly increasing force law.</param>
    /// <param name="force">The force wanted, N; finite.</param>
    /// <param name="low">A velocity at or below the answer, m/s.</param>
    /// <param name="high">A velocity at or above the answer, m/s.</param>
    /// <param name="start">First guess in the bracket, m/s.</param>
    public static double Velocity<TLaw>(TLaw law, double force, double low, double high, double start)
        where TLaw : IForceLaw
    {
        // A few roundings of the force itself: closer than this the sign of the remainder means nothing.
        double forceRounding = 4 * MachineEpsilon * Math.Abs(force);
        double velocity = start;
        for (int step = 0; ; step++)
        {
            double excess = law.Force(velocity) - force;
            if (Math.Abs(excess) <= forceRounding)
                return velocity;

            if (excess > 0)
                high = velocity;
            else
                low = velocity;

            double next = velocity - excess / law.Slope(velocity);
            if (step >= NewtonSteps || !(next > low && next < high))
                next = low + (high - low) / 2;
            if (Math.Abs(next - velocity) <= MachineEpsilon * Math.Abs(velocity))
                return next;
            velocity = next;
        }
    }
}
