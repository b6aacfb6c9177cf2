using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace RollRide.DataFiles;

/// <summary>JSON as it is written into files: results and schemas.</summary>
public static class JsonText
{
    private static readonly JsonSerializerOptions Layout = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        // The text goes into a file of its own, never into a web page: units such as "°" stay readable.
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>The text of an object: indented, one line end at its end.</summary>
    /// <param name="content">The object.</param>
    public static string Of(JsonObject content)
    {
        ArgumentNullException.ThrowIfNull(content);
        return content.ToJsonString(Layout) + "\n";
    }
}
