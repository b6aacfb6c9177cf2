using System.Text.RegularExpressions;

namespace RollRide.Fuzz;

/// <summary>Something that no input may bring about.</summary>
/// <param name="Kind">What it is, without the numbers of the case.</param>
/// <param name="Detail">What came out.</param>
internal sealed partial record Finding(string Kind, string Detail)
{
    /// <summary>Tells two findings with different numbers, names or places of lists as the same.</summary>
    public string Signature => Kind + ": " + Variable().Replace(Detail.Split('\n')[0], "#");

    [GeneratedRegex(@"-?\d[\d.,]*(?:[eE][-+]?\d+)?|'[^']*'|\[[^\]]*\]|k{20,}")]
    private static partial Regex Variable();
}
