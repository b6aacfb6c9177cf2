using System.Collections.Immutable;
using RollRide.DataFiles;
using RollRide.Studies;

namespace RollRide.Scenarios;

/// <summary>A scenario file that was read and understood.</summary>
/// <param name="Study">What to study.</param>
/// <param name="Output">How to write results.</param>
/// <param name="Warnings">What is possible but not plausible, each with its place in the file.</param>
public sealed record Scenario(StudyCase Study, OutputFile Output, ImmutableArray<string> Warnings)
{
    /// <summary>What the dampers are tuned for; null where the file does not say, or says it with <see cref="TuningFaults"/>.</summary>
    public TuningTask? Tuning { get; init; }

    /// <summary>Whether the file asks for a tuning, read here or not.</summary>
    public bool AsksForTuning { get; init; }

    /// <summary>Why the file's tuning cannot be used; empty where it can or there is none.</summary>
    public ImmutableArray<DataFileFault> TuningFaults { get; init; } = [];
}
