using System.Text;
using System.Text.Json.Nodes;
using RollRide.DataFiles;

namespace RollRide.Live.Answers;

/// <summary>Faults as the page shows them: each where its value stands.</summary>
internal static class FaultAnswer
{
    private const int LinesAround = 2;
    private const int LongestLine = 200;

    /// <summary>Faults of a state of the page: their values stand in its fields.</summary>
    /// <param name="faults">The faults.</param>
    public static JsonArray Of(IEnumerable<DataFileFault> faults) => [.. faults.Select(Of)];

    /// <summary>Faults of files as they stand on disk, each with the lines around it: the page has no field yet where the value could be shown.</summary>
    /// <param name="faults">The faults.</param>
    public static JsonArray WithLines(IEnumerable<DataFileFault> faults) => [.. faults.Select(fault =>
    {
        var json = Of(fault);
        json["around"] = Around(fault);
        return json;
    })];

    private static JsonObject Of(DataFileFault fault) => new()
    {
        ["file"] = Path.GetFileName(fault.File),
        ["line"] = fault.Line,
        ["path"] = fault.Key,
        ["value"] = fault.Value,
        ["message"] = fault.Reason,
    };

    /// <summary>The faulty line between its neighbours, as number and text; null where the fault has no line or the file cannot be read.</summary>
    private static JsonArray? Around(DataFileFault fault)
    {
        if (fault.Line is not { } line)
            return null;
        try
        {
            var lines = Encoding.UTF8.GetString(InputFile.ReadAllBytes(fault.File)).TrimStart('\uFEFF').ReplaceLineEndings("\n").Split('\n');
            return [.. Enumerable.Range(line - LinesAround, (2 * LinesAround) + 1).Where(number => number >= 1 && number <= lines.Length)
                .Select(number => (JsonNode)new JsonArray(number, Shortened(lines[number - 1])))];
        }
        catch (Exception e) when (e is DataFileException or IOException or UnauthorizedAccessException)
        {
            return null;
        }
    }

    private static string Shortened(string line) => line.Length <= LongestLine ? line : $"{line[..LongestLine]}…";
}
