using System.Collections.Concurrent;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>The files that a scenario names, each read once, however many variants of the scenario are made.</summary>
/// <remarks>Thread-safe.</remarks>
internal sealed class ReadDataFiles
{
    private readonly ConcurrentDictionary<string, NumericTable> _tables = new();
    private readonly ConcurrentDictionary<string, CurveFileTable> _curves = new();
    private readonly ConcurrentDictionary<string, bool> _exists = new();
    private volatile string? _sha256;

    /// <summary>Whether a file, or anything else of its name, was there when first asked for.</summary>
    public bool Exists(string path) => _exists.GetOrAdd(path, Path.Exists);

    /// <summary>A CSV file, read when first asked for.</summary>
    public NumericTable Table(string path, IReadOnlyList<string> required, IReadOnlyList<string>? optional, CancellationToken cancellation) =>
        _tables.GetOrAdd($"{path}\n{string.Join(',', required)}\n{string.Join(',', optional ?? [])}", _ => NumericTable.Read(path, required, optional, cancellation: cancellation));

    /// <summary>A file with a damper's curve, read when first asked for.</summary>
    public CurveFileTable Curve(string path, CancellationToken cancellation) => _curves.GetOrAdd(path, _ => CurveFileTable.Read(path, cancellation));

    /// <summary>The checksum of the scenario as it stands in its file, computed when first asked for.</summary>
    public string Sha256(Func<string> compute) => _sha256 ??= compute();
}
