using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Mounting;

namespace RollRide.Metrics;

/// <summary>That a damper's gas did not hold the force of its compression valves: the oil around the rod cavitates, and the damper gives less than the model says.</summary>
/// <param name="Side">The side of the damper.</param>
/// <param name="Start">When it began first, s.</param>
/// <param name="Duration">How long it lasted in all, s.</param>
/// <param name="WorstTime">When the gas was furthest from holding it, s.</param>
/// <param name="ValveForce">What the compression valves took then, N.</param>
/// <param name="HeldForce">What the gas held with the stroke of that instant, N.</param>
public sealed record Cavitation(Side Side, double Start, double Duration, double WorstTime, double ValveForce, double HeldForce)
{
    /// <summary>The cavitation of each damper in which there was any.</summary>
    internal static ImmutableArray<Cavitation> Of(AssembledHalfCar car, Tallies run)
    {
        IEnumerable<Cavitation> On(Side side, Gauge spells, Gauge missing)
        {
            if (car.Layout.On(side).Damper.Gas?.PistonRingArea is { } area && Spells.Of(run[spells]).ToList() is { Count: > 0 } times)
            {
                var worst = run[missing];
                yield return new Cavitation(side, times[0].Start, Spells.Duration(run[spells]), worst.Time, (worst.Beside + worst.Value) * area, worst.Beside * area);
            }
        }

        return
        [
            .. On(Side.Left, PhaseMetric.CavitationsLeft, PhaseMetric.PressureMissingLeft),
            .. On(Side.Right, PhaseMetric.CavitationsRight, PhaseMetric.PressureMissingRight),
        ];
    }
}
