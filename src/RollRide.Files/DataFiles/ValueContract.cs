using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;

namespace RollRide.DataFiles;

/// <summary>What may stand behind a key: one of the types below.</summary>
/// <param name="Type">The .NET type that it is read into.</param>
internal abstract record ValueContract(Type Type)
{
    /// <summary>What is accepted, in words: "a number above 0".</summary>
    public abstract string Accepted { get; }

    /// <summary>The record that this value holds, directly or as items; null when it holds none.</summary>
    public virtual RecordContract? Record => null;
}

/// <summary>A number.</summary>
internal sealed record NumberContract(NumberLimits Limits) : ValueContract(typeof(double))
{
    public override string Accepted => $"a number {Limits}".TrimEnd();
}

/// <summary>A number without a fraction.</summary>
internal sealed record WholeNumberContract(NumberLimits Limits) : ValueContract(typeof(int))
{
    public override string Accepted => $"a whole number {Limits}".TrimEnd();
}

/// <summary><c>true</c> or <c>false</c>.</summary>
internal sealed record BooleanContract() : ValueContract(typeof(bool))
{
    public override string Accepted => "true or false";
}

/// <summary>A text with at least one visible character.</summary>
internal sealed record TextContract() : ValueContract(typeof(string))
{
    public override string Accepted => "a text";
}

/// <summary>One of several names: of an enum's members, written in camel case, or as <see cref="NamesAttribute"/> lists them.</summary>
internal sealed record NamedContract : ValueContract
{
    public NamedContract(Type type, IReadOnlyList<(string Name, object Value)> values)
        : base(type)
    {
        Values = values.ToFrozenDictionary(named => named.Name, named => named.Value);
        Names = [.. values.Select(named => named.Name)];
    }

    public NamedContract(Type type)
        : this(type, [.. Enum.GetNames(type).Select(name => (WrittenName(name), Enum.Parse(type, name)))])
    {
    }

    public ImmutableArray<string> Names { get; }

    public FrozenDictionary<string, object> Values { get; }

    public override string Accepted => $"one of {string.Join(", ", Names.Select(name => $"\"{name}\""))}";

    public string NameOf(object value) => Names.First(name => Values[name].Equals(value));

    public static string WrittenName(string member) => JsonNamingPolicy.CamelCase.ConvertName(member);
}

/// <summary>An object with the keys of a record.</summary>
internal sealed record ObjectContract(Type Type) : ValueContract(Type)
{
    // Looked up when asked for, not before: a record may hold records of its own type.
    public override RecordContract Record => RecordContract.Of(Type);

    public override string Accepted => "an object in { }";
}

/// <summary>A list of values of one kind.</summary>
internal sealed record ListContract(ValueContract Item, ItemCount Count)
    : ValueContract(typeof(IReadOnlyList<>).MakeGenericType(Item.Type))
{
    public override RecordContract? Record => Item.Record;

    public override string Accepted => $"a list in [ ]{Count}, each item {Item.Accepted}";
}

/// <summary>An object whose keys are names that the user chose.</summary>
internal sealed record MapContract(ValueContract Item, ItemCount Count)
    : ValueContract(typeof(IReadOnlyDictionary<,>).MakeGenericType(typeof(string), Item.Type))
{
    /// <summary>The type of dictionary that it is read into.</summary>
    public Type Entries { get; } = typeof(OrderedDictionary<,>).MakeGenericType(typeof(string), Item.Type);

    public override RecordContract? Record => Item.Record;

    public override string Accepted => $"an object in {{ }} of names of your choice{Count}, each value {Item.Accepted}";
}

/// <summary>The number of items that a list accepts; null where there is no limit.</summary>
internal readonly record struct ItemCount(int? Min, int? Max)
{
    public bool Allows(int count) => !(count < Min) && !(count > Max);

    /// <summary>The limits in words that follow the name of the list; empty when there is none.</summary>
    public override string ToString() => (Min, Max) switch
    {
        (null, null) => "",
        ({ } min, null) => string.Create(CultureInfo.InvariantCulture, $" of at least {min}"),
        (null, { } max) => string.Create(CultureInfo.InvariantCulture, $" of at most {max}"),
        ({ } min, { } max) when min == max => string.Create(CultureInfo.InvariantCulture, $" of {min}"),
        ({ } min, { } max) => string.Create(CultureInfo.InvariantCulture, $" of {min} to {max}"),
    };
}
