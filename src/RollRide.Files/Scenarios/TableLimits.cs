using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>What the columns of tables beside a scenario may hold: as wide as anything that was measured, and no wider.</summary>
internal static class TableLimits
{
    // s: as the longest run.
    private const double LongestBefore = 7200;

    // By column: limits, and why beyond them something is wrong. Common practice, no source.
    private static readonly Dictionary<string, (double Lowest, double Highest, string Reason)> Columns = new(StringComparer.Ordinal)
    {
        ["time_s"] = (-LongestBefore, 1_000_000, "times count from the start of the run, and what comes before it is followed from the first row"),
        ["lateralAcceleration_m_per_s2"] = (-1000, 1000, "no vehicle corners at 100 times its weight"),
        ["steeringWheelAngle_deg"] = (-10_000, 10_000, "no steering wheel turns so often"),
        ["distance_m"] = (-10_000_000, 10_000_000, "no run leads so far"),
        ["left_mm"] = (-10_000_000, 10_000_000, "no road lies so high or so low"),
        ["right_mm"] = (-10_000_000, 10_000_000, "no road lies so high or so low"),
        ["velocity_m_per_s"] = (-1000, 1000, "no damper moves so fast"),
        [SheetColumns.Speed] = (0, 1000, "a speed has no sign here, and no damper moves so fast"),
        [SheetColumns.SpeedInMillimetres] = (0, 1_000_000, "a speed has no sign here, and no damper moves so fast"),
        [SheetColumns.Compression] = (-10_000_000, 10_000_000, "no damper of a vehicle gives such a force"),
        [SheetColumns.Rebound] = (-10_000_000, 10_000_000, "no damper of a vehicle gives such a force"),
        [SheetColumns.Tolerance] = (0.1, 50, "it counts either way, in per cent of the force"),
        ["force_N"] = (-10_000_000, 10_000_000, "no damper of a vehicle gives such a force"),
    };

    /// <summary>Refuses the first number that lies beyond the limits of its column.</summary>
    /// <exception cref="DataFileException">There is such a number.</exception>
    public static void Require(NumericTable table)
    {
        foreach (var (column, (lowest, highest, reason)) in Columns)
        {
            if (!table.HasColumn(column))
                continue;
            var values = table.Column(column);
            for (var row = 0; row < values.Length; row++)
            {
                if (values[row] >= lowest && values[row] <= highest)
                    continue;
                throw new DataFileException(table.FaultAt(row, column, FormattableString.Invariant($"a number from {lowest} to {highest} is expected: {reason}; is it in the unit that the column names?")));
            }
        }
    }
}
