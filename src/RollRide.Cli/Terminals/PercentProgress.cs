namespace RollRide.Cli.Terminals;

/// <summary>Passes a share done, 0 to 1, on as whole per cent.</summary>
internal sealed class PercentProgress(IProgress<int> percent) : IProgress<double>
{
    public void Report(double value) => percent.Report((int)(100 * value));
}
