namespace RollRide.Damping;

/// <summary>Dynamometer data that cannot be what they are said to be.</summary>
public sealed class DynoDataException : Exception
{
    /// <summary>Makes the exception.</summary>
    /// <param name="run">Name of the run at fault; null when it is all of them together.</param>
    /// <param name="sample">The sample at fault, counted from 0; null when it is the whole run.</param>
    /// <param name="reason">What is wrong and what is accepted.</param>
    public DynoDataException(string? run, int? sample, string reason)
        : base(run is null ? reason : $"{run}: {reason}")
    {
        Run = run;
        Sample = sample;
        Reason = reason;
    }

    /// <summary>Name of the run; null for all of them.</summary>
    public string? Run { get; }

    /// <summary>The sample, counted from 0; null for the whole run.</summary>
    public int? Sample { get; }

    /// <summary>What is wrong.</summary>
    public string Reason { get; }
}
