using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Scenarios;

namespace RollRide.Live.Answers;

/// <summary>The numbers and choices of a scenario as fields of the page: what each is, its unit, its limits or names, its explanation.</summary>
internal static class FieldList
{
    // What an engineer changes first, by the beginnings of paths and in this order.
    private static readonly string[] First =
    [
        "vehicle.springs.rate_N_per_mm", "vehicle.antiRollBar_N_m_per_deg", "vehicle.body.mass_kg", "vehicle.body.cgHeight_mm", "vehicle.body.rollInertia_kg_m2",
        "loadStates", "vehicle.tyres.stiffness_N_per_mm", "manoeuvre.speed_km_per_h", "manoeuvre.road.random", "manoeuvre.road.events", "manoeuvre.cornering",
    ];

    /// <summary>Every number and choice of a text that stands there or may stand there, those of one group together.</summary>
    /// <param name="root">The text.</param>
    public static JsonArray Of(LocatedNode root)
    {
        var fields = NumberAddresses.FieldsOf(root).Select(OfNumber).Concat(NumberAddresses.NamesOf(root).Select(OfName));
        return [.. fields.GroupBy(field => (string)field["group"]!).SelectMany(group => group)];
    }

    /// <summary>The paths of the fields shown first: of those that stand in the file.</summary>
    /// <param name="fields">All fields.</param>
    public static JsonArray Prominent(JsonArray fields) => [.. First.SelectMany(first => fields
        .Where(field => (bool)field!["isWritten"]! && ((string)field["path"]!).StartsWith(first, StringComparison.Ordinal))
        .Select(field => field!["path"]!.DeepClone()))];

    private static JsonObject OfNumber(NumberField number)
    {
        var field = Field(number.Address.Path, number.Address.ReadablePath, number.Key, number.IsWritten);
        field["value"] = number.Address.Value;
        field["limits"] = Limits(number.Key.Value);
        return field;
    }

    private static JsonObject OfName(NameField name)
    {
        var field = Field(name.Path, name.ReadablePath, name.Key, name.Written is not null);
        field["value"] = name.Written ?? name.Usual;
        field["names"] = new JsonArray([.. name.Names.Names.Select(one => JsonValue.Create(one))]);
        return field;
    }

    private static JsonObject Field(string path, string readablePath, KeyContract key, bool isWritten)
    {
        var (words, unit) = ParameterNames.Split(readablePath);
        var places = ParameterNames.Split(path).Words;
        return new JsonObject
        {
            ["path"] = path,
            ["label"] = Capital(Label(words[^1], key)),
            ["unit"] = unit,
            ["group"] = Group([.. words.Zip(places, Counted).SkipLast(1)]),
            ["explanation"] = key.Description,
            ["isWritten"] = isWritten,
        };
    }

    /// <summary>Where a number belongs, in words; that it is of the vehicle or the manoeuvre needs no word where more follow.</summary>
    private static string Group(string[] words) => Capital(string.Join(", ", words is ["vehicle" or "manoeuvre", _, ..] ? words[1..] : words));

    /// <summary>An item of a list by its name, or counted from 1 as people count: event 1, layout Outboard.</summary>
    private static string Counted(string words, string place)
    {
        var end = place.LastIndexOf(' ');
        if (end < 0 || !int.TryParse(place.AsSpan(end + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var index))
            return words;
        var one = place[..end].TrimEnd('s');
        return words == place ? string.Create(CultureInfo.InvariantCulture, $"{one} {index + 1}") : $"{one}{words[end..]}";
    }

    /// <summary>An item of a point is called by its axis.</summary>
    private static string Label(string words, KeyContract key)
    {
        if (key.Value is not ListContract list || !int.TryParse(words[(words.LastIndexOf(' ') + 1)..], NumberStyles.None, CultureInfo.InvariantCulture, out var index))
            return words;
        var axes = (list.Count.Max, list.Count.Min) switch
        {
            (3, 3) => "xyz",
            (2, 2) => "yz",
            _ => "",
        };
        return $"{words[..words.LastIndexOf(' ')]}, {(index < axes.Length ? axes[index].ToString() : (index + 1).ToString(CultureInfo.InvariantCulture))}";
    }

    private static JsonObject Limits(ValueContract contract)
    {
        var limits = Innermost(contract) switch
        {
            NumberContract number => number.Limits,
            WholeNumberContract number => number.Limits,
            _ => NumberLimits.None,
        };
        var json = new JsonObject();
        foreach (var (key, limit) in (ReadOnlySpan<(string, double?)>)[("above", limits.Above), ("atLeast", limits.AtLeast), ("below", limits.Below), ("atMost", limits.AtMost)])
        {
            if (limit is { } value)
                json[key] = value;
        }

        return json;
    }

    private static ValueContract Innermost(ValueContract contract) => contract switch
    {
        ListContract list => Innermost(list.Item),
        MapContract map => Innermost(map.Item),
        _ => contract,
    };

    private static string Capital(string words) => words.Length == 0 ? "" : char.ToUpperInvariant(words[0]) + words[1..];
}
