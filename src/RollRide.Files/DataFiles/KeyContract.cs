using System.Reflection;
using System.Runtime.CompilerServices;

namespace RollRide.DataFiles;

/// <summary>One key of a record: its name, its meaning, what it accepts and what holds without it.</summary>
internal sealed class KeyContract
{
    private readonly PropertyInfo _property;
    private readonly NumberLimits _limits = NumberLimits.None;
    private readonly ItemCount _count;
    private readonly IReadOnlyList<NamedValue>? _names;

    public KeyContract(PropertyInfo property, object recordOfDefaults)
    {
        _property = property;

        // Asked for one kind after the other, attributes are made again each time.
        KeyAttribute? key = null;
        foreach (var attribute in property.GetCustomAttributes(inherit: true))
        {
            switch (attribute)
            {
                case KeyAttribute name: key = name; break;
                case LimitAttribute limit: _limits = limit.Narrow(_limits); break;
                case MinCountAttribute least: _count = _count with { Min = least.Count }; break;
                case MaxCountAttribute most: _count = _count with { Max = most.Count }; break;
                case NamesAttribute names: _names = names.Values; break;
                case RequiredMemberAttribute: IsRequired = true; break;
                case FileNameAttribute: IsFileName = true; break;
            }
        }

        if (key is null) throw Broken("has no key");
        if (string.IsNullOrWhiteSpace(key.Description)) throw Broken("has no description");
        Name = key.Name;
        Description = _names is null ? key.Description : $"{key.Description}; {string.Join("; ", _names.Select(named => $"{named.Name}: {named.Meaning}"))}";
        Value = ContractOf(property.PropertyType);
        RequireEveryLimitUsed();
        if (IsFileName && Value is not TextContract) throw Broken("names a file but is no text");
        Default = IsRequired ? null : property.GetValue(recordOfDefaults);
        if (!LimitsAllow(Default)) throw Broken("has a default outside its limits");
    }

    public string Name { get; }

    public string Description { get; }

    public ValueContract Value { get; }

    public bool IsRequired { get; }

    /// <summary>Whether its text names another file.</summary>
    public bool IsFileName { get; }

    /// <summary>The value that holds when the key is left out; null when the key is required, or nothing holds.</summary>
    public object? Default { get; }

    public object? Get(object record) => _property.GetValue(record);

    public void Set(object record, object? value) => _property.SetValue(record, value);

    private ValueContract ContractOf(Type declared)
    {
        var type = Nullable.GetUnderlyingType(declared) ?? declared;
        if (type == typeof(double)) return new NumberContract(_limits);
        if (type == typeof(int)) return new WholeNumberContract(_limits);
        if (type == typeof(bool)) return new BooleanContract();
        if (type == typeof(string)) return new TextContract();
        if (_names is not null) return new NamedContract(type, [.. _names.Select(named => (named.Name, named.Value))]);
        if (type.IsEnum) return new NamedContract(type);
        if (IsGeneric(type, typeof(IReadOnlyList<>))) return new ListContract(ContractOf(type.GenericTypeArguments[0]), CountFor(type));
        if (IsGeneric(type, typeof(IReadOnlyDictionary<,>)) && type.GenericTypeArguments[0] == typeof(string))
            return new MapContract(ContractOf(type.GenericTypeArguments[1]), CountFor(type));
        if (type is { IsClass: true, IsSealed: true, IsArray: false } && type.GetConstructor(Type.EmptyTypes) is not null)
            return new ObjectContract(type);
        throw Broken($"is of type {type.Name}, which no file holds");
    }

    // The counts are those of the property's own list; lists inside it are of any length.
    private ItemCount CountFor(Type type) => type == _property.PropertyType ? _count : default;

    private static bool IsGeneric(Type type, Type definition) => type.IsGenericType && type.GetGenericTypeDefinition() == definition;

    private void RequireEveryLimitUsed()
    {
        if (!ReferenceEquals(_limits, NumberLimits.None) && Innermost(Value) is not (NumberContract or WholeNumberContract))
            throw Broken("limits numbers but holds none");
        if (_count != default && Value is not (ListContract or MapContract))
            throw Broken("limits a count but is not a list");
    }

    private static ValueContract Innermost(ValueContract value) => value switch
    {
        ListContract list => Innermost(list.Item),
        MapContract map => Innermost(map.Item),
        _ => value,
    };

    private bool LimitsAllow(object? value) => value switch
    {
        double number => _limits.Allow(number),
        int number => _limits.Allow(number),
        _ => true,
    };

    // These are mistakes in our records, not in anybody's file.
    private InvalidOperationException Broken(string what) => new($"{_property.DeclaringType!.Name}.{_property.Name} {what}.");
}
