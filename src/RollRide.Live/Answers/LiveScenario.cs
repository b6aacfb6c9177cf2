using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Packaging;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Live.Answers;

/// <summary>
/// Answers what the page asks of one scenario file. It holds no state but what the file says: each request brings the page's changes with it, they
/// are made in the file's text, and the result is read by the scenario's reader and computed by the library calls of the commands.
/// </summary>
/// <remarks>Thread-safe.</remarks>
public sealed class LiveScenario : ILiveScenario
{
    private readonly string _path;
    private readonly Lock _saving = new();
    private readonly Kept<ImmutableArray<Band>> _bands = new(8);
    private readonly WindowAnswer _windows = new();
    private volatile Source _source;

    /// <summary>Takes a scenario file, whether or not it can be read: <see cref="Start"/> tells.</summary>
    /// <param name="path">The file.</param>
    public LiveScenario(string path)
    {
        ArgumentNullException.ThrowIfNull(path);
        _path = path;
        _source = Source.Read(path);
    }

    /// <summary>The scenario file and each data file that it names: what to watch.</summary>
    public IReadOnlyList<string> Files => [.. (_source.Text?.Files ?? [_path]).Select(Path.GetFullPath)];

    /// <summary>Takes the files as they stand on disk now.</summary>
    public void Reload() => _source = Source.Read(_path);

    /// <summary>What the page needs at first: the scenario as it stands on disk, its numbers, its faults.</summary>
    /// <param name="cancellation">Stops the work.</param>
    public JsonObject Start(CancellationToken cancellation = default)
    {
        var source = _source;
        var read = source.Read(PageState.None, cancellation);
        var study = read.Scenario?.Scenario.Study;
        var fields = source.Root is { } root && read.Scenario is not null ? FieldList.Of(root) : [];
        var prominent = FieldList.Prominent(fields);
        return new JsonObject
        {
            ["file"] = Path.GetFileName(_path),
            ["name"] = study?.Provenance.Scenario,
            ["vehicle"] = study?.Vehicle.Name,
            ["version"] = Provenance.ProgramVersion,
            ["document"] = source.Document(),
            ["fields"] = fields,
            ["prominent"] = prominent,
            ["loads"] = Texts(study?.Loads.Select(load => load.Name)),
            ["faults"] = FaultAnswer.WithLines(read.Faults),
            ["warnings"] = Texts(read.Scenario?.Scenario.Warnings),
        };
    }

    /// <summary>Figures, place and drawing of layouts in one load state.</summary>
    /// <param name="request"><c>id</c>, <c>state</c>, <c>load</c> (the first if null), <c>layouts</c> (all if null), <c>parts</c> (<c>run</c>, <c>place</c>, <c>scene</c>, <c>bands</c>, <c>dampers</c>; all if null).</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="RequestFault">The request is not of this form.</exception>
    public JsonObject Answer(JsonObject request, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        var parts = Parts(request);
        var names = Names(Asked.Member(request, "layouts"), "layouts");
        return Of(request, answer => answer["layouts"] = new JsonArray(), (answer, edited, study, faults) =>
        {
            var chosen = Choose(study, names, faults);
            answer["load"] = study.Load?.Name;
            answer["layouts"] = new JsonArray([.. InParallel(chosen, layout => OfLayout(edited, study, layout, parts, faults, cancellation), cancellation)]);
            if (parts.Contains("scene"))
                answer["scene"] = SceneAnswer.Of(study, parts.Contains("bands") ? BandsOf(edited, study, cancellation) : null);
            if (parts.Contains("dampers"))
                answer["dampers"] = DamperAnswer.Of(edited);
        }, cancellation);
    }

    /// <summary>The setting windows of all layouts in one load state.</summary>
    /// <param name="request"><c>id</c>, <c>state</c>, <c>load</c> (the first if null).</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="RequestFault">The request is not of this form.</exception>
    public JsonObject Window(JsonObject request, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        return Of(request, answer => answer["layouts"] = new JsonArray(), (answer, edited, study, faults) =>
        {
            answer["load"] = study.Load?.Name;
            if (study.Targets is { } targets)
                _windows.Add(answer, edited, study, targets, cancellation);
        }, cancellation);
    }

    /// <summary>What the command <c>compare</c> decides over all load states.</summary>
    /// <param name="request"><c>id</c>, <c>state</c>.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="RequestFault">The request is not of this form.</exception>
    public JsonObject Verdict(JsonObject request, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        return Of(request, answer => answer["decision"] = null, (answer, edited, study, faults) =>
        {
            var states = Comparison.RunInEachLoad(edited.Scenario.Study, cancellation: cancellation).Select(result => new ComparisonFindings(result)).ToArray();
            answer["decision"] = VerdictWords.Decision(Studies.Verdict.Of(states, cancellation), edited.Scenario.AsksForTuning);
            answer["risks"] = Texts(states.SelectMany(state => state.Result.Layouts.SelectMany(layout => RunWarnings.Of(state.Study, layout).Select(warning =>
                $"“{layout.Name}”{(state.Study.Load is { } load ? $", {load.Name}" : "")}: {warning}"))));
        }, cancellation);
    }

