namespace RollRide.Tests;

/// <summary>
/// What the expectation of a row of the validation table rests on. Each is the beginning of the row's source, as in
/// <c>Evidence.Printed + "Hairer 1993, p. 130"</c>.
/// </summary>
internal static class Evidence
{
    /// <summary>A number or formula that stands in a source which was seen; the source names page, table or example.</summary>
    public const string Printed = "printed: ";

    /// <summary>The same, in notes that nobody has reviewed, such as course notes or a student team's documents.</summary>
    public const string PrintedUnreviewed = "printed in unreviewed notes: ";

    /// <summary>Remembered from a source that was not at hand.</summary>
    public const string Remembered = "remembered: ";

    /// <summary>Worked out for the test by a route other than the program's.</summary>
    public const string Derived = "derived: ";

    /// <summary>A fact of the trade without a source.</summary>
    public const string Practice = "common practice: ";

    /// <summary>All of them, in the order of the page.</summary>
    public static IReadOnlyList<string> All { get; } = [Printed, PrintedUnreviewed, Remembered, Derived, Practice];
}
