using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>The roll damping of a vehicle over the torsional stiffness of its frame, from a soft ladder frame to an integral body.</summary>
/// <param name="Points">The vehicle's modes at each stiffness, ascending.</param>
/// <param name="Rigid">The vehicle's modes with a frame that does not twist.</param>
public sealed record FrameSweep(ImmutableArray<FramePoint> Points, VehicleModeSet Rigid)
{
    // N·m/deg: softer than any ladder frame, stiffer than any integral body (common practice, no source).
    private const double Softest = 300, Stiffest = 50_000;
    private const int Count = 41;

    /// <summary>Finds the modes with frames of other stiffness, everything else being the same.</summary>
    /// <param name="car">Vehicle and layout, with two axles.</param>
    /// <param name="velocity">Velocity amplitude at all dampers, m/s.</param>
    /// <param name="includeFriction">Whether friction counts.</param>
    /// <param name="cancellation">Stops it.</param>
    public static FrameSweep Of(AssembledHalfCar car, double velocity, bool includeFriction, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(car);
        VehicleModeSet With(double? stiffness)
        {
            cancellation.ThrowIfCancellationRequested();
            var second = car.Vehicle.SecondAxle!;
            var chassis = second.Chassis with { TorsionalStiffness = stiffness, TorsionalDamping = stiffness is null ? null : second.Chassis.TorsionalDamping };
            return VehicleModeFollower.Solve(new AssembledHalfCar(car.Vehicle with { SecondAxle = second with { Chassis = chassis } }, car.Layout), velocity, includeFriction);
        }

        double[] stiffnesses = [.. EvenSteps.Of(Math.Log(Softest), Math.Log(Stiffest), Count - 1).Select(log => Math.Exp(log) * Unit.NewtonMetrePerDegree.InSi)];
        return new FrameSweep([.. stiffnesses.Select(stiffness => new FramePoint(stiffness, With(stiffness)))], With(null));
    }
}

/// <summary>The vehicle's modes with one frame.</summary>
/// <param name="Stiffness">Torsional stiffness, N·m/rad.</param>
/// <param name="Modes">The modes.</param>
public sealed record FramePoint(double Stiffness, VehicleModeSet Modes);
