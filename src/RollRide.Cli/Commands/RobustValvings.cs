using System.CommandLine;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Sweeps;

namespace RollRide.Cli.Commands;

/// <summary>Tunes for all states and for vehicles built with tolerances, with progress: 'tune' and 'report' say the same.</summary>
internal static class RobustValvings
{
    /// <summary>Finds them.</summary>
    /// <param name="parsed">The command line.</param>
    /// <param name="path">The scenario.</param>
    /// <param name="task">What scatters; null for nothing.</param>
    /// <param name="tuning">What tuning for perfect parts found.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="DataFileException">The numbers of a sample make no vehicle: a fault of the file.</exception>
    /// <exception cref="StudyException">A run could not be finished, or no valving keeps the limits.</exception>
    public static RobustResult Find(ParseResult parsed, string path, RobustTask? task, TuningResult tuning, CancellationToken cancellation)
    {
        using var progress = ProgressLine.Of(parsed, "Per cent of the vehicles", 100);
        try
        {
            return RobustTuning.Run(tuning, task, new PercentProgress(progress), cancellation);
        }
        catch (RefusedSampleException e)
        {
            throw new DataFileException(new DataFileFault(path, null, ScatterReader.Path, null, e.Message), e);
        }
    }
}
