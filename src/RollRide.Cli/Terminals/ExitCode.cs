namespace RollRide.Cli.Terminals;

/// <summary>What the program tells the shell when it ends.</summary>
public static class ExitCode
{
    /// <summary>Everything asked for was done.</summary>
    public const int Done = 0;

    /// <summary>
    /// Something in the command line, the scenario or a file it names is wrong, or the output cannot be written; nothing was written. Where it
    /// is the standard output that cannot be written, the files are in place.
    /// </summary>
    public const int BadInput = 2;

    /// <summary>
    /// The input was understood, but a run could not be finished, for example because the vehicle rolls over or the memory is not enough; nothing was written. Of a
    /// sweep: no variant could be run; its table, with the reasons, was.
    /// </summary>
    public const int RunFailed = 3;

    /// <summary>A fault of the program itself.</summary>
    public const int Internal = 70;

    /// <summary>The user stopped it with Ctrl-C (SIGINT); nothing was written, but the finished variants of a sweep were kept.</summary>
    public const int Cancelled = 130;

    /// <summary>SIGTERM stopped it, as a batch system or a shutdown sends it; otherwise as <see cref="Cancelled"/>.</summary>
    public const int Terminated = 143;
}
