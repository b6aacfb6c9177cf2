using System.Collections.Immutable;
using System.Globalization;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Numerics;

namespace RollRide.Scenarios;

/// <summary>Reads what dynamometers record: force–velocity points, or full loops with a run for each speed.</summary>
public static class DynoReader
{
    private const string Run = "run";

    // The largest velocity, m/s, and force, N, of a file; wide enough for any damper, and narrow enough for a unit wrong by 1000. Common practice, no source.
    private const double LeastPeakVelocity = 0.005, LargestVelocity = 20, LeastPeakForce = 5, LargestForce = 1e5;

    // For each quantity its columns by unit, with the factor to SI. One of velocity's and one of force's must be there.
    private static readonly (string Column, double Factor)[] Velocity = [("velocity_m_per_s", 1), ("velocity_mm_per_s", Unit.Millimetre.InSi)];
    private static readonly (string Column, double Factor)[] Force = [("force_N", 1), ("force_kN", Unit.Kilonewton.InSi)];
    private static readonly (string Column, double Factor)[] Time = [("time_s", 1), ("time_ms", Unit.Millisecond.InSi)];
    private static readonly (string Column, double Factor)[] Displacement = [("displacement_m", 1), ("displacement_mm", Unit.Millimetre.InSi)];
    private static readonly (string Column, double Factor)[] CrankAngle = [("crankAngle_deg", 1)];
    private static readonly (string Column, double Factor)[] CrankSpeed = [("crankSpeed_rpm", 6)]; // revolutions a minute to degrees a second

    /// <summary>Reads files and reduces them together to one curve.</summary>
    /// <param name="paths">The files, at least one: all with points, or all with loops.</param>
    /// <param name="options">What the user says about them.</param>
    /// <param name="method">How a point is taken from a loop.</param>
    /// <param name="excludeOutliers">Whether outliers stay out of the curve.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">Something is wrong with a file or with the data in it; each fault with file, line and what is accepted.</exception>
    public static DynoReduction Read(
        IReadOnlyList<string> paths, DynoFileOptions? options = null, DynoMethod method = DynoMethod.PeakVelocity, bool excludeOutliers = false,
        CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(paths);
        ArgumentOutOfRangeException.ThrowIfZero(paths.Count);
        var files = paths.Select(path => ReadFile(path, options ?? new DynoFileOptions(), alone: paths.Count == 1, cancellation)).ToList();
        if (files.Find(file => file.IsLoops != files[0].IsLoops) is { } other)
            throw new DataFileException(new DataFileFault(other.Path, null, null, null, $"some files hold loops and some points; “{files[0].Path}” differs from this one"));
        try
        {
            return files[0].IsLoops
                ? DynoReducer.Reduce([.. files.SelectMany(file => file.Runs())], method, excludeOutliers)
                : DynoReducer.FromPoints([.. files.SelectMany(file => file.Points)], excludeOutliers);
        }
        catch (DynoDataException e)
        {
            throw Located(files, e);
        }
    }

    private static DataFileException Located(List<DynoFile> files, DynoDataException e)
    {
        var source = files.SelectMany(file => file.Spans.Select(span => (File: file, Span: span))).FirstOrDefault(s => s.Span.Name == e.Run);
        return source.File is { } file
            ? new DataFileException(new DataFileFault(file.Path, file.Table.LineOf(source.Span.First + (e.Sample ?? 0)), source.Span.Name, null, e.Reason), e)
            : new DataFileException(new DataFileFault(files[0].Path, null, null, null, e.Message), e);
    }

    private static DynoFile ReadFile(string path, DynoFileOptions options, bool alone, CancellationToken cancellation)
    {
        if (!Path.Exists(path))
            throw new DataFileException(new DataFileFault(path, null, null, null, "there is no such file"));
        var read = DynoTable.Read(path, options, $"a velocity ({Names(Velocity)}) and a force ({Names(Force)})", ColumnsOf, cancellation);
        var (table, declared) = read;
        if (SheetColumns.In(table))
        {
            CurvePoint[] points = [.. SheetColumns.Points(read)];
            return new DynoFile(path, table, null, null, points.Map(point => point.Velocity), points.Map(point => point.Force), false, Spans(path, table, null, null, alone));
        }

        double[] velocity = Required(table, Velocity, declared.Header.Line), force = Required(table, Force, declared.Header.Line);
        var (angle, speed) = (Optional(table, CrankAngle), Optional(table, CrankSpeed));
        if (angle is null != speed is null)
            throw new DataFileException(new DataFileFault(path, declared.Header.Line, angle is null ? CrankSpeed[0].Column : CrankAngle[0].Column, null, "crank angle and crank speed give the time only together"));
        double[]? time = Optional(table, Time), displacement = Optional(table, Displacement);
        if (time is not null && angle is not null)
            throw new DataFileException(new DataFileFault(path, declared.Header.Line, CrankAngle[0].Column, null, "time is given already; crank angle and speed would give it twice"));

        bool loops = time is not null || displacement is not null || angle is not null;

        // The two columns that scenarios read have their sign by definition; everything else must declare it.
        bool ofScenarios = !loops && table.HasColumn(Velocity[0].Column) && table.HasColumn(Force[0].Column) && !table.HasColumn(Run);
        DampingDirection Sign(DampingDirection? given, string key) => given ?? (ofScenarios
            ? DampingDirection.Compression
            : throw new DataFileException(new DataFileFault(path, null, key, null,
                "the file must say which direction is positive: a line '# positive: compression' or '# positive: rebound' above the header (or velocityPositive and forcePositive, where they differ), or the option --positive")));
        double velocitySign = Sign(declared.VelocityPositive, "velocityPositive") == DampingDirection.Compression ? 1 : -1;
        double forceSign = Sign(declared.ForcePositive, "forcePositive") == DampingDirection.Compression ? 1 : -1;
        var spans = Spans(path, table, angle, speed, alone);
        CheckUnit(table, Velocity, LeastPeakVelocity, LargestVelocity, "reach 0.1 to 3 m/s on a dynamometer", "force");
        CheckUnit(table, Force, LeastPeakForce, LargestForce, "give hundreds or thousands of newtons", "velocity");
        return new DynoFile(
            path,
            table,
            time,
            Scaled(displacement, velocitySign),
            Scaled(velocity, velocitySign)!,
            Scaled(force, forceSign)!,
            loops,
            spans);
    }

