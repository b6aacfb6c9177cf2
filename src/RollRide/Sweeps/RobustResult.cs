using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Studies;

namespace RollRide.Sweeps;

/// <summary>Valvings for all states of load and damper and for vehicles with tolerances.</summary>
/// <param name="Tuning">What tuning for perfect parts found.</param>
/// <param name="Task">What scatters; null for nothing.</param>
/// <param name="Layouts">One result a layout, in the order of the case.</param>
public sealed record RobustResult(TuningResult Tuning, RobustTask? Task, ImmutableArray<RobustLayout> Layouts)
{
    /// <summary>Whether the robust valving is one of its own: dampers have states, or something scatters.</summary>
    public bool IsOwn => Task is not null || Tuning.Study.Loads.Any(load => load.DamperState is not null);

    /// <summary>All valvings with their names, layout by layout: the robust one, and that for perfect parts before it where it is another.</summary>
    public IEnumerable<(string Name, RobustValving Valving)> Valvings => Layouts.SelectMany(layout => IsOwn
        ? [($"{layout.Name}, perfect parts as written", layout.Nominal), ($"{layout.Name}, robust", layout.Robust)]
        : new[] { (layout.Name, layout.Robust) });
}

/// <summary>The valvings of one layout.</summary>
/// <param name="Nominal">That for perfect parts with the damper as written, in every load.</param>
/// <param name="Robust">That for all states of the damper and all vehicles too.</param>
public sealed record RobustLayout(RobustValving Nominal, RobustValving Robust)
{
    /// <summary>Name of the layout.</summary>
    public string Name => Nominal.Tuned.Before.Name;
}

/// <summary>A valving, and how it holds.</summary>
public sealed record RobustValving
{
    /// <summary>The layout before and after.</summary>
    public required TunedLayout Tuned { get; init; }

    /// <summary>Where the heave target is kept, over all states of perfect parts.</summary>
    public required TargetWindow Heave { get; init; }

    /// <summary>Where the roll target is kept likewise.</summary>
    public required TargetWindow Roll { get; init; }

    /// <summary>The number of vehicles with tolerances on which the valving was judged: as many as it was sought for, and others.</summary>
    public required int Samples { get; init; }

    /// <summary>How many of them miss a target in any state.</summary>
    public required int Missing { get; init; }

    /// <summary>The tolerances of the heave and the roll ratio with which this valving would keep both in every state of every vehicle.</summary>
    public required (double Heave, double Roll) ToleranceForAll { get; init; }

    /// <summary>Weighted body acceleration over the ride's phase in the worst state of perfect parts, m/s²; null where there is none.</summary>
    public required double? Ride { get; init; }

    /// <summary>By what share its force may be less before a target is lost in any state: the wear that it bears; below 0 where one is lost already.</summary>
    public double Softer => Math.Min(Heave.Softer, Roll.Softer);

    /// <summary>By what share its force may be more before a target is lost in any state.</summary>
    public double Harder => Math.Min(Heave.Harder, Roll.Harder);

    /// <summary>The tolerance of its forces to be agreed with the workshop, as a share either way, in whole per cent; 0 where there is none to give.</summary>
    public double Tolerance => Math.Max(0, Math.Floor(100 * Math.Min(Softer, Harder)) / 100);

    /// <summary>The same as it stands on a valving sheet; null where there is none to give.</summary>
    public ForceTolerance? ForceTolerance => Tolerance > 0 ? new(Tolerance) : null;
}
