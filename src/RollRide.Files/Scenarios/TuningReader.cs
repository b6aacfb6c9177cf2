using RollRide.Modes;
using RollRide.Studies;

namespace RollRide.Scenarios;

/// <summary>Turns the tuning of a file into a task.</summary>
internal static class TuningReader
{
    private const string Path = "tuning";

    /// <summary>Reads the task; null if the scenario has none or it has a fault.</summary>
    /// <param name="context">The file.</param>
    /// <param name="study">The case, in which the vehicle stands in each of its load states.</param>
    public static TuningTask? Read(ReadingContext context, StudyCase study)
    {
        var manoeuvre = study.Manoeuvre;
        if (context.File.Tuning is not { } file)
            return null;
        var limits = file.Limits;
        var split = ReadRange(context, "reboundToCompression", limits.ReboundToCompression);
        var knee = ReadRange(context, "kneeVelocity_m_per_s", limits.KneeVelocity);
        var force = ReadRange(context, "kneeForce_N", limits.KneeForce);
        var share = ReadRange(context, "highSpeedShare", limits.HighSpeedShare);
        if (force?.Lowest > limits.Force)
            context.Refuse($"{Path}.limits.kneeForce_N[0]", $"the lowest knee force is above the force limit of {limits.Force} N");
        if (file.Heave.Weight + file.Roll.Weight == 0)
            context.Refuse($"{Path}.roll.weight", $"one of both weights must be above 0");
        if (manoeuvre.Phases.All(phase => phase.Name != file.TradeOff.RidePhase))
            context.Refuse($"{Path}.tradeOff.ridePhase", manoeuvre.Phases.IsEmpty
                ? (FormattableString)$"the manoeuvre has no such phase; it has none at all"
                : $"the manoeuvre has no such phase; known: {string.Join(", ", manoeuvre.Phases.Select(phase => phase.Name))}");
        if (manoeuvre.Cornering.StartTime >= manoeuvre.Duration || manoeuvre.Cornering.FinalLateralAcceleration == 0)
            context.Refuse(Path, $"tuning weighs the ride against the roll overshoot in a corner, so the manoeuvre needs cornering that ends with a lateral acceleration");
        if (split is null || knee is null || force is null || share is null || context.Faults.Count > 0)
            return null;
        var task = context.Make(Path, () => new TuningTask
        {
            Heave = Target(file.Heave),
            Roll = Target(file.Roll),
            Limits = new TuningLimits
            {
                Force = limits.Force,
                ForceVelocity = limits.ForceVelocity,
                ReboundToCompression = split,
                KneeVelocity = knee,
                KneeForce = force,
                HighSpeedShare = share,
            },
            Floors = new DampingFloors { Heave = file.Floors.Heave, Roll = file.Floors.Roll, Hop = file.Floors.Hop, Tramp = file.Floors.Tramp },
            TradeOff = new TradeOffSettings { RidePhase = file.TradeOff.RidePhase, Points = file.TradeOff.Points },
        });
        if (task is not null && context.ChecksLoads)
            CheckForces(context, task, study);
        return context.Faults.Count > 0 ? null : task;
    }

    /// <summary>Refuses targets that the force limit puts out of reach in every layout and load state, whatever the valving.</summary>
    private static void CheckForces(ReadingContext context, TuningTask task, StudyCase study)
    {
        Check(ModeName.Heave, task.Heave, $"{Path}.heave.ratio");
        Check(ModeName.Roll, task.Roll, $"{Path}.roll.ratio");

        void Check(ModeName mode, TuningTarget target, string path)
        {
            // The split of either direction may go to the even one if the limits hold it: the least force of all.
            var split = Math.Clamp(1, task.Limits.ReboundToCompression.Lowest, task.Limits.ReboundToCompression.Highest);
            var needed = study.InEachLoad
                .SelectMany(inLoad => study.Layouts.Select(layout => TargetTuning.SmallestForce(inLoad.Assemble(layout), mode, target, split)))
                .ToList();
            var reachable = needed.OfType<double>().ToList();
            if (reachable.Count > 0 && reachable.Min() > task.Limits.Force)
            {
                context.Refuse(path, $"beyond the force limit in every layout: at {target.DamperVelocity} m/s even a valve of constant force needs {reachable.Min():F0} N for it, and tuning.limits.force_N allows {task.Limits.Force} N");
            }
        }
    }

    private static TuningTarget Target(TuningTargetFile file) => new(file.Ratio, file.Tolerance, file.DamperVelocity, file.Weight);

    private static ValueRange? ReadRange(ReadingContext context, string key, IReadOnlyList<double> values)
    {
        if (values[1] >= values[0])
            return new ValueRange(values[0], values[1]);
        context.Refuse($"{Path}.limits.{key}", $"the lowest value must stand first; {values[0]} is above {values[1]}");
        return null;
    }
}
