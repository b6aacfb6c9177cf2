using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using RollRide.DataFiles;
using RollRide.Sweeps;

namespace RollRide.Results;

/// <summary>
/// The table of a sweep, or of a share of it, and the record of what was asked for: <c>sweep.csv</c> and <c>sweep-plan.json</c>.
/// One row per variant and layout: its numbers, why it failed if it did, its inputs, its outputs.
/// </summary>
/// <remarks>
/// Rows are appended in order, each on one line, so that a table cut off at any byte is right up to its last whole line: the sweep can be
/// resumed from there, and shares are joined by appending one to the other.
/// </remarks>
public sealed class SweepTable
{
    private const string Unfinished = ".unfinished";

    // Longest time between writes to the disk: a power cut loses no more than the rows of that time.
    private static readonly TimeSpan DiskInterval = TimeSpan.FromSeconds(5);
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    private readonly SweepPlan _plan;
    private readonly string _record;
    private readonly SweepTableFormat _format;
    private SweepColumns? _kept;
    private long _keptEnd;

    /// <summary>Names the files of a sweep's table; touches none.</summary>
    /// <param name="folder">The folder.</param>
    /// <param name="plan">The plan.</param>
    /// <param name="share">The share.</param>
    public SweepTable(string folder, SweepPlan plan, SweepShare share)
    {
        ArgumentNullException.ThrowIfNull(plan);
        ArgumentNullException.ThrowIfNull(share);
        (_plan, Share) = (plan, share);
        _record = SweepRecord.Write(plan, share);
        FileName = $"sweep{share.Suffix}.csv";
        RecordName = $"sweep-plan{share.Suffix}.json";
        FullPath = Path.Combine(folder, FileName);
        RecordPath = Path.Combine(folder, RecordName);
        _format = new SweepTableFormat(plan);
    }

    /// <summary>The share whose table it is.</summary>
    public SweepShare Share { get; }

    /// <summary>Name of the table's file.</summary>
    public string FileName { get; }

    /// <summary>Name of the record's file.</summary>
    public string RecordName { get; }

    /// <summary>Path of the table.</summary>
    public string FullPath { get; }

    /// <summary>Path of the record.</summary>
    public string RecordPath { get; }

    /// <summary>The first variant of the share.</summary>
    public long First => Share.First(_plan.VariantCount);

    /// <summary>The variant after the last of the share.</summary>
    public long End => Share.End(_plan.VariantCount);

    /// <summary>Makes the table ready for rows: a new one, or an unfinished one less the rows of a variant that is not whole.</summary>
    /// <param name="resume">Whether to continue an existing table.</param>
    /// <param name="overwrite">Whether to discard existing rows, whatever they are.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <returns>The first variant that is missing.</returns>
    /// <exception cref="DataFileException">
    /// Rows are there that would be lost: those of another sweep, or, without <paramref name="resume"/>, those of this one unfinished.
    /// </exception>
    public long Prepare(bool resume, bool overwrite = false, CancellationToken cancellation = default)
    {
        if (!overwrite)
            RequireNothingLost(resume, cancellation);
        if (File.Exists(RecordPath) && File.Exists(FullPath))
        {
            var (next, length) = File.ReadAllText(RecordPath) == _record ? Measure(cancellation) : (First, 0);
            if (resume && length > 0)
            {
                using var table = new FileStream(FullPath, FileMode.Open, FileAccess.Write);
                table.SetLength(length);
                return next;
            }
        }

        PutInPlace(table =>
        {
            using var output = new StreamWriter(table, append: false, Utf8) { NewLine = "\n" };
            using var header = new CsvTableWriter(output, _format.Columns);
        });
        return First;
    }

