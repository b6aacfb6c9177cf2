using System.Text;
using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Scenarios;

namespace RollRide.Live.Answers;

/// <summary>Writes a scenario with a page's changes, and the curves that it names, into the scenario's own folder.</summary>
internal static class SavedScenario
{
    /// <summary>Writes both, or neither.</summary>
    /// <param name="scenario">The scenario that was changed.</param>
    /// <param name="name">The name of the new file.</param>
    /// <param name="overwrites">Whether a scenario of that name may be replaced.</param>
    /// <param name="read">Reads the scenario with its changes.</param>
    /// <returns>What was written, or why nothing was.</returns>
    public static JsonObject Write(string scenario, string name, bool overwrites, Func<LiveScenario.ReadState> read)
    {
        if (PlainFileName.WhyNot(name, ".json") is { } reason)
            return Refused(reason);
        var folder = Path.GetDirectoryName(scenario) ?? "";
        var path = Path.Combine(folder, name);
        if (PlainFileName.IsTaken(path) && !overwrites)
            return Refused($"there is a file “{name}” already", exists: true);
        var state = read();
        if (state.Scenario is not { } edited)
        {
            var refused = Refused("the scenario has faults, and no command would read it");
            refused["faults"] = FaultAnswer.Of(state.Faults);
            return refused;
        }

        var named = NamesOf(edited.Root).ToHashSet();
        AddedCurve[] curves = [.. state.Curves.Where(curve => named.Contains(curve.Name) && !PlainFileName.IsTaken(Path.Combine(folder, curve.Name)))];
        var written = new List<string>();
        try
        {
            foreach (var curve in curves)
            {
                var file = Path.Combine(folder, curve.Name);
                AtomicFile.Write(file, writer => writer.Write(Encoding.UTF8.GetString(curve.Utf8)), overwrites: false);
                written.Add(file);
            }

            // Decoded with its byte-order mark, if it has one. A file that came to be since is not replaced without asking.
            AtomicFile.Write(path, writer => writer.Write(Encoding.UTF8.GetString(edited.Utf8.Span)), overwrites);
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            foreach (var file in written)
                File.Delete(file);
            return Refused(e.Message);
        }

        return new JsonObject { ["saved"] = name, ["files"] = new JsonArray([.. curves.Select(curve => JsonValue.Create(curve.Name))]) };
    }

    private static JsonObject Refused(string reason, bool exists = false) => new() { ["refused"] = reason, ["exists"] = exists };

    /// <summary>The files of curves that a text names.</summary>
    private static IEnumerable<string> NamesOf(LocatedNode node) =>
        node is { Key: "dyno", Text: { } name } ? [name] : node.Children.SelectMany(NamesOf);
}
