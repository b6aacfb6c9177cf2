namespace RollRide.Report;

/// <summary>
/// One step of the argument. It draws what studies found, runs none itself, and decides from what they found whether it has anything to say; to add a
/// capability to the report, write one and put it into <c>ChapterList.InOrderOfArgument</c>.
/// </summary>
public interface IChapter
{
    /// <summary>What it says.</summary>
    /// <param name="input">What the report is written from.</param>
    /// <returns>The chapter; null where the scenario contains nothing for it, and then nothing of it appears.</returns>
    Chapter? Write(ReportInput input);
}