    /// <summary>Writes table and record aside and puts them in place when both are whole: until then an older sweep stays as it was.</summary>
    private void PutInPlace(Action<string> writeTable)
    {
        var (table, record) = (FullPath + Unfinished, RecordPath + Unfinished);
        try
        {
            using var folders = new NewFolders(Path.GetDirectoryName(Path.GetFullPath(FullPath))!);
            try
            {
                writeTable(table);
                AtomicFile.WriteText(record, output => output.Write(_record));
                // In this order a table never stands beside a record that is not its own.
                File.Delete(FullPath);
                File.Move(record, RecordPath, overwrite: true);
                File.Move(table, FullPath);
                folders.Keep();
            }
            finally
            {
                foreach (var left in (string[])[table, record])
                {
                    if (File.Exists(left)) File.Delete(left);
                }
            }
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            throw WriteFault.Of($"The table of the sweep “{FullPath}”", e);
        }
    }

    /// <summary>Writes rows as they stand in the table. Thread-safe.</summary>
    /// <param name="results">Variants in a row.</param>
    public StringBuilder RowsOf(ImmutableArray<VariantResult> results) => _format.RowsOf(results);

    /// <summary>Appends rows.</summary>
    /// <param name="from">The first variant that is missing.</param>
    /// <param name="write">Is given what appends variants, in order, with their rows as <see cref="RowsOf"/> writes them.</param>
    /// <param name="clock">Tells when rows are due on the disk itself: every five seconds. Without one they are at the end only.</param>
    /// <exception cref="IOException">The table cannot be written, for example because the disk is full; the variants before stay in it.</exception>
    public void Append(long from, Action<Action<ImmutableArray<VariantResult>, StringBuilder>> write, TimeProvider? clock = null)
    {
        ArgumentNullException.ThrowIfNull(write);
        // A table that is written in one go, and is not too large, need not be read again for its statistics.
        _kept = from == First && RowCount * _plan.Metrics.Length <= SweepAnalysis.MostNumbersAtOnce ? SweepColumns.Of(_plan.Metrics.Length, (int)RowCount) : null;
        try
        {
            using var file = new FileStream(FullPath, FileMode.Append, FileAccess.Write, FileShare.Read, bufferSize: 0);
            using var output = new StreamWriter(file, Utf8) { NewLine = "\n" };
            var flushed = clock?.GetTimestamp() ?? 0;
            try
            {
                write((results, rows) =>
                {
                    output.Write(rows);
                    output.Flush();
                    if (clock?.GetElapsedTime(flushed) >= DiskInterval)
                    {
                        FlushToDisk(file);
                        flushed = clock.GetTimestamp();
                    }

                    foreach (var result in results)
                        Keep(result);
                });
            }
            finally
            {
                FlushToDisk(file);
            }
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            throw WriteFault.Of($"The table of the sweep “{FullPath}”", e);
        }
    }

    /// <summary>Runs what is missing and appends it.</summary>
    /// <param name="from">The first variant that is missing.</param>
    /// <param name="threads">Threads that run variants; the table does not depend on how many there are.</param>
    /// <param name="progress">Is told the number of the share's variants done.</param>
    /// <param name="clock">Tells when rows are due on the disk, see <see cref="Append"/>.</param>
    /// <param name="cancellation">Stops the sweep; the table then ends with a whole variant.</param>
    /// <exception cref="OperationCanceledException">It was stopped.</exception>
    /// <exception cref="IOException">The table cannot be written; the variants before stay in it.</exception>
    public void Fill(long from, int threads, IProgress<long>? progress = null, TimeProvider? clock = null, CancellationToken cancellation = default) =>
        Append(from, append => SweepRun.Run(_plan, from, End, threads, RowsOf, (results, rows) =>
        {
            append(results, rows);
            progress?.Report(results[^1].Variant + 1 - First);
        }, cancellation), clock);

    /// <summary>Takes statistics, influences and targets from the table of the whole sweep.</summary>
    /// <param name="cancellation">Stops it.</param>
    public SweepAnalysis Analyse(CancellationToken cancellation = default) => SweepAnalysis.Of(_plan, metrics => Read(metrics, cancellation), cancellation);

    /// <summary>How often rows were forced to the disk.</summary>
    internal int DiskFlushes { get; private set; }

    private void FlushToDisk(FileStream file)
    {
        file.Flush(flushToDisk: true);
        DiskFlushes++;
    }

    private void Keep(VariantResult result)
    {
        if (_kept is null)
            return;
        _kept.Take(result, First);
        _keptEnd = result.Variant + 1;
    }

