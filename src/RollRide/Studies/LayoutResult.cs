using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>What one layout did in a case, in figures; <see cref="RecordedLayout"/> has its channels over time too.</summary>
public record LayoutResult
{
    /// <summary>Vehicle and layout.</summary>
    public required AssembledHalfCar Car { get; init; }

    /// <summary>The figures of the run.</summary>
    public required RunMetrics Metrics { get; init; }

    /// <summary>Comfort and road holding of the ride; null unless the road is random.</summary>
    public RideMetrics? Ride { get; init; }

    /// <summary>
    /// The figures of the mirrored manoeuvre, in which the obstacles lie under the other wheel and the corner turns the other way; null where both sides
    /// are the same, so that it gives the same figures. They are told as in a mirror: left and right, and the signs of roll angles, are those of the
    /// manoeuvre as written. The corner from rest is not among them: <see cref="Metrics"/> has it both ways.
    /// </summary>
    public RunMetrics? Mirrored { get; init; }

    /// <summary>Comfort and road holding of the ride on the mirrored road; null unless the road is random and the sides differ.</summary>
    public RideMetrics? MirroredRide { get; init; }

    /// <summary>What the integration cost.</summary>
    public required RunStatistics Statistics { get; init; }

    /// <summary>The modes at the reference damper velocity.</summary>
    public required ModeSet ReferenceModes { get; init; }

    /// <summary>The modes at each damper velocity of the table.</summary>
    public required ImmutableArray<ModesAtVelocity> ModesByVelocity { get; init; }

    /// <summary>Whether one setting can meet the case's targets, and whether this one does; null if the case asks for none.</summary>
    public required WindowVerdict? Window { get; init; }

    /// <summary>What the layout is on the whole vehicle; null where the axle is looked at by itself.</summary>
    public LayoutOnVehicle? OnVehicle { get; init; }

    /// <summary>The figures of the manoeuvre, and of the mirrored one where that gives others.</summary>
    public IEnumerable<RunMetrics> BothWays => Mirrored is null ? [Metrics] : [Metrics, Mirrored];

    /// <summary>Name of the layout.</summary>
    public string Name => Car.Layout.Name;

    /// <summary>The steady roll of the body over lateral acceleration, rad per m/s².</summary>
    public double RollGradient => StandingVariation.RollGradient([Car]);
}

/// <summary>What one layout did in a case, its channels over time among it.</summary>
public sealed record RecordedLayout : LayoutResult
{
    /// <summary>Adds the channels to the figures of the same run.</summary>
    /// <param name="figures">The figures.</param>
    /// <param name="history">The channels over time.</param>
    /// <param name="corner">Body roll over time in the corner from rest; null where there is none.</param>
    [SetsRequiredMembers]
    public RecordedLayout(LayoutResult figures, TimeHistory history, TimeHistory? corner = null)
        : base(figures)
    {
        ArgumentNullException.ThrowIfNull(history);
        (History, Corner) = (history, corner);
    }

    /// <summary>The channels over time.</summary>
    public TimeHistory History { get; }

    /// <summary>Body roll over time in the corner from rest; null where there is none, or it could not be driven to its end.</summary>
    public TimeHistory? Corner { get; }
}

/// <summary>The modes at one damper velocity amplitude.</summary>
/// <param name="Velocity">Velocity amplitude at the damper, m/s.</param>
/// <param name="Modes">The modes with the equivalent coefficient at that velocity.</param>
public sealed record ModesAtVelocity(double Velocity, ModeSet Modes);
