namespace RollRide.DataFiles;

/// <summary>Lists the names that a key accepts and what each stands for, where that is more than a member of an enum.</summary>
[AttributeUsage(AttributeTargets.Property)]
public abstract class NamesAttribute : Attribute
{
    internal abstract IReadOnlyList<NamedValue> Values { get; }
}

/// <summary>A value that a file names.</summary>
/// <param name="Name">The name in the file.</param>
/// <param name="Meaning">What it means, for whoever writes the file.</param>
/// <param name="Value">What it stands for.</param>
internal sealed record NamedValue(string Name, string Meaning, object Value);
