using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>What the axle's guidance decides: the roll centre, and the linkage where the wheels have one.</summary>
/// <param name="RollCentreHeight">Height of the roll centre above the ground, m.</param>
/// <param name="RollCentreBodyShare">How far the roll centre follows the body under a load, 0 to 1; null for the default of the suspension.</param>
/// <param name="Linkage">The linkage of an independent wheel; null where only the height is given.</param>
/// <param name="Travel">The travel; null where it is not given.</param>
internal sealed record AxleGeometry(double RollCentreHeight, double? RollCentreBodyShare, WheelLinkage? Linkage, TravelRange? Travel)
{
    /// <summary>Reads it; null after a fault.</summary>
    public static AxleGeometry? Read(ReadingContext context)
    {
        var file = context.File.Vehicle;
        var travel = file.Travel is { } range
            ? new TravelRange { Bump = range.BumpMm * Unit.Millimetre.InSi, Rebound = range.ReboundMm * Unit.Millimetre.InSi, Roll = range.RollDeg * Unit.Degree.InSi, Combinations = range.Combinations }
            : null;
        if (file.RollCentreHeightMm is { } height)
            return new AxleGeometry(height * Unit.Millimetre.InSi, file.RollCentreBodyShare, null, travel);
        if (file.RollCentreBodyShare is not null)
            context.Refuse("vehicle.rollCentreBodyShare", $"this goes with rollCentreHeight_mm; with {(file.LateralLocation is null ? "linkage" : "lateralLocation")} it follows from the geometry");
        if (file.LateralLocation is { } location)
            return ReadLocation(context, location) is { } held ? new AxleGeometry(held.RollCentreHeight, held.RollCentreBodyShare, null, travel) : null;
        if (!file.Suspension.GuidesEachWheel)
        {
            context.Refuse("vehicle.linkage", $"a linkage guides an independent wheel, and this vehicle has {file.Suspension.Noun}; give lateralLocation or rollCentreHeight_mm");
            return null;
        }

        var linkage = ReadLinkage(context, file.Linkage!, file.TrackMm / 2 * Unit.Millimetre.InSi);
        if (linkage is null || (travel is { Combinations: TravelCombinations.All } && !Reaches(context, linkage, travel)))
            return null;
        return new AxleGeometry(linkage.WheelAt(0).RollCentreHeight, null, linkage, travel);
    }

    private static LateralLocation? ReadLocation(ReadingContext context, LateralLocationFile file)
    {
        if (context.File.Vehicle.Suspension is { HasAxle: false } suspension)
        {
            context.Refuse("vehicle.lateralLocation", $"this holds a live axle, and this vehicle has {suspension.Noun}; give linkage or rollCentreHeight_mm");
            return null;
        }

        if (file.PanhardRod is { } rod)
            return context.Make<LateralLocation>("vehicle.lateralLocation.panhardRod", () => new PanhardRod(Points.RearView(rod.AxleEndMm), Points.RearView(rod.BodyEndMm)));
        if (file.WattLinkage is { } watt)
            return new WattLinkage(watt.PivotHeightMm * Unit.Millimetre.InSi) { PivotIsOnBody = watt.PivotOn == PivotPlace.Body };
        var leaf = file.LeafSprings!;
        var (front, rear) = (Points.RearView(leaf.FrontEyeMm), Points.RearView(leaf.RearEyeMm));
        var before = context.Faults.Count;
        if (front.Y <= 0)
            context.Refuse("vehicle.lateralLocation.leafSprings.frontEye_mm[0]", $"the front eye must lie in front of the axle: x must be above 0");
        if (rear.Y >= 0)
            context.Refuse("vehicle.lateralLocation.leafSprings.rearEye_mm[0]", $"the rear eye must lie behind the axle: x must be below 0");
        if (context.Faults.Count > before)
            return null;
        return context.Make<LateralLocation>("vehicle.lateralLocation.leafSprings", () => new LeafSpringLocation(front.Y, front.Z, rear.Y, rear.Z));
    }

    private static WheelLinkage? ReadLinkage(ReadingContext context, LinkageFile file, double halfTrack)
    {
        double centre = file.WheelCentreHeightMm * Unit.Millimetre.InSi;
        if (file.DoubleWishbone is { } arms)
        {
            return context.Make<WheelLinkage>("vehicle.linkage.doubleWishbone", () => new DoubleWishbone(
                Points.RearView(arms.LowerPivotMm), Points.RearView(arms.LowerJointMm), Points.RearView(arms.UpperPivotMm), Points.RearView(arms.UpperJointMm), centre, halfTrack));
        }

        if (file.Strut is { } strut)
        {
            return context.Make<WheelLinkage>("vehicle.linkage.strut", () => new StrutSuspension(
                Points.RearView(strut.LowerPivotMm), Points.RearView(strut.LowerJointMm), Points.RearView(strut.FootMm), Points.RearView(strut.TopMountMm), centre, halfTrack));
        }

        var arm = file.TrailingArm!;
        return context.Make<WheelLinkage>("vehicle.linkage.trailingArm", () => new TrailingArm(Points.Space(arm.InnerPivotMm), Points.Space(arm.OuterPivotMm), centre, halfTrack));
    }

    /// <summary>Whether one wheel can go as far as heave and roll together take it.</summary>
    private static bool Reaches(ReadingContext context, WheelLinkage linkage, TravelRange travel)
    {
        double byRoll = travel.Roll * linkage.HalfTrack;
        double up = travel.Bump + byRoll, down = -travel.Rebound - byRoll;
        if (up >= linkage.Highest.Travel)
            context.Refuse("vehicle.travel.bump_mm", $"with full roll a wheel rises by {Unit.Millimetre.Show(up):F1}, but at {Unit.Millimetre.Show(linkage.Highest.Travel):F1} {linkage.Highest.Reason}: {Unit.Millimetre.Show(up - linkage.Highest.Travel):F1} are missing");
        if (down <= linkage.Lowest.Travel)
            context.Refuse("vehicle.travel.rebound_mm", $"with full roll a wheel falls by {Unit.Millimetre.Show(-down):F1}, but at {Unit.Millimetre.Show(-linkage.Lowest.Travel):F1} {linkage.Lowest.Reason}: {Unit.Millimetre.Show(linkage.Lowest.Travel - down):F1} are missing");
        return up < linkage.Highest.Travel && down > linkage.Lowest.Travel;
    }
}
