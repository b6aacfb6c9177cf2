using RollRide.Modes;

namespace RollRide.Scenarios;

/// <summary>Turns the targets of a file into what a window is found from.</summary>
internal static class TargetsReader
{
    /// <summary>Reads the targets; null if there are none, or after a fault.</summary>
    public static DampingTargets? Read(ReadingContext context)
    {
        if (context.File.Targets is not { } file)
            return null;
        if (file.HeaveMinimum >= file.HeaveMaximum)
        {
            context.Refuse(
                "targets.heaveDampingRatioMinimum",
                $"the targets contradict each other: this is not less than heaveDampingRatioMaximum, {file.HeaveMaximum}{context.LineOf("targets.heaveDampingRatioMaximum")}; no heave damping ratio can meet both");
            return null;
        }

        return context.Make("targets", () => new DampingTargets(
            file.RollMinimum,
            file.HeaveMinimum,
            file.HeaveMaximum,
            file.DamperVelocity ?? context.File.Analysis.ReferenceDamperVelocity)
        {
            HopMinimum = file.HopMinimum,
            TrampMinimum = file.TrampMinimum,
        });
    }
}