    /// <summary>Requires that the table is there, of this plan and whole.</summary>
    /// <param name="cancellation">Stops it.</param>
    /// <exception cref="DataFileException">It is not.</exception>
    public void RequireWhole(CancellationToken cancellation = default)
    {
        if (!File.Exists(FullPath) || !File.Exists(RecordPath))
        {
            throw Fault(FullPath, SweepTableScan.SharesFound(Path.GetDirectoryName(Path.GetFullPath(FullPath))!) is { Length: > 0 } found && !found.Contains(Share.Of)
                ? string.Create(CultureInfo.InvariantCulture, $"share {Share} is missing; there are shares of {string.Join(" and of ", found)}: give --parts {found[0]}")
                : $"share {Share} is missing: run it with --part {Share}");
        }

        var older = File.ReadAllText(RecordPath);
        if (older != _record)
            throw Fault(RecordPath, $"share {Share} is not of this sweep: {SweepRecord.Difference(older, _record)}");
        var (next, _) = Measure(cancellation);
        if (next < End)
            throw Fault(FullPath, string.Create(CultureInfo.InvariantCulture, $"share {Share} has {next - First} of {End - First} variants: finish it with --part {Share} --resume"));
    }

    /// <summary>Joins the tables of all shares to this one, that of the whole.</summary>
    /// <param name="shares">The tables, in order.</param>
    /// <param name="overwrite">Whether to throw away rows of another sweep that are there.</param>
    /// <param name="cancellation">Stops it.</param>
    /// <exception cref="DataFileException">A share is missing, not whole, or of another sweep, or rows of another sweep would be lost.</exception>
    public void Join(IReadOnlyList<SweepTable> shares, bool overwrite = false, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(shares);
        if (!overwrite)
            RequireNothingLost(resume: true, cancellation);
        foreach (var share in shares)
            share.RequireWhole(cancellation);
        PutInPlace(table =>
        {
            using var output = File.Create(table);
            for (var i = 0; i < shares.Count; i++)
            {
                using var input = InputFile.Open(shares[i].FullPath, cancellation);
                if (i > 0)
                    SweepTableScan.SkipLine(input);
                input.CopyTo(output);
            }
        });
    }

    /// <summary>The number of rows of a whole table.</summary>
    internal long RowCount => (End - First) * _plan.Layouts.Length;

    /// <summary>Reads output columns of a whole table.</summary>
    /// <param name="metrics">Their places among the plan's metrics.</param>
    /// <param name="cancellation">Stops it.</param>
    internal SweepColumns Read(IReadOnlyList<int> metrics, CancellationToken cancellation = default)
    {
        if (_kept is { } kept && _keptEnd == End)
            return kept with { Metrics = [.. metrics.Select(metric => kept.Metrics[metric])] };
        return _format.Read(FullPath, metrics, checked((int)RowCount), cancellation);
    }

    /// <summary>Refuses to replace rows that this sweep would not write again, or, unless it resumes, has not finished.</summary>
    private void RequireNothingLost(bool resume, CancellationToken cancellation)
    {
        if (!File.Exists(FullPath) || !SweepTableScan.HasRows(FullPath, cancellation))
            return;
        var older = File.Exists(RecordPath) ? File.ReadAllText(RecordPath) : null;
        if (older != _record)
        {
            var difference = older is null ? "nothing is there to say what they belong to" : SweepRecord.Difference(older, _record);
            throw Fault(FullPath, $"rows of another sweep are there: {difference}. Give another folder with --out, or --overwrite to throw them away");
        }

        if (!resume && Measure(cancellation) is var (next, _) && next < End)
        {
            throw Fault(FullPath, string.Create(
                CultureInfo.InvariantCulture,
                $"{next - First} of {End - First} variants of this sweep are there: go on with --resume, or begin anew with --overwrite"));
        }
    }

    private (long Next, long Length) Measure(CancellationToken cancellation) => SweepTableScan.Measure(FullPath, First, End, _plan.Layouts.Length, cancellation);

    private static DataFileException Fault(string file, string reason) => new(new DataFileFault(file, null, null, null, reason));
}