    /// <summary>Writes the scenario with the page's changes, and its changed curves beside it.</summary>
    /// <param name="request"><c>state</c>, <c>name</c> (a plain file name in the scenario's folder), <c>overwrite</c>.</param>
    /// <param name="cancellation">Stops the work before anything is written.</param>
    /// <exception cref="RequestFault">The request is not of this form.</exception>
    public JsonObject Save(JsonObject request, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(request);
        var name = Asked.Text(Asked.Member(request, "name"), "name");
        var overwrites = Asked.Flag(Asked.Member(request, "overwrite"), "overwrite");
        var state = PageState.Of(Asked.Member(request, "state"));
        lock (_saving)
        {
            // The text that is changed is that on disk now, whether or not anybody has noticed a change of it.
            Reload();
            var saved = SavedScenario.Write(_path, name, overwrites, () => _source.Read(state, cancellation));
            Reload();
            return saved;
        }
    }

    /// <summary>What a state comes to: the scenario, or its faults.</summary>
    internal sealed record ReadState(EditedScenario? Scenario, ImmutableArray<AddedCurve> Curves, ImmutableArray<DataFileFault> Faults);

    /// <summary>One answer: what there is to say of the state of a request in its load state, or its faults.</summary>
    private JsonObject Of(JsonObject request, Action<JsonObject> none, Action<JsonObject, EditedScenario, StudyCase, List<DataFileFault>> fill, CancellationToken cancellation)
    {
        var load = Asked.TextOrNone(Asked.Member(request, "load"), "load");
        var answer = new JsonObject { ["id"] = Asked.Member(request, "id")?.DeepClone() };
        var read = _source.Read(PageState.Of(Asked.Member(request, "state")), cancellation);
        List<DataFileFault> faults = [.. read.Faults];
        none(answer);
        if (read.Scenario is { } edited)
        {
            answer["warnings"] = Texts(edited.Scenario.Warnings);
            try
            {
                if (InLoad(edited.Scenario.Study, load, faults) is { } study)
                    fill(answer, edited, study, faults);
            }
            catch (Exception e) when (e is StudyException or NoRestPositionException)
            {
                faults.AddRange(FailureOf(e, "layouts"));
            }
        }

        answer["faults"] = FaultAnswer.Of(faults);
        return answer;
    }

    /// <summary>The case in a load state; null after a fault.</summary>
    private StudyCase? InLoad(StudyCase study, string? load, List<DataFileFault> faults)
    {
        if (load is null)
            return study.InEachLoad[0];
        if (study.Loads.FirstOrDefault(known => known.Name == load) is { } found)
            return study with { Load = found };
        faults.Add(new DataFileFault(_path, null, "loadStates", null, $"there is no load state “{load}”"));
        return null;
    }

    private ImmutableArray<DamperLayout> Choose(StudyCase study, string[]? names, List<DataFileFault> faults)
    {
        if (names is null)
            return study.Layouts;
        faults.AddRange(names.Where(name => study.Layouts.All(layout => layout.Name != name)).Select(name => new DataFileFault(_path, null, "layouts", null, $"there is no layout “{name}”")));
        return [.. study.Layouts.Where(layout => names.Contains(layout.Name))];
    }

    private JsonObject OfLayout(EditedScenario edited, StudyCase study, DamperLayout layout, HashSet<string> parts, List<DataFileFault> faults, CancellationToken cancellation)
    {
        var index = edited.Scenario.Study.Layouts.IndexOf(layout);
        var json = new JsonObject
        {
            ["name"] = layout.Name,
            ["style"] = index,
            ["mounts"] = MountAnswer.Of(layout, edited.Root.Find("layouts")!.Children[index]),
            ["damper"] = layout.Damper.Name,
        };
        try
        {
            if (parts.Contains("place"))
                AddPlace(json, study, layout, cancellation);
            if (parts.Contains("run"))
                AddRun(json, study, layout, cancellation);
        }
        catch (Exception e) when (e is StudyException or NoRestPositionException)
        {
            lock (faults)
                faults.AddRange(FailureOf(e, $"layouts[{index}]"));
        }

        return json;
    }

    /// <summary>Whether the dampers fit where they are drawn.</summary>
    private static void AddPlace(JsonObject json, StudyCase study, DamperLayout layout, CancellationToken cancellation)
    {
        var place = PlaceCheck.Of(study, layout, cancellation);
        json["place"] = new JsonObject { ["isChecked"] = place is not null, ["fits"] = place?.Fits, ["inTheWay"] = Texts(place?.InTheWay.Select(contact => contact.Words)) };
        json["outline"] = SceneAnswer.Damper(study, layout);
    }

