using System.Collections.Immutable;
using RollRide.Cornering;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Dynamics;

/// <summary>What the vehicle is driven over and through.</summary>
public sealed record Manoeuvre
{
    /// <summary>The road under both wheels and the speed over it.</summary>
    public required Road Road { get; init; }

    /// <summary>The cornering; <see cref="GivenLateralAcceleration.StraightAhead"/> for none.</summary>
    public required ICorneringInput Cornering { get; init; }

    /// <summary>Length of the run, s; greater than 0.</summary>
    public required double Duration { get; init => field = Require.Positive(value, "s", nameof(Duration)); }

    /// <summary>The named spans of time for which metrics are taken besides the whole run; they may overlap.</summary>
    public ImmutableArray<Phase> Phases { get; init; } = [];

    /// <summary>Whether a corner is driven.</summary>
    public bool HasCorner => Cornering.StartTime < Duration;

    /// <summary>Every time at which an input has a kink or a phase starts or ends, s, ascending within the run.</summary>
    public IReadOnlyList<double> Breakpoints
    {
        get
        {
            List<double> times = [.. Road.Breakpoints, .. Cornering.Breakpoints];
            foreach (var phase in Phases)
                times.AddRange([phase.Start, phase.End]);
            times.RemoveAll(time => !(time > 0 && time < Duration));
            return Ascending.Once(times);
        }
    }

    /// <summary>A time strictly within the segment between two breakpoints that holds a time, s; at a breakpoint that of the segment before it.</summary>
    /// <param name="time">The time, s, from 0 to the end of the run.</param>
    internal double MiddleOfSegment(double time)
    {
        double[] ends = [0, .. Breakpoints, Duration];
        var i = 1;
        while (i < ends.Length - 1 && ends[i] < time)
            i++;
        return 0.5 * (ends[i - 1] + ends[i]);
    }
}

/// <summary>A named span of time in a manoeuvre.</summary>
/// <param name="Name">Its name, such as "bump" or "corner".</param>
/// <param name="Start">Start, s; 0 or more.</param>
/// <param name="End">End, s; after the start.</param>
public sealed record Phase(string Name, double Start, double End)
{
    /// <summary>Name of the phase over a measured road.</summary>
    public const string MeasuredRoad = "measured road";

    /// <summary>Start, s; 0 or more.</summary>
    public double Start { get; } = Require.NotNegative(Start, "s");

    /// <summary>End, s; after the start.</summary>
    public double End { get; } = double.IsFinite(End) && End > Start
        ? End
        : throw new ArgumentOutOfRangeException(nameof(End), End, FormattableString.Invariant($"Phase “{Name}” ends at {End} s, which is not after its start at {Start} s."));
}
