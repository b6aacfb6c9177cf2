using System.Collections.Concurrent;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>The files that a scenario names, each read once, however many variants of the scenario are made.</summary>
/// <remarks>Thread-safe.</remarks>
internal sealed class ReadDataFiles
{
    private readonly ConcurrentDictionary<string, NumericTable> _tables;
    private readonly ConcurrentDictionary<string, CurveFileTable> _curves;
    private readonly ConcurrentDictionary<string, bool> _exists;
    private readonly ConcurrentDictionary<string, byte[]>? _contents;
    private readonly EditedFiles? _edited;
    private volatile string? _sha256;

    /// <summary>Begins without a file.</summary>
    /// <param name="keepsContents">Whether to keep what the files hold, for the checksums of a text that changes while they do not.</param>
    public ReadDataFiles(bool keepsContents = false) =>
        (_tables, _curves, _exists, _contents) = (new(), new(), new(), keepsContents ? new() : null);

    private ReadDataFiles(ReadDataFiles read, EditedFiles edited) =>
        (_tables, _curves, _exists, _contents, _edited) = (read._tables, read._curves, read._exists, read._contents, edited);

    /// <summary>Every file asked for so far, there or not.</summary>
    public IEnumerable<string> Asked => _exists.Keys;

    /// <summary>The same files, for a text that was edited: with those that stand in memory alone, and with a guard against files that the text may not name.</summary>
    /// <param name="edited">Both.</param>
    public ReadDataFiles With(EditedFiles edited) => new(this, edited);

    /// <summary>Why a file may not be read; null where it may.</summary>
    /// <param name="path">The key that names it.</param>
    /// <param name="name">The file as named there.</param>
    public string? WhyRefused(string path, string name) => _edited?.WhyRefused(path, name);

    /// <summary>Whether a file, or anything else of its name, was there when first asked for. No file can have a name with a null character.</summary>
    public bool Exists(string path) => Added(path) is not null || (!path.Contains('\0') && _exists.GetOrAdd(path, Path.Exists));

    /// <summary>A CSV file, read when first asked for.</summary>
    public NumericTable Table(string path, IReadOnlyList<string> required, IReadOnlyList<string>? optional, CancellationToken cancellation) =>
        _tables.GetOrAdd($"{path}\n{string.Join(',', required)}\n{string.Join(',', optional ?? [])}", _ => NumericTable.Read(path, required, optional, cancellation: cancellation));

    /// <summary>A file with a damper's curve, read when first asked for.</summary>
    public CurveFileTable Curve(string path, CancellationToken cancellation) => Added(path)?.Table ?? _curves.GetOrAdd(path, _ => CurveFileTable.Read(path, cancellation));

    /// <summary>What a file holds.</summary>
    public byte[] Content(string path, CancellationToken cancellation) => Added(path)?.Utf8
        ?? _contents?.GetOrAdd(path, _ => InputFile.ReadAllBytes(path, cancellation))
        ?? InputFile.ReadAllBytes(path, cancellation);

    /// <summary>The checksum of the scenario as it stands in its file, computed when first asked for.</summary>
    public string Sha256(Func<string> compute) => _sha256 ??= compute();

    private AddedCurve? Added(string path) => _edited?.Added.GetValueOrDefault(path);
}
