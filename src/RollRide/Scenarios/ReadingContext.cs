using System.Security.Cryptography;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>What the parts of the reader share: the file, and the faults and warnings found so far.</summary>
internal sealed class ReadingContext
{
    private readonly BoundDocument<ScenarioFile> _document;
    private readonly string _folder;
    private readonly List<string> _warnings = [];
    private readonly SortedSet<string> _dataFiles = new(StringComparer.Ordinal);

    public ReadingContext(BoundDocument<ScenarioFile> document)
    {
        _document = document;
        _folder = Path.GetDirectoryName(document.File) ?? "";
    }

    public ScenarioFile File => _document.Value;

    public FaultList Faults { get; } = new();

    public IReadOnlyList<string> Warnings => _warnings;

    /// <summary>Notes a fault at a key.</summary>
    public void Refuse(string path, FormattableString reason) =>
        Faults.Add(_document.FaultAt(path, FormattableString.Invariant(reason)));

    /// <summary>Where a key stands, to be added to a message about another one: " (line 12)".</summary>
    public string LineOf(string path) =>
        _document.FaultAt(path, "").Line is { } line ? FormattableString.Invariant($" (line {line})") : "";

    /// <summary>Notes something possible but not plausible at a key.</summary>
    public void Warn(string path, FormattableString reason) =>
        _warnings.Add(_document.FaultAt(path, FormattableString.Invariant(reason)).ToString());

    /// <summary>Makes something of the values at a key; what it refuses becomes a fault there, and null comes back.</summary>
    public T? Make<T>(string path, Func<T?> make)
        where T : class
    {
        try
        {
            return make();
        }
        catch (DataFileException e)
        {
            foreach (var fault in e.Faults)
                Faults.Add(fault);
        }
        catch (ArgumentException e)
        {
            // The framework appends the parameter's name, which means nothing to whoever wrote the file.
            var name = e.ParamName is null ? "" : $" (Parameter '{e.ParamName}')";
            var reason = e.Message.Split('\n')[0].Replace(name, "", StringComparison.Ordinal).Trim();
            Faults.Add(_document.FaultAt(path, reason));
        }

        return null;
    }

    /// <summary>Reads a CSV file that the scenario names at a key, from the scenario's folder.</summary>
    public NumericTable? Table(string path, string name, IReadOnlyList<string> required, IReadOnlyList<string>? optional = null)
    {
        var full = Path.Combine(_folder, name);
        if (!System.IO.File.Exists(full))
        {
            Refuse(path, $"there is no such file beside the scenario; the path counts from the scenario's folder");
            return null;
        }

        return Make(path, () =>
        {
            var table = NumericTable.Read(full, required, optional);
            _dataFiles.Add(full);
            return table;
        });
    }

    /// <summary>SHA-256 over the scenario file and every data file it names.</summary>
    public string Sha256()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(System.IO.File.ReadAllBytes(_document.File));
        foreach (var file in _dataFiles)
            hash.AppendData(System.IO.File.ReadAllBytes(file));
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <summary>Requires two lists of the same length.</summary>
    public bool SameLength(string path, IReadOnlyList<double> first, IReadOnlyList<double> second)
    {
        if (first.Count == second.Count)
            return true;
        Refuse(path, $"there are {first.Count} values of the one and {second.Count} of the other; each point needs both");
        return false;
    }
}
