using RollRide.Numerics;

namespace RollRide.Dynamics.Series;

/// <summary>One lane of a <see cref="SeriesSolver{T}"/>: the run in it, and which pieces of its force laws act now.</summary>
internal sealed class SeriesLane
{
    /// <summary>The run; null if the lane is idle.</summary>
    public SeriesCar? Car { get; set; }

    /// <summary>Its tolerances and limits.</summary>
    public IntegratorOptions Options { get; set; } = new();

    /// <summary>Number of the segment of the inputs.</summary>
    public int Segment { get; set; }

    /// <summary>The piece that acts of each damper and each spring, by <see cref="SeriesGuard"/>.</summary>
    public int[] Pieces { get; } = new int[SeriesGuard.Stop];

    /// <summary>Whether each stop is closed.</summary>
    public bool[] Closed { get; } = new bool[4];

    /// <summary>Whether each tyre is in the air.</summary>
    public bool[] Lifted { get; } = new bool[4];

    /// <summary>The guards that reach a bound at the end of the step, a bit each.</summary>
    public int Reached { get; set; }

    /// <summary>The bounds reached that are upper ones, a bit each.</summary>
    public int Rising { get; set; }

    /// <summary>Force of springs and stops at zero, N.</summary>
    public double SpringForce { get; set; }

    /// <summary>Moment of springs and stops at zero, N·m.</summary>
    public double SpringMoment { get; set; }
}
