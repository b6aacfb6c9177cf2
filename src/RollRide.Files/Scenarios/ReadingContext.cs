using System.Collections.Immutable;
using System.Security.Cryptography;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>What the parts of the reader share: the file, and the faults and warnings found so far.</summary>
internal sealed class ReadingContext
{
    private readonly BoundDocument<ScenarioFile> _document;
    private readonly Func<string, string> _written = path => path;
    private readonly string _folder;
    private readonly Lazy<Dictionary<string, Damper?>> _dampers;
    private readonly Lazy<AxleGeometry?> _geometry;
    private readonly Lazy<(TravelStop? Bump, TravelStop? Rebound)> _stops;
    private readonly Lazy<(TravelStop? Bump, TravelStop? Rebound)> _rightStops;
    private readonly Lazy<PackagingSpace?> _packaging;
    private readonly Lazy<PlacementBands?> _designBands;
    private readonly Lazy<PlacementBands?> _bands;
    private readonly Lazy<HalfCar?> _vehicle;
    private readonly Lazy<ImmutableArray<LoadState>> _loads;
    private readonly List<string> _warnings = [];
    private readonly HashSet<DataFileFault> _noted = [];
    private readonly SortedSet<string> _dataFiles = new(StringComparer.Ordinal);
    private readonly ReadDataFiles _read;

    public ReadingContext(BoundDocument<ScenarioFile> document, ReadDataFiles? read = null, CommonParts? common = null)
    {
        (_document, File) = (document, document.Value);
        _read = read ?? new ReadDataFiles();
        Common = common ?? new CommonParts();
        _folder = Path.GetDirectoryName(document.File) ?? "";

        // Each part is read once, when it is first asked for: parts ask for each other, and faults are noted once.
        _dampers = new(() => File.Dampers.ToDictionary(entry => entry.Key, entry => Common.Get(this, entry.Value, () => DamperReader.Read(this, entry.Key, entry.Value))));
        _geometry = new(() => AxleGeometry.Read(this));
        _stops = new(() => VehicleReader.ReadStops(this, Side.Left));
        _rightStops = new(() => VehicleReader.ReadStops(this, Side.Right));
        _packaging = new(() => PackagingReader.Read(this));
        _vehicle = new(() => VehicleReader.Read(this));
        _loads = new(() => LoadStateReader.Read(this, VehicleReader.WrittenBody(File.Vehicle.Body)));
        _designBands = new(() => Packaging is { } space ? Make("packaging", () => Keep("design", () => BandSearch.Find(space, Cancellation))) : null);
        _bands = new(() => Packaging is { } space && Vehicle is { } vehicle && Dampers[File.Packaging!.Damper] is { } damper
            ? Make("packaging", () => Keep("loads", () => PlacementStudy.Bands(vehicle, new PlacementCase(space, damper), [.. Loads.Where(load => load.DamperState is null)], Cancellation)))
            : null);
    }

    private ReadingContext(ReadingContext around, ScenarioFile file, Func<string, string> written)
        : this(around._document, around._read) =>
        (File, _written, Cancellation, IsRecorded) = (file, written, around.Cancellation, around.IsRecorded);

    /// <summary>Whether the runs will be recorded over time, so that their samples must fit into memory.</summary>
    public bool IsRecorded { get; init; } = true;

    /// <summary>Whether to check how the vehicle stands in each load state.</summary>
    public bool ChecksLoads { get; init; } = true;

    /// <summary>Whether to check how the vehicle stands as written.</summary>
    public bool ChecksStanding { get; init; } = true;

    /// <summary>Whether a layout without room for its damper is set aside, for a study of why, instead of being a fault.</summary>
    public bool SetsUnplacedAside { get; init; }

    /// <summary>The layouts set aside, each with what is in the way.</summary>
    public List<UnplacedLayout> Unplaced { get; } = [];

    /// <summary>Whether to read what the dampers are tuned for.</summary>
    public bool ReadsTuning { get; init; } = true;

    /// <summary>Where bands are kept for the next reading, with the key of all that they follow from; null where there is none.</summary>
    public (Kept<PlacementBands> Bands, string Key)? Kept { get; init; }

