namespace RollRide.DataFiles;

/// <summary>What became of the hidden folder that a run which was killed left in an output folder.</summary>
public enum LeftoverFate
{
    /// <summary>The run was killed while it put its files in place; the rest of them was put in place now.</summary>
    Finished,

    /// <summary>The run was killed before its files were whole; they were thrown away, and older results are as they were.</summary>
    Removed,

    /// <summary>It was left alone: its run may still be writing.</summary>
    LeftAlone,

    /// <summary>It was left alone though no run writes there: it has no lock, so its files cannot be told from anybody else's.</summary>
    WithoutLock,
}

/// <summary>The hidden folder of a run that was killed.</summary>
/// <param name="Path">Its path.</param>
/// <param name="Fate">What became of it.</param>
public sealed record LeftoverRun(string Path, LeftoverFate Fate)
{
    /// <summary>Finishes or removes what runs that were killed left in an output folder.</summary>
    /// <param name="output">The output folder; it need not exist.</param>
    /// <returns>What was found; empty as a rule.</returns>
    public static IReadOnlyList<LeftoverRun> Repair(string output) => [.. StagingFolder.AllIn(output).Select(path => new LeftoverRun(path, Repaired(path)))];

    private static LeftoverFate Repaired(string path)
    {
        if (StagingFolder.TakeOver(System.IO.Path.GetFullPath(path)) is not { } staging)
            return StagingFolder.HasLock(path) ? LeftoverFate.LeftAlone : LeftoverFate.WithoutLock;
        try
        {
            var isWhole = staging.IsWhole;
            if (isWhole)
                staging.PlaceRest();
            staging.Dispose();
            return isWhole ? LeftoverFate.Finished : LeftoverFate.Removed;
        }
        catch (Exception e) when (WriteFault.Is(e))
        {
            staging.Leave();
            return LeftoverFate.LeftAlone;
        }
    }
}
