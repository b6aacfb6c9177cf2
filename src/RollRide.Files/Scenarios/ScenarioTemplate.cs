using System.Collections.Frozen;
using System.Collections.Immutable;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>A scenario file whose numbers can be replaced before it is read, by the same reader and with the same checks.</summary>
/// <remarks>Immutable and thread-safe. The files it names are read once, and so is what its variants have in common. Its variants are run for their figures, without a history.</remarks>
public sealed class ScenarioTemplate
{
    private readonly BoundDocument<ScenarioFile> _document;
    private readonly ReadDataFiles _files = new();
    private readonly CommonParts _common = new();
    private readonly FrozenDictionary<string, NumberAddress> _byPath;

    private ScenarioTemplate(string path, CancellationToken cancellation)
    {
        _document = BoundDocument.Read<ScenarioFile>(path, cancellation);
        Scenario = ScenarioReader.Read(new ReadingContext(_document, _files, _common) { IsRecorded = false, Cancellation = cancellation });
        _common.Close();
        Numbers = [.. NumberAddresses.Of(_document.Root)];
        // The exact path wins where a name imitates a number.
        _byPath = Numbers.Select(number => KeyValuePair.Create(number.Path, number))
            .Concat(Numbers.Select(number => KeyValuePair.Create(number.ReadablePath, number)))
            .DistinctBy(pair => pair.Key)
            .ToFrozenDictionary();
    }

    /// <summary>The scenario as it stands.</summary>
    public Scenario Scenario { get; }

    /// <summary>The sweep that the file asks for; null where it asks for none.</summary>
    internal SweepFile? Sweep => _document.Value.Sweep;

    /// <summary>What scatters in the file's tuning; null where nothing does.</summary>
    internal ScatterFile? Scatter => _document.Value.Tuning?.Scatter;

    /// <summary>Every number that can be replaced.</summary>
    public ImmutableArray<NumberAddress> Numbers { get; }

    /// <summary>Reads a scenario file.</summary>
    /// <param name="path">The file.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">Something is wrong with it as it stands.</exception>
    public static ScenarioTemplate Read(string path, CancellationToken cancellation = default) => new(path, cancellation);

    /// <summary>The number at a path, with indices or names of list items; null when there is none.</summary>
    /// <param name="path">The path.</param>
    public NumberAddress? Find(string path) => _byPath.GetValueOrDefault(path);

    /// <summary>A question naming the paths nearest to an unknown one, or null when none is near.</summary>
    /// <param name="path">The unknown path.</param>
    public string? NearestTo(string path) => NearestName.Ask(path, _byPath.Keys.Order(StringComparer.Ordinal));

    /// <summary>A fault at a key of the file as it stands.</summary>
    /// <param name="path">The key's path.</param>
    /// <param name="reason">What is wrong and what is accepted.</param>
    public DataFileFault FaultAt(string path, string reason) => _document.FaultAt(path, reason);

    /// <summary>Reads the scenario with other numbers at some paths.</summary>
    /// <param name="numbers">The numbers by <see cref="NumberAddress.Path"/>, none twice.</param>
    /// <exception cref="DataFileException">The numbers are outside their limits or make no sense together.</exception>
    public Scenario With(params ReadOnlySpan<KeyValuePair<string, double>> numbers) => Read(numbers, checksStanding: true);

    /// <summary>Reads it likewise for what the body weighs and the gas presses alone, whether or not the vehicle stands as written.</summary>
    internal Scenario LoadedWith(ReadOnlySpan<KeyValuePair<string, double>> numbers) => Read(numbers, checksStanding: false);

    private Scenario Read(ReadOnlySpan<KeyValuePair<string, double>> numbers, bool checksStanding) => ScenarioReader.Read(
        new ReadingContext(_document.WithNumbers(numbers), _files, _common) { IsRecorded = false, ChecksLoads = false, ChecksStanding = checksStanding });
}