    private static (IReadOnlyList<string> Required, IReadOnlyList<string> Optional) ColumnsOf(IReadOnlyList<string> header) => SheetColumns.In(header)
        ? SheetColumns.Of(header)
        : ([], [Run, .. new[] { Velocity, Force, Time, Displacement, CrankAngle, CrankSpeed }.SelectMany(q => q).Select(q => q.Column)]);

    /// <summary>Refuses a column whose largest value would be right in its other unit only.</summary>
    private static void CheckUnit(NumericTable table, (string Column, double Factor)[] quantity, double least, double largest, string ordinary, string swappedWith)
    {
        var (column, factor) = quantity.First(q => table.HasColumn(q.Column));
        var values = table.Column(column);
        int row = Enumerable.Range(0, values.Length).MaxBy(i => Math.Abs(values[i]));
        double peak = Math.Abs(values[row]) * factor;
        if (peak >= least && peak <= largest)
            return;
        string other = quantity.First(q => q.Column != column).Column;
        throw new DataFileException(table.FaultAt(
            row, column, $"this is the column's largest value, and dampers {ordinary}: does the unit belong to “{other}”, or is it swapped with the {swappedWith}?"));
    }

    private static string Names((string Column, double Factor)[] quantity) => string.Join(" or ", quantity.Select(q => q.Column));

    private static ImmutableArray<RunSpan> Spans(string path, NumericTable table, double[]? angle, double[]? speed, bool alone)
    {
        double[] runs = table.HasColumn(Run) ? [.. table.Column(Run)] : new double[table.RowCount];
        var spans = ImmutableArray.CreateBuilder<RunSpan>();
        var seen = new HashSet<double>();
        for (int first = 0; first < runs.Length;)
        {
            int end = first;
            while (end < runs.Length && runs[end] == runs[first])
                end++;
            if (!seen.Add(runs[first]))
                throw new DataFileException(table.FaultAt(first, Run, "this run was left before; the rows of a run must stand together"));
            string name = table.HasColumn(Run)
                ? string.Create(CultureInfo.InvariantCulture, $"{(alone ? "" : $"{Path.GetFileName(path)}, ")}run {runs[first]}")
                : Path.GetFileName(path);
            spans.Add(new RunSpan(name, first, end, angle is null ? null : CrankTime(angle[first..end], speed![first..end])));
            first = end;
        }

        return spans.ToImmutable();
    }

    /// <summary>Time from the crank's angle, which starts anew each turn, and its speed in degrees a second.</summary>
    private static double[] CrankTime(double[] angle, double[] speed)
    {
        var time = new double[angle.Length];
        for (int i = 1; i < time.Length; i++)
        {
            double turned = angle[i] - angle[i - 1];
            time[i] = time[i - 1] + (turned < 0 ? turned + 360 : turned) / (0.5 * (speed[i] + speed[i - 1]));
        }

        return time;
    }

    private static double[] Required(NumericTable table, (string Column, double Factor)[] quantity, int headerLine) =>
        Optional(table, quantity)
        ?? throw new DataFileException(new DataFileFault(table.Path, headerLine, null, null, $"one of these columns is needed: {string.Join(", ", quantity.Select(q => q.Column))}"));

    private static double[]? Optional(NumericTable table, (string Column, double Factor)[] quantity)
    {
        var there = quantity.Where(q => table.HasColumn(q.Column)).ToList();
        return there.Count switch
        {
            0 => null,
            1 => [.. table.Column(there[0].Column).Select(value => value * there[0].Factor)],
            _ => throw new DataFileException(new DataFileFault(table.Path, null, there[1].Column, null, $"“{there[0].Column}” gives the same quantity; leave one of them out")),
        };
    }

    private static double[]? Scaled(double[]? values, double factor) => values is null ? null : [.. values.Select(value => factor * value)];

    /// <summary>The rows of one run.</summary>
    private sealed record RunSpan(string Name, int First, int End, double[]? CrankTime);

    private sealed record DynoFile(
        string Path, NumericTable Table, double[]? Time, double[]? Displacement, double[] Velocity, double[] Force, bool IsLoops, ImmutableArray<RunSpan> Spans)
    {
        public IEnumerable<ForceVelocityPoint> Points => Velocity.Zip(Force, (v, f) => new ForceVelocityPoint(v, f));

        public IEnumerable<DynoRun> Runs() => Spans.Select(span => new DynoRun(
            span.Name,
            span.CrankTime ?? Time?[span.First..span.End],
            Displacement?[span.First..span.End],
            Velocity[span.First..span.End],
            Force[span.First..span.End]));
    }
}
