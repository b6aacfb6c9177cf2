using RollRide.DataFiles;
using RollRide.Sweeps;

namespace RollRide.Scenarios;

/// <summary>Turns what scatters in a tuning into a task.</summary>
public static class ScatterReader
{
    /// <summary>Path of what scatters in a scenario.</summary>
    public const string Path = "tuning.scatter";

    /// <summary>Reads the task; null where nothing scatters.</summary>
    /// <param name="template">The scenario.</param>
    /// <exception cref="DataFileException">A path or distribution makes no sense; all such faults.</exception>
    public static RobustTask? Read(ScenarioTemplate template)
    {
        ArgumentNullException.ThrowIfNull(template);
        return template.Scatter is not { } file
            ? null
            : new RobustTask(
                SweepPlanReader.Read(template, new SweepFile { Parameters = file.Parameters, Samples = file.Samples, Seed = file.Seed, Design = SweepDesignKind.LatinHypercube }, Path),
                file.Minimise);
    }
}
