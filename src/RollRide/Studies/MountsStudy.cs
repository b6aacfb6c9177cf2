using System.Collections.Immutable;
using MathNet.Numerics.RootFinding;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>Motion ratios and lengths of the dampers over the whole travel, from the exact geometry.</summary>
public static class MountsStudy
{
    private const int Steps = 40;
    private const double OverCentreAccuracy = 1e-6;

    /// <summary>Runs the study.</summary>
    /// <param name="study">The case.</param>
    /// <exception cref="StudyException">A linkage cannot reach the travel, or no travel is known.</exception>
    public static MountsResult Run(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        return new MountsResult(study, [.. study.Layouts.Select(study.Assemble).SelectMany(car => car.Layout.Places.Select(place => Of(car, place.Name, place.Side)))]);
    }

    private static ImmutableArray<WheelPosition> WheelOver(WheelLinkage linkage, double down, double up)
    {
        try
        {
            return [.. Range(down, up).Select(linkage.WheelAt)];
        }
        catch (UnreachableTravelException e)
        {
            throw StudyException.At("Linkage", e);
        }
    }

    private static LayoutMounts Of(AssembledHalfCar car, string name, Side side)
    {
        var (vehicle, layout, damper) = (car.Vehicle, car.Layout, car.Layout.On(side));
        var fitting = damper.Fitting;
        var travel = vehicle.Envelope
            ?? throw new ArgumentException("The vehicle gives no travel, and its stops do not limit both heave and roll.", nameof(car));
        MountPosition At(double heave, double roll)
        {
            var motion = fitting.At(heave, roll, side);
            return new MountPosition(heave, roll, motion.HeaveRatio, (int)side * motion.RollArm / vehicle.HalfTrack, motion.Compression);
        }

        try
        {
            var heaves = Range(-travel.Range.Rebound, travel.Range.Bump);
            var all = (from heave in heaves.Union(travel.Corners.Select(corner => corner.Heave)) let most = travel.RollAt(heave) from roll in Range(-most, most) select At(heave, roll)).ToArray();

            // A load may stand beyond the travel: then it is the roll left at the travel's near end.
            double rollAtRest = travel.RollAt(Math.Clamp(0, -travel.Range.Rebound, travel.Range.Bump));
            var (shortest, longest) = (all.MaxBy(position => position.Compression)!, all.MinBy(position => position.Compression)!);
            return new LayoutMounts(
                layout,
                name,
                fitting,
                travel,
                vehicle.Linkage is { } linkage ? WheelOver(linkage, -travel.Range.Rebound, travel.Range.Bump) : [],
                [.. heaves.Select(heave => At(heave, 0))],
                [.. Range(-rollAtRest, rollAtRest).Select(roll => At(0, roll))],
                (fitting as IMountedElement)?.Length,
                shortest,
                longest,
                damper.CompressionTravel - shortest.Compression,
                damper.ReboundTravel + longest.Compression,
                OverCentre(heaves, heave => At(heave, 0).HeaveRatio));
        }
        catch (UnreachableTravelException e)
        {
            throw new StudyException(name, e);
        }
    }

    private static double? OverCentre(ImmutableArray<double> heaves, Func<double, double> ratio)
    {
        for (int i = 1; i < heaves.Length; i++)
        {
            if (ratio(heaves[i - 1]) > 0 != ratio(heaves[i]) > 0)
                return Brent.FindRoot(ratio, heaves[i - 1], heaves[i], OverCentreAccuracy);
        }

        return null;
    }

    private static ImmutableArray<double> Range(double from, double to) => [.. EvenSteps.Of(from, to, Steps)];
}
