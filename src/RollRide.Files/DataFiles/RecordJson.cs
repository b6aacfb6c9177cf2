using System.Collections;
using System.Diagnostics;
using System.Text.Json.Nodes;

namespace RollRide.DataFiles;

/// <summary>Writes a record as the JSON that would be read into it again.</summary>
public static class RecordJson
{
    /// <summary>The JSON object of a record; keys whose value is null are left out, defaults are written.</summary>
    /// <param name="record">The record.</param>
    /// <param name="fileName">Gives for each name of another file the one that is written; null where they stay.</param>
    public static JsonObject Of(object record, Func<string, string>? fileName = null)
    {
        ArgumentNullException.ThrowIfNull(record);
        var json = new JsonObject();
        foreach (var key in RecordContract.Of(record.GetType()).Keys)
        {
            if (key.Get(record) is { } value) json.Add(key.Name, key.IsFileName && fileName is not null ? fileName((string)value) : Of(value, key.Value, fileName));
        }

        return json;
    }

    internal static JsonNode Of(object value, ValueContract contract, Func<string, string>? fileName = null) => contract switch
    {
        NumberContract => JsonValue.Create((double)value),
        WholeNumberContract => JsonValue.Create((int)value),
        BooleanContract => JsonValue.Create((bool)value),
        TextContract => JsonValue.Create((string)value)!,
        NamedContract named => JsonValue.Create(named.NameOf(value))!,
        ObjectContract => Of(value, fileName),
        ListContract list => new JsonArray([.. ((IEnumerable)value).Cast<object>().Select(item => Of(item, list.Item, fileName))]),
        MapContract map => OfEntries((IDictionary)value, map, fileName),
        _ => throw new UnreachableException(),
    };

    private static JsonObject OfEntries(IDictionary entries, MapContract contract, Func<string, string>? fileName)
    {
        var json = new JsonObject();
        foreach (DictionaryEntry entry in entries) json.Add((string)entry.Key, Of(entry.Value!, contract.Item, fileName));
        return json;
    }
}
