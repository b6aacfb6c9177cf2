using RollRide.DataFiles;
using RollRide.Sweeps;

namespace RollRide.Scenarios;

/// <summary>Turns what scatters in a tuning into a task.</summary>
public static class ScatterReader
{
    /// <summary>Path of what scatters in a scenario.</summary>
    public const string Path = "tuning.scatter";

    // What damping ratios depend on.
    private static readonly string[] OfVehicle = ["vehicle", "wholeVehicle", "dampers", "layouts", "loadStates"];

    /// <summary>Reads the task; null where nothing scatters.</summary>
    /// <param name="template">The scenario.</param>
    /// <exception cref="DataFileException">A path or distribution makes no sense; all such faults.</exception>
    public static RobustTask? Read(ScenarioTemplate template)
    {
        ArgumentNullException.ThrowIfNull(template);
        if (template.Scatter is not { } file)
            return null;
        var plan = SweepPlanReader.Read(template, new SweepFile { Parameters = file.Parameters, Samples = file.Samples, Seed = file.Seed, Design = SweepDesignKind.LatinHypercube }, Path);
        var idle = plan.Parameters.ToList().FindIndex(parameter => !OfVehicle.Any(part => parameter.Path.StartsWith(part, StringComparison.Ordinal)));
        return idle < 0 ? new RobustTask(plan, file.Minimise) : throw new DataFileException(template.FaultAt(
            $"{Path}.parameters[{idle}].path", $"“{plan.Parameters[idle].Name}” is no number of the vehicle, so it changes no damping ratio; what scatters among vehicles stands under {string.Join(", ", OfVehicle)}"));
    }
}
