using System.Text.Json.Nodes;

namespace RollRide.DataFiles;

/// <summary>One change of a JSON text, see <see cref="EditedJson"/>.</summary>
public sealed record JsonEdit
{
    private JsonEdit(string path, JsonNode? value, bool isRemoval)
    {
        ArgumentNullException.ThrowIfNull(path);
        (Path, Value, IsRemoval) = (path, value, isRemoval);
    }

    /// <summary>Where it is, as in <see cref="LocatedNode.Path"/>.</summary>
    public string Path { get; }

    /// <summary>What stands there afterwards; null for JSON's own <c>null</c>, and of a removal.</summary>
    public JsonNode? Value { get; }

    /// <summary>Whether what stands there is taken out with its key.</summary>
    public bool IsRemoval { get; }

    /// <summary>Sets a value: the characters of the old one are replaced, and where there is none it is added at the end of the object or list around it.</summary>
    /// <param name="path">Where it is.</param>
    /// <param name="value">The value.</param>
    public static JsonEdit Set(string path, JsonNode? value) => new(path, value, isRemoval: false);

    /// <summary>Takes out what stands at a path with its key; nothing where nothing stands there.</summary>
    /// <param name="path">Where it is.</param>
    public static JsonEdit Remove(string path) => new(path, null, isRemoval: true);
}
