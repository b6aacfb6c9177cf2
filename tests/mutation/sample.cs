// Draws 150 of a folder's mutants (or a few more: all of a drawn piece of code), the same ones each time, and keeps account of them (DEVELOPERS.md,
// "Mutation tests"):
//   dotnet run tests/mutation/sample.cs -- Damping [LISTED.json [TESTED.json ...]] > config.json
// Standard output gets the tool's configuration: without a report the one that lists all mutants and tests none; with LISTED, the report of that, the one
// for the drawn mutants that were not killed in any of the runs reported in TESTED. Standard error gets the count and the mutants left.
#:property RestorePackagesWithLockFile=false
using System.Text.Json;

const int LeastDrawn = 150;
const int Seed = 20;

var folder = args[0];
if (args.Length == 1)
{
    Configure([$"{folder}/*.cs{{0..1}}"]);
    return;
}

var compiled = Mutants(args[1]).Where(mutant => mutant.Status != "CompileError").ToArray();
// As the tool does: a block is emptied only where nothing in it can be changed.
var valid = compiled.Where(mutant => mutant.Mutator != "Block removal mutation" || !compiled.Any(other => other != mutant && mutant.Holds(other))).ToArray();
var pieces = valid.GroupBy(mutant => mutant.Pattern).ToArray();
new Random(Seed).Shuffle(pieces);
List<Mutant> drawn = [];
foreach (var piece in pieces.TakeWhile(_ => drawn.Count < LeastDrawn))
    drawn.AddRange(piece);
var killed = args[2..].SelectMany(Mutants).Where(mutant => mutant.Status is "Killed" or "Timeout").Select(mutant => mutant.Place).ToHashSet();
var left = drawn.Where(mutant => !killed.Contains(mutant.Place)).OrderBy(mutant => mutant.File, StringComparer.Ordinal).ThenBy(mutant => mutant.Start).ToArray();

Console.Error.WriteLine($"{folder}: {valid.Length} mutants, {drawn.Count} drawn, {drawn.Count - left.Length} killed, {left.Length} left");
foreach (var mutant in left)
    Console.Error.WriteLine($"{mutant.File}:{mutant.Line} {mutant.Mutator}: {mutant.Original} => {mutant.Replacement}");

// A pattern selects whatever lies in its span: mutants in a drawn one that were not drawn themselves are taken out again.
var notDrawn = compiled.Where(other => left.Any(mutant => mutant.Holds(other)) && !left.Any(other.Holds));
Configure(left.Select(mutant => $"{folder}/{mutant.Pattern}").Concat(notDrawn.Select(other => $"!{folder}/{other.Pattern}")).Distinct());

void Configure(IEnumerable<string> patterns) => Console.WriteLine($$"""
    {
      "stryker-config": {
        "project": "{{(folder == "Results" ? "RollRide.Files" : "RollRide")}}.csproj",
        "test-runner": "mtp",
        "coverage-analysis": "off",
        "additional-timeout": 60000,
        "concurrency": 1,
        "reporters": ["json", "dots"],
        "mutate": [
          {{string.Join(",\n      ", patterns.Select(pattern => $"\"{pattern}\""))}}
        ]
      }
    }
    """);

IEnumerable<Mutant> Mutants(string report)
{
    using var document = JsonDocument.Parse(File.ReadAllText(report));
    foreach (var file in document.RootElement.GetProperty("files").EnumerateObject().OrderBy(file => file.Name, StringComparer.Ordinal))
    {
        if (Path.GetFileName(Path.GetDirectoryName(file.Name)) != folder)
            continue;
        var source = file.Value.GetProperty("source").GetString()!;
        int[] lines = [0, .. Enumerable.Range(1, source.Length).Where(i => source[i - 1] == '\n')];
        foreach (var mutant in file.Value.GetProperty("mutants").EnumerateArray())
        {
            string Text(string key) => mutant.GetProperty(key).GetString()!;
            var (start, end) = (mutant.GetProperty("location").GetProperty("start"), mutant.GetProperty("location").GetProperty("end"));
            int Number(JsonElement place, string key) => place.GetProperty(key).GetInt32();
            int Offset(JsonElement place) => lines[Number(place, "line") - 1] + Number(place, "column") - 1;
            yield return new(Path.GetFileName(file.Name), Number(start, "line"), Offset(start), Offset(end), source[Offset(start)..Offset(end)],
                Text("mutatorName"), Text("replacement"), Text("status"));
        }
    }
}

internal sealed record Mutant(string File, int Line, int Start, int End, string Original, string Mutator, string Replacement, string Status)
{
    public (string, int, int, string, string) Place => (File, Start, End, Mutator, Replacement);

    public string Pattern => $"{File}{{{Start}..{End}}}";

    public bool Holds(Mutant other) => File == other.File && Start <= other.Start && other.End <= End;
}
