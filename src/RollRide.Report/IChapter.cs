namespace RollRide.Report;

/// <summary>
/// One step of the argument. It decides from the scenario whether it has anything to say; to add a capability to the report, write
/// one and put it into <see cref="ChapterList.InOrderOfArgument"/>.
/// </summary>
public interface IChapter
{
    /// <summary>What it says.</summary>
    /// <param name="input">What the report is written from.</param>
    /// <param name="cancellation">Stops the studies that it runs for itself.</param>
    /// <returns>The chapter; null where the scenario contains nothing for it, and then nothing of it appears.</returns>
    Chapter? Write(ReportInput input, CancellationToken cancellation);
}
