using RollRide.Dynamics;
using RollRide.Mounting;

namespace RollRide.Studies;

/// <summary>The studies that a report draws beside its runs, each the one that a command shows alone.</summary>
public sealed record ReportStudies
{
    private ReportStudies()
    {
    }

    /// <summary>The mounts over the travel; null where no damper has mount points, or the vehicle gives no travel.</summary>
    public StudyAnswer<MountsResult>? Mounts { get; private init; }

    /// <summary>Where the dampers fit; null where the case gives no room to place them in.</summary>
    public PlacementResult? Placement { get; private init; }

    /// <summary>The modes over damper velocity.</summary>
    public required ModesResult Modes { get; init; }

    /// <summary>The setting windows in each load state, or in the only one; null where the case asks for no damping ratios.</summary>
    public StudyAnswer<IReadOnlyList<SettingWindowResult>>? Windows { get; private init; }

    /// <summary>The dampers tuned, without their trade-off fronts; null where nothing was to be tuned for.</summary>
    public StudyAnswer<TuningResult>? Tuning { get; private init; }

    /// <summary>Runs the studies.</summary>
    /// <param name="study">The case in the load state that is shown.</param>
    /// <param name="tuning">What to tune for; null for nothing.</param>
    /// <param name="spool">Opens what takes the samples of a long run; null where they are held in memory, however long.</param>
    /// <param name="cancellation">Stops them.</param>
    /// <exception cref="StudyException">Dampers cannot be placed, or the modes not be found: the report has nothing to stand on.</exception>
    public static ReportStudies Run(StudyCase study, TuningTask? tuning = null, Func<IHistorySpool>? spool = null, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(study);
        return new ReportStudies
        {
            Mounts = study.Vehicle.Envelope is not null && study.Layouts.Any(layout => layout.Fitting is IMountedElement)
                ? StudyAnswer.Of(() => MountsStudy.Run(study))
                : null,
            Placement = study.Placement is null ? null : PlacementStudy.Run(study, cancellation),
            Modes = ModesStudy.Run(study, cancellation),
            Windows = study.Targets is null ? null : StudyAnswer.Of<IReadOnlyList<SettingWindowResult>>(() => [.. (study with { Load = null }).InEachLoad.Select(state => SettingWindowStudy.Run(state, cancellation))]),

            // The trade-off fronts take minutes; the command tune searches them. One valving serves all load states, as it does there.
            Tuning = tuning is null ? null : StudyAnswer.Of(() => TuningStudy.Run(study with { Load = null }, tuning, withFronts: false, spool, cancellation: cancellation)),
        };
    }
}

/// <summary>What a study found, or why it found nothing: the rest of a report stands without it.</summary>
/// <typeparam name="T">What it finds.</typeparam>
public sealed record StudyAnswer<T>
    where T : class
{
    internal StudyAnswer()
    {
    }

    /// <summary>What was found; null after a failure.</summary>
    public T? Found { get; internal init; }

    /// <summary>Why nothing was found, as the study says it; empty where something was.</summary>
    public string Failure { get; internal init; } = "";
}

/// <summary>Asks studies of which one may find nothing.</summary>
public static class StudyAnswer
{
    /// <summary>What a study finds, or why it finds nothing.</summary>
    /// <typeparam name="T">What it finds.</typeparam>
    /// <param name="study">Runs it.</param>
    public static StudyAnswer<T> Of<T>(Func<T> study)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(study);
        try
        {
            return new StudyAnswer<T> { Found = study() };
        }
        catch (StudyException e)
        {
            return new StudyAnswer<T> { Failure = e.Message };
        }
    }
}
