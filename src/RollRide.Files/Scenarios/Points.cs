using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Scenarios;

/// <summary>Points of a file, in mm, as points in SI.</summary>
internal static class Points
{
    public static Point3 Space(IReadOnlyList<double> mm) =>
        new(mm[0] * Unit.Millimetre.InSi, mm[1] * Unit.Millimetre.InSi, mm[2] * Unit.Millimetre.InSi);

    public static RearViewPoint RearView(IReadOnlyList<double> mm) => new(mm[0] * Unit.Millimetre.InSi, mm[1] * Unit.Millimetre.InSi);
}
