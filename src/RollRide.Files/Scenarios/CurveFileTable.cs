using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>
/// The points of a force–velocity curve in a file that a scenario names, by ascending velocity whatever their order in the file: either velocity and
/// force, compression positive, or the workshop's valving sheet.
/// </summary>
/// <param name="Table">The table.</param>
/// <param name="Points">The points, by ascending velocity, no velocity twice.</param>
/// <param name="Tolerance">Tolerance of the forces that the file names; null for none.</param>
internal sealed record CurveFileTable(NumericTable Table, ImmutableArray<CurvePoint> Points, ForceTolerance? Tolerance)
{
    private const string Velocity = "velocity_m_per_s", Force = "force_N";

    private const string Advice = "rollride damper turns files with other columns, units, separators or decimal commas into one that fits here";

    /// <summary>What the file says about itself.</summary>
    public DynoDeclarations Declared { get; private init; } = new();

    /// <summary>Reads a file.</summary>
    /// <param name="path">The file's path.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">The file does not have this form, or two of its rows contradict each other.</exception>
    public static CurveFileTable Read(string path, CancellationToken cancellation) => Of(ReadTable(path, cancellation));

    /// <summary>The same file with other numbers.</summary>
    /// <param name="table">The numbers.</param>
    /// <exception cref="DataFileException">A number is beyond its limits, or two rows contradict each other.</exception>
    public CurveFileTable With(NumericTable table) => Of(new DynoTable(table, Declared));

    private static CurveFileTable Of(DynoTable read)
    {
        var (path, table) = (read.Table.Path, read.Table);
        if (SheetColumns.In(table))
            return new CurveFileTable(table, InOrder(table, SheetColumns.Points(read).Append(new CurvePoint(0, 0, 0, SheetColumns.SpeedOf(table), SheetColumns.Compression))), SheetColumns.ToleranceOf(table)) { Declared = read.Declared };
        if (read.Declared.VelocityPositive == DampingDirection.Rebound || read.Declared.ForcePositive == DampingDirection.Rebound)
            throw new DataFileException(new DataFileFault(path, null, "positive", "rebound", "a scenario reads these two columns with compression positive; rollride damper converts the file"));
        return OfRuns(table) with { Declared = read.Declared };
    }

    /// <summary>Takes the points of a table of velocity and force.</summary>
    /// <param name="table">The table.</param>
    /// <exception cref="DataFileException">A number is beyond its limits, or two rows contradict each other.</exception>
    public static CurveFileTable OfRuns(NumericTable table)
    {
        TableLimits.Require(table);
        var (velocities, forces) = (table.Column(Velocity), table.Column(Force));
        return new CurveFileTable(table, InOrder(table, velocities.Select((velocity, row) => new CurvePoint(velocity, forces[row], row, Velocity, Force))), null);
    }

    /// <summary>A fault at the velocity of a point.</summary>
    public DataFileFault FaultAtVelocity(int point, string reason) => Table.FaultAt(Points[point].Row, Points[point].VelocityColumn, reason);

    /// <summary>A fault at the force of a point.</summary>
    public DataFileFault FaultAtForce(int point, string reason) => Table.FaultAt(Points[point].Row, Points[point].ForceColumn, reason);

    private static DynoTable ReadTable(string path, CancellationToken cancellation)
    {
        try
        {
            return DynoTable.Read(path, new DynoFileOptions(), $"{Velocity} and {Force}", header => SheetColumns.In(header) ? SheetColumns.Of(header) : ([Velocity, Force], []), cancellation);
        }
        catch (DataFileException e)
        {
            throw new DataFileException([e.Faults[0] with { Reason = $"{e.Faults[0].Reason}; {Advice}" }, .. e.Faults.Skip(1)], e);
        }
    }

    private static ImmutableArray<CurvePoint> InOrder(NumericTable table, IEnumerable<CurvePoint> points)
    {
        var inOrder = ImmutableArray.CreateBuilder<CurvePoint>();
        foreach (var point in points.OrderBy(point => point.Velocity))
        {
            if (inOrder.Count == 0 || inOrder[^1].Velocity != point.Velocity)
                inOrder.Add(point);
            else if (inOrder[^1] is var same && same.Force != point.Force)
                throw new DataFileException(table.FaultAt(point.Row, point.ForceColumn, FormattableString.Invariant($"line {table.LineOf(same.Row)} gives {Math.Abs(same.Force)} N at the same velocity; one of the two is wrong (rollride damper takes the mean of repeated runs)")));
        }

        return inOrder.ToImmutable();
    }
}

/// <summary>A point of a curve, and where it stands in its file.</summary>
/// <param name="Velocity">Velocity, m/s, positive in compression.</param>
/// <param name="Force">Force, N, positive in compression.</param>
/// <param name="Row">Row of the table.</param>
/// <param name="VelocityColumn">Column of the velocity.</param>
/// <param name="ForceColumn">Column of the force.</param>
internal sealed record CurvePoint(double Velocity, double Force, int Row, string VelocityColumn, string ForceColumn);