    /// <summary>Stops the reading.</summary>
    public CancellationToken Cancellation { get; init; }

    public ScenarioFile File { get; private init; }

    /// <summary>What the variants of a scenario have in common.</summary>
    public CommonParts Common { get; }

    /// <summary>The name of the scenario file, without its folder.</summary>
    public string FileName => Path.GetFileName(_document.File);

    /// <summary>Roll centre, and linkage where there is one; null after a fault.</summary>
    public AxleGeometry? Geometry => _geometry.Value;

    /// <summary>The left stops, each null where it is not given or after a fault.</summary>
    public (TravelStop? Bump, TravelStop? Rebound) Stops => _stops.Value;

    /// <summary>The right stops, each null where it is not given or after a fault.</summary>
    public (TravelStop? Bump, TravelStop? Rebound) RightStops => _rightStops.Value;

    /// <summary>Whether either stop of one side has something of its own.</summary>
    public bool HasUnlikeStops => File.Vehicle is var vehicle && (vehicle.BumpStops?.Left ?? vehicle.BumpStops?.Right ?? vehicle.ReboundStops?.Left ?? vehicle.ReboundStops?.Right) is not null;

    /// <summary>The room around the dampers; null where it is not given or after a fault.</summary>
    public PackagingSpace? Packaging => _packaging.Value;

    /// <summary>The vehicle; null after a fault.</summary>
    public HalfCar? Vehicle => _vehicle.Value;

    /// <summary>The load states.</summary>
    public ImmutableArray<LoadState> Loads => _loads.Value;

    /// <summary>Where the dampers fit at the design load; null where packaging is not given or after a fault. Parts of the vehicle are placed by it.</summary>
    public PlacementBands? DesignBands => _designBands.Value;

    /// <summary>Where the dampers fit in every load state; null where packaging is not given or after a fault.</summary>
    public PlacementBands? Bands => Loads.IsEmpty ? DesignBands : _bands.Value;

    /// <summary>The dampers by name; null in the place of one with a fault.</summary>
    public Dictionary<string, Damper?> Dampers => _dampers.Value;

    public FaultList Faults { get; private set; } = new();

    public IReadOnlyList<string> Warnings => _warnings;

    /// <summary>Notes a fault at a key.</summary>
    public void Refuse(string path, FormattableString reason) =>
        Note(FaultAt(path, FormattableString.Invariant(reason)));

    /// <summary>Notes a fault of a data file.</summary>
    public void Refuse(DataFileFault fault) => Note(fault);

    /// <summary>Reads another axle of the file by the same readers.</summary>
    /// <param name="file">The file as if that axle were its only one.</param>
    /// <param name="written">Gives for a path of it the one at which it is written.</param>
    /// <param name="read">Reads it.</param>
    public T OfOtherAxle<T>(ScenarioFile file, Func<string, string> written, Func<ReadingContext, T> read)
    {
        var other = new ReadingContext(this, file, written);
        var found = read(other);
        foreach (var fault in other.Faults.InOrder())
            Note(fault);
        _warnings.AddRange(other._warnings.Except(_warnings));
        _dataFiles.UnionWith(other._dataFiles);
        return found;
    }

    /// <summary>Where a key stands, to be added to a message about another one: " (line 12)".</summary>
    public string LineOf(string path) =>
        FaultAt(path, "").Line is { } line ? FormattableString.Invariant($" (line {line})") : "";

    /// <summary>Notes something possible but not plausible at a key.</summary>
    public void Warn(string path, FormattableString reason) => Warn(FaultAt(path, FormattableString.Invariant(reason)));

    /// <summary>Notes something possible but not plausible in a data file.</summary>
    public void Warn(DataFileFault place)
    {
        // What both sides share is read for each of them, and said once.
        var warning = place.ToString();
        if (!_warnings.Contains(warning))
            _warnings.Add(warning);
    }

