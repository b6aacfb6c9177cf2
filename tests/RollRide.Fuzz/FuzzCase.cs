namespace RollRide.Fuzz;

/// <summary>A seed, the command run on it, and what is changed before.</summary>
/// <param name="Seed">The unchanged scenario.</param>
/// <param name="Words">The command line.</param>
/// <param name="Changes">The changes, in order.</param>
internal sealed record FuzzCase(Seed Seed, IReadOnlyList<string> Words, IReadOnlyList<Change> Changes)
{
    /// <summary>The input with all changes made.</summary>
    public CaseInput Input()
    {
        var input = Seed.Input.Copy();
        input.Words.AddRange(Words);
        foreach (var change in Changes)
            change.Apply(input);
        return input;
    }
}
