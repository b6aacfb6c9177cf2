using RollRide.Mounting;

namespace RollRide.Scenarios;

/// <summary>Points of a file, in mm, as points in SI.</summary>
internal static class Points
{
    public static Point3 Space(IReadOnlyList<double> mm) =>
        new(mm[0] * Units.MetresPerMm, mm[1] * Units.MetresPerMm, mm[2] * Units.MetresPerMm);

    public static RearViewPoint RearView(IReadOnlyList<double> mm) => new(mm[0] * Units.MetresPerMm, mm[1] * Units.MetresPerMm);
}