    /// <summary>The path of an entry that the user named, under the key that holds such entries.</summary>
    public static string PathOfEntry(string key, string name) => LocatedParser.MemberPath(key, name);

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
                Note(fault);
        }
        catch (ArgumentException e)
        {
            // The framework appends the parameter's name, which means nothing to whoever wrote the file; but most parameters are called
            // as their keys are, and then the fault stands there.
            var reason = e.Message.Split('\n')[0].Replace($" (Parameter '{e.ParamName}')", "", StringComparison.Ordinal).Trim();
            Note(FaultAt(e.ParamName is { } name && _document.PathOf(_written(path), name) is { } key ? key : _written(path), reason));
        }
        catch (Exception e) when (e is IntegrationException or UnreachableTravelException)
        {
            Note(FaultAt(path, e.Message));
        }

        return null;
    }

    /// <summary>Does a part of the reading whose faults do not stop the rest.</summary>
    /// <returns>The faults found in it.</returns>
    public ImmutableArray<DataFileFault> Apart(Action read)
    {
        var others = Faults;
        Faults = new FaultList();
        read();
        var found = Faults.InOrder();
        Faults = others;
        return found;
    }

    /// <summary>Reads a CSV file that the scenario names at a key, from the scenario's folder.</summary>
    /// <param name="path">The key.</param>
    /// <param name="name">The file as named there.</param>
    /// <param name="required">Columns that must be there.</param>
    /// <param name="optional">Columns that may be there.</param>
    public NumericTable? Table(string path, string name, IReadOnlyList<string> required, IReadOnlyList<string>? optional = null) => FromFile(path, name, full =>
    {
        var table = _read.Table(full, required, optional, Cancellation);
        RequireTwoRows(table, required[0]);
        TableLimits.Require(table);
        return table;
    });

    /// <summary>Reads the file of a damper's curve that the scenario names at a key, from the scenario's folder.</summary>
    /// <param name="path">The key.</param>
    /// <param name="name">The file as named there.</param>
    public CurveFileTable? CurveFile(string path, string name) => FromFile(path, name, full =>
    {
        var curve = _read.Curve(full, Cancellation);
        RequireTwoRows(curve.Table, curve.Points[0].VelocityColumn);
        return curve;
    });

    private PlacementBands Keep(string which, Func<PlacementBands> find) => Kept is var (bands, key) ? bands.Get($"{which}\n{key}", find) : find();

    private T? FromFile<T>(string path, string name, Func<string, T> read)
        where T : class
    {
        if (_read.WhyRefused(path, name) is { } reason)
        {
            Refuse(path, $"{reason}");
            return null;
        }

        var full = Path.Combine(_folder, name);
        if (!_read.Exists(full))
        {
            Refuse(path, $"there is no such file; paths are relative to the scenario's folder, so RollRide looked for “{full}”");
            return null;
        }

        return Make(path, () =>
        {
            var found = read(full);
            _dataFiles.Add(full);
            return found;
        });
    }

    private static void RequireTwoRows(NumericTable table, string column)
    {
        if (table.RowCount < 2)
            throw new DataFileException(table.FaultAt(0, column, "this is the only row; at least 2 are needed"));
    }

    /// <summary>SHA-256 over the scenario as it was read and every data file it names.</summary>
    public string Sha256() => _read.Sha256(ComputeSha256);

    private string ComputeSha256()
    {
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        hash.AppendData(_document.Utf8.Span);
        foreach (var file in _dataFiles)
            hash.AppendData(_read.Content(file, Cancellation));
        return Convert.ToHexStringLower(hash.GetHashAndReset());
    }

    /// <summary>Requires two lists of the same length.</summary>
    public bool SameLength(string path, string firstKey, IReadOnlyList<double> first, string secondKey, IReadOnlyList<double> second)
    {
        if (first.Count == second.Count)
            return true;
        Refuse(path, $"{firstKey} has {first.Count} values and {secondKey} has {second.Count}; each point needs both");
        return false;
    }

    private DataFileFault FaultAt(string path, string reason) => _document.FaultAt(_written(path), reason);

    // Two layouts can meet the same fault of the vehicle; once is enough.
    private void Note(DataFileFault fault)
    {
        if (_noted.Add(fault))
            Faults.Add(fault);
    }
}