    /// <summary>What the layout does in the case's run.</summary>
    private static void AddRun(JsonObject json, StudyCase study, DamperLayout layout, CancellationToken cancellation)
    {
        var run = Comparison.RecordLayout(study with { HistoryRate = Thinned.Rate(study) }, layout, [Channel.BodyRoll, Channel.BodyAcceleration], withCorner: false, cancellation: cancellation);
        json["rows"] = LayoutRows.Of(study, run);
        json["risks"] = Texts(RunWarnings.Of(study, run));
        json["time"] = new JsonObject
        {
            ["step_s"] = Thinned.Stride(run.History.Count) / run.History.Rate,
            ["roll_deg"] = Numbers(Thinned.Of(run.History[Channel.BodyRoll], Unit.Degree, 4)),
            ["bodyAcceleration_m_per_s2"] = Numbers(Thinned.Of(run.History[Channel.BodyAcceleration], Unit.One, 4)),
        };
    }

    private IEnumerable<DataFileFault> FailureOf(Exception failure, string path) =>
        (failure is StudyException study ? study.Lines : [failure.Message]).Select(line => new DataFileFault(_path, null, path, null, line));

    /// <summary>Where the damper to be placed fits: looked for again only where something has changed on which it depends.</summary>
    private ImmutableArray<Band>? BandsOf(EditedScenario edited, StudyCase study, CancellationToken cancellation)
    {
        if (study.Placement is null)
            return null;
        return _bands.Get($"{edited.RoomKey()}\n{study.Load?.Name}", () => PlacementStudy.Bands(study, cancellation));
    }

    private static JsonObject[] InParallel(ImmutableArray<DamperLayout> layouts, Func<DamperLayout, JsonObject> of, CancellationToken cancellation) =>
        layouts.Length == 1 ? [of(layouts[0])] : [.. layouts.AsParallel().AsOrdered().WithCancellation(cancellation).Select(of)];

    private static HashSet<string> Parts(JsonObject request)
    {
        string[] known = ["run", "place", "scene", "bands", "dampers"];
        var asked = Names(Asked.Member(request, "parts"), "parts") ?? known;
        return Array.TrueForAll(asked, known.Contains) ? [.. asked] : throw Asked.Expected("parts", $"a list of some of {string.Join(", ", known)}");
    }

    private static string[]? Names(JsonNode? node, string name)
    {
        // As many as a scenario has layouts, ten times over.
        const int Most = 1000;
        return node is null ? null : [.. Asked.List(node, name, Most).Select(item => Asked.Text(item, $"{name}[]"))];
    }

    private static JsonArray Texts(IEnumerable<string>? texts) => [.. (texts ?? []).Select(text => JsonValue.Create(text))];

    private static JsonArray Numbers(IEnumerable<double> numbers) => [.. numbers.Select(number => JsonValue.Create(number))];

    /// <summary>The scenario's text as it was read, or why it could not be.</summary>
    private sealed class Source
    {
        // Figures, window and verdict of one state are asked for one after the other, by a page or two.
        private readonly Kept<ReadState> _recent = new(4);
        private readonly ImmutableArray<DataFileFault> _faults = [];

        private Source(ScenarioText? text, ImmutableArray<DataFileFault> faults) => (Text, _faults) = (text, faults);

        public ScenarioText? Text { get; }

        /// <summary>Its values; null where it is not JSON.</summary>
        public LocatedNode? Root => _faults.IsEmpty ? Text?.Root : null;

        public static Source Read(string path)
        {
            ScenarioText? text = null;
            try
            {
                text = ScenarioText.Read(path);
                _ = text.Root;
                return new Source(text, []);
            }
            catch (DataFileException e)
            {
                return new Source(text, e.Faults);
            }
        }

        /// <summary>The scenario as plain JSON; null where it is none.</summary>
        public JsonNode? Document() => Root is null ? null : JsonNode.Parse(
            Text!.Utf8.Span.StartsWith(Encoding.UTF8.Preamble) ? Text.Utf8.Span[Encoding.UTF8.Preamble.Length..] : Text.Utf8.Span,
            documentOptions: new JsonDocumentOptions { CommentHandling = JsonCommentHandling.Skip, AllowTrailingCommas = true });

        public ReadState Read(PageState state, CancellationToken cancellation) => _recent.Get(state.Key, () => ReadNew(state, cancellation));

        private ReadState ReadNew(PageState state, CancellationToken cancellation)
        {
            if (Text is null || Root is null)
                return new ReadState(null, [], _faults);
            try
            {
                var curves = state.FilesBeside(Text, cancellation);
                return new ReadState(Text.ReadEdited(Text.Edited(state.Edits, cancellation), curves, cancellation), curves, []);
            }
            catch (DataFileException e)
            {
                return new ReadState(null, [], e.Faults);
            }
        }
    }
}
