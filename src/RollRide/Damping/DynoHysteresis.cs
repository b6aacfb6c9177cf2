namespace RollRide.Damping;

/// <summary>How wide a loop is: the difference in force between speeding up and slowing down at the same velocity, the gas spring taken out.</summary>
internal static class DynoHysteresis
{
    /// <summary>The widest place of loops of one speed, N.</summary>
    /// <param name="cycles">The loops.</param>
    /// <param name="gasRate">Stiffness of the gas, N/m.</param>
    public static double Of(IReadOnlyList<DynoCycle> cycles, double gasRate)
    {
        double widest = 0;
        foreach (int direction in (ReadOnlySpan<int>)[DynoReducer.Compression, DynoReducer.Rebound])
        {
            for (int tenth = 2; tenth <= 8; tenth++)
            {
                double speedingUp = MeanForce(cycles, direction, tenth / 10.0, gasRate, speedsUp: true);
                double slowingDown = MeanForce(cycles, direction, tenth / 10.0, gasRate, speedsUp: false);
                if (Math.Abs(speedingUp - slowingDown) > widest)
                    widest = Math.Abs(speedingUp - slowingDown);
            }
        }

        return widest;
    }

    /// <summary>Mean force, gas spring taken out, of the samples within 5 % of the peak around a share of it; NaN if there are none.</summary>
    private static double MeanForce(IReadOnlyList<DynoCycle> cycles, int direction, double share, double gasRate, bool speedsUp)
    {
        var (sum, count) = (0.0, 0);
        foreach (var cycle in cycles)
        {
            double peak = cycle.Samples(direction).Max(i => Math.Abs(cycle.Velocity[i]));
            foreach (int i in cycle.Samples(direction))
            {
                // Before mid-stroke the piston of a crank speeds up.
                double beyondMid = cycle.Displacement[i] - cycle.MidStroke;
                if (Math.Abs(Math.Abs(cycle.Velocity[i]) / peak - share) > 0.05 || (direction * beyondMid < 0) != speedsUp)
                    continue;
                sum += cycle.Force[i] - gasRate * beyondMid;
                count++;
            }
        }

        return count == 0 ? double.NaN : sum / count;
    }
}
