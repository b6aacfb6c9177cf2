using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Numerics;

namespace RollRide.Scenarios;

/// <summary>
/// The workshop's valving sheet as a table: one row per test speed, with the force of either direction. Both count as positive numbers, unless a
/// line <c># positive: compression</c> or <c># positive: rebound</c> says that the other direction's forces are negative.
/// </summary>
internal static class SheetColumns
{
    public const string Speed = "speed_m_per_s", SpeedInMillimetres = "speed_mm_per_s", Compression = "compression_N", Rebound = "rebound_N", Tolerance = "tolerance_percent";

    /// <summary>Whether a header is that of a sheet.</summary>
    public static bool In(IReadOnlyList<string> header) => header.Contains(Speed) || header.Contains(SpeedInMillimetres);

    /// <summary>Whether a table is that of a sheet.</summary>
    public static bool In(NumericTable table) => table.HasColumn(Speed) || table.HasColumn(SpeedInMillimetres);

    /// <summary>The columns that a sheet with such a header must have and may have.</summary>
    public static (IReadOnlyList<string> Required, IReadOnlyList<string> Optional) Of(IReadOnlyList<string> header) =>
        ([header.Contains(Speed) ? Speed : SpeedInMillimetres, Compression, Rebound], [SpeedInMillimetres, Tolerance]);

    /// <summary>The column of the speeds.</summary>
    public static string SpeedOf(NumericTable table) => table.HasColumn(Speed) ? Speed : SpeedInMillimetres;

    /// <summary>The points of a sheet's curve: two for each row of a speed above 0.</summary>
    /// <exception cref="DataFileException">The speed is given twice, or a force has the wrong sign; the fault is at its line.</exception>
    public static IEnumerable<CurvePoint> Points(DynoTable sheet)
    {
        var (table, positive) = (sheet.Table, sheet.Declared.ForcePositive);
        if (table.HasColumn(Speed) && table.HasColumn(SpeedInMillimetres))
            throw new DataFileException(new DataFileFault(table.Path, sheet.Declared.Header.Line, SpeedInMillimetres, null, $"“{Speed}” gives the same quantity; leave one of them out"));
        TableLimits.Require(table);
        var speedColumn = SpeedOf(table);
        var factor = speedColumn == Speed ? 1 : Unit.Millimetre.InSi;
        var speeds = table.Column(speedColumn);
        for (var row = 0; row < speeds.Length; row++)
        {
            var (compression, rebound) = (Resisting(table, row, Compression, positive == DampingDirection.Rebound, positive), Resisting(table, row, Rebound, positive == DampingDirection.Compression, positive));
            if (speeds[row] == 0 && (compression != 0 || rebound != 0))
                throw new DataFileException(table.FaultAt(row, compression != 0 ? Compression : Rebound, "a damper at rest gives no force of its valves; at speed 0 both forces are 0"));
            if (speeds[row] == 0)
                continue;
            yield return new CurvePoint(speeds[row] * factor, compression, row, speedColumn, Compression);
            yield return new CurvePoint(-speeds[row] * factor, -rebound, row, speedColumn, Rebound);
        }
    }

    /// <summary>The tolerance of the forces at each speed; null where the sheet names none.</summary>
    /// <exception cref="DataFileException">A speed has two.</exception>
    public static ForceTolerance? ToleranceOf(NumericTable table)
    {
        if (!table.HasColumn(Tolerance))
            return null;
        var (speeds, shares) = (table.Column(SpeedOf(table)), table.Column(Tolerance));
        var factor = SpeedOf(table) == Speed ? 1 : Unit.Millimetre.InSi;
        var rows = new SortedDictionary<double, int>();
        for (var row = 0; row < shares.Length; row++)
        {
            if (!rows.TryAdd(speeds[row], row) && shares[rows[speeds[row]]] != shares[row])
                throw new DataFileException(table.FaultAt(row, Tolerance, FormattableString.Invariant($"line {table.LineOf(rows[speeds[row]])} has {shares[rows[speeds[row]]]} % at the same speed; give one")));
        }

        return new ForceTolerance([.. rows.Keys.Select(speed => speed * factor)], [.. rows.Values.Select(row => shares[row] * Unit.Percent.InSi)]);
    }

    /// <summary>A force as a positive number.</summary>
    private static double Resisting(NumericTable table, int row, string column, bool isNegative, DampingDirection? positive)
    {
        var force = isNegative ? -table.Column(column)[row] : table.Column(column)[row];
        if (force >= 0)
            return force;
        throw new DataFileException(table.FaultAt(row, column, positive is { } way
            ? $"the line '# positive: {(way == DampingDirection.Compression ? "compression" : "rebound")}' makes forces of this column {(isNegative ? "negative" : "positive")}; a damper resists in both directions"
            : "both directions are written as positive numbers, unless a line '# positive: compression' or '# positive: rebound' above the header says that the other one is negative"));
    }
}
