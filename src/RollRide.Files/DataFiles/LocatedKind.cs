using System.Diagnostics.CodeAnalysis;

namespace RollRide.DataFiles;

/// <summary>The kinds of value that a JSON file has.</summary>
public enum LocatedKind
{
    /// <summary>Keys with values, in braces.</summary>
    [SuppressMessage("Naming", "CA1720", Justification = "It is what JSON calls it.")]
    Object,

    /// <summary>Values in brackets.</summary>
    List,

    /// <summary>A number.</summary>
    Number,

    /// <summary>A text in double quotes.</summary>
    Text,

    /// <summary><c>true</c> or <c>false</c>.</summary>
    Boolean,

    /// <summary><c>null</c>.</summary>
    Null,
}
