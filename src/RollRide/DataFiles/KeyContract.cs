using System.Reflection;
using System.Runtime.CompilerServices;

namespace RollRide.DataFiles;

/// <summary>One key of a record: its name, its meaning, what it accepts and what holds without it.</summary>
internal sealed class KeyContract
{
    private readonly PropertyInfo _property;

    public KeyContract(PropertyInfo property, object recordOfDefaults)
    {
        _property = property;
        var key = property.GetCustomAttribute<KeyAttribute>() ?? throw Broken("has no key");
        if (string.IsNullOrWhiteSpace(key.Description)) throw Broken("has no description");
        Name = key.Name;
        Description = key.Description;
        Value = ContractOf(property.PropertyType);
        RequireEveryLimitUsed();
        IsRequired = property.IsDefined(typeof(RequiredMemberAttribute));
        Default = IsRequired ? null : property.GetValue(recordOfDefaults);
        if (!LimitsAllow(Default)) throw Broken("has a default outside its limits");
    }

    public string Name { get; }

    public string Description { get; }

    public ValueContract Value { get; }

    public bool IsRequired { get; }

    /// <summary>The value that holds when the key is left out; null when the key is required, or nothing holds.</summary>
    public object? Default { get; }

    public object? Get(object record) => _property.GetValue(record);

    public void Set(object record, object? value) => _property.SetValue(record, value);

    private NumberLimits Limits => _property
        .GetCustomAttributes<LimitAttribute>()
        .Aggregate(NumberLimits.None, (limits, attribute) => attribute.Narrow(limits));

    private ItemCount Count => new(
        _property.GetCustomAttribute<MinCountAttribute>()?.Count, _property.GetCustomAttribute<MaxCountAttribute>()?.Count);

    private ValueContract ContractOf(Type declared)
    {
        var type = Nullable.GetUnderlyingType(declared) ?? declared;
        if (type == typeof(double)) return new NumberContract(Limits);
        if (type == typeof(int)) return new WholeNumberContract(Limits);
        if (type == typeof(bool)) return new BooleanContract();
        if (type == typeof(string)) return new TextContract();
        if (type.IsEnum) return new NamedContract(type);
        if (IsGeneric(type, typeof(IReadOnlyList<>))) return new ListContract(ContractOf(type.GenericTypeArguments[0]), CountFor(type));
        if (IsGeneric(type, typeof(IReadOnlyDictionary<,>)) && type.GenericTypeArguments[0] == typeof(string))
            return new MapContract(ContractOf(type.GenericTypeArguments[1]), CountFor(type));
        if (type is { IsClass: true, IsSealed: true, IsArray: false } && type.GetConstructor(Type.EmptyTypes) is not null)
            return new ObjectContract(type);
        throw Broken($"is of type {type.Name}, which no file holds");
    }

    // The counts are those of the property's own list; lists inside it are of any length.
    private ItemCount CountFor(Type type) => type == _property.PropertyType ? Count : default;

    private static bool IsGeneric(Type type, Type definition) => type.IsGenericType && type.GetGenericTypeDefinition() == definition;

    private void RequireEveryLimitUsed()
    {
        if (Limits != NumberLimits.None && Innermost(Value) is not (NumberContract or WholeNumberContract))
            throw Broken("limits numbers but holds none");
        if (Count != default && Value is not (ListContract or MapContract))
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
        double number => Limits.Allow(number),
        int number => Limits.Allow(number),
        _ => true,
    };

    // These are mistakes in our records, not in anybody's file.
    private InvalidOperationException Broken(string what) => new($"{_property.DeclaringType!.Name}.{_property.Name} {what}.");
}
