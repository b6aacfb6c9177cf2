using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Turns a placement into a fitting.</summary>
internal static class PlacementReader
{
    /// <summary>Reads a placement; null after a fault.</summary>
    public static IFitting? Read(ReadingContext context, string path, PlacementFile file)
    {
        var vehicle = context.File.Vehicle;
        var independent = vehicle.Suspension == SuspensionKind.Independent;
        var halfTrack = vehicle.TrackMm / 2 * Units.MetresPerMm;
        if (file.MotionRatios is { } ratios)
        {
            if (independent && ratios.Heave != ratios.Roll)
            {
                context.Refuse(
                    $"{path}.motionRatios.roll",
                    $"on independent suspension each wheel moves its own element, so this must equal heave ({ratios.Heave})");
                return null;
            }

            return context.Make(path, () => new FixedRatioFitting(ratios.Heave, ratios.Roll, halfTrack));
        }

        if (file.Mounts is { } mounts)
        {
            if (independent)
            {
                context.Refuse($"{path}.mounts", $"these are mounts on a live axle, and the suspension is independent; give arm or motionRatios");
                return null;
            }

            var below = new[] { ("axleEnd_mm", mounts.AxleEndMm[2]), ("bodyEnd_mm", mounts.BodyEndMm[2]) }.Where(end => end.Item2 <= 0).ToList();
            foreach (var (end, _) in below)
                context.Refuse($"{path}.mounts.{end}[2]", $"this end is under the road; z counts up from the road and must be greater than 0");
            if (below.Count > 0)
                return null;
            if (mounts.AxleEndMm[1] < 0)
                context.Warn($"{path}.mounts.axleEnd_mm[1]", $"the left element stands right of the centre plane; y counts to the left");
            return context.Make($"{path}.mounts", () => new LiveAxleMountFitting(
                ToPoint3(mounts.AxleEndMm),
                ToPoint3(mounts.BodyEndMm),
                vehicle.RollCentreHeightMm * Units.MetresPerMm,
                halfTrack));
        }

        if (!independent)
        {
            context.Refuse($"{path}.arm", $"this is an independent wheel's arm, and the suspension is a live axle; give mounts or motionRatios");
            return null;
        }

        return context.Make($"{path}.arm", () => new ArmMountFitting(
            ToRearView(file.Arm!.PivotMm),
            ToRearView(file.Arm.OuterJointMm),
            ToRearView(file.Arm.ArmMountMm),
            ToRearView(file.Arm.BodyMountMm),
            halfTrack));
    }

    /// <summary>Length between the mounts at ride height, m; null where only ratios are given.</summary>
    public static double? RestLength(IFitting fitting) => fitting switch
    {
        LiveAxleMountFitting mounts => mounts.Length,
        ArmMountFitting arm => arm.Length,
        _ => null,
    };

    private static Point3 ToPoint3(IReadOnlyList<double> mm) =>
        new(mm[0] * Units.MetresPerMm, mm[1] * Units.MetresPerMm, mm[2] * Units.MetresPerMm);

    private static RearViewPoint ToRearView(IReadOnlyList<double> mm) =>
        new(mm[0] * Units.MetresPerMm, mm[1] * Units.MetresPerMm);
}
