using RollRide.Mounting;

namespace RollRide.Tests.Mounting;

/// <summary>Planar linkages against printed results.</summary>
public sealed class PrintedLinkagesTests
{
    // The source gives joints to 0.01 mm; at 1.5 m the instant centre moves by ten times as much.
    private const string Audit = Evidence.PrintedUnreviewed + "PUCPR Racing (Formula SAE team 27), Suspension & Steering Geometry Audit, 2026, section 2";

    [Theory]
    [InlineData("front", 620, 117.38, 582.00, 130, 308.58, 536.97, 385.40, -880.0, 84.68, 35.00, 1500.00, 0.0382)]
    [InlineData("rear", 600, 129.53, 558.60, 130, 321.91, 519.69, 390.34, -800.0, 128.33, 55.00, 1400.00, 0.0409)]
    public void Double_wishbone_of_a_racing_car(
        string end, double contact, double lowerPivot, double lowerY, double lowerZ, double upperPivot, double upperY, double upperZ,
        double centreY, double centreZ, double rollCentre, double swingArm, double gain)
    {
        static RearViewPoint Point(double y, double z) => new(y / 1e3, z / 1e3);
        var linkage = new DoubleWishbone(Point(175, lowerPivot), Point(lowerY, lowerZ), Point(175, upperPivot), Point(upperY, upperZ), 0.245, contact / 1e3);
        var wheel = linkage.WheelAt(0);
        Validation.Row($"racing car, {end}", "double wishbone: instant centre, y, mm", Audit, centreY, wheel.InstantCentre!.Y * 1e3, 0.1);
        Validation.Row($"racing car, {end}", "double wishbone: instant centre, z, mm", Audit, centreZ, wheel.InstantCentre.Z * 1e3, 0.1);
        Validation.Row($"racing car, {end}", "double wishbone: roll centre height, mm", Audit, rollCentre, wheel.RollCentreHeight * 1e3, 0.01);
        Validation.Row($"racing car, {end}", "double wishbone: swing arm, mm", Audit, swingArm, (wheel.Contact.Y - wheel.InstantCentre.Y) * 1e3, 0.1);
        Validation.Row($"racing car, {end}", "double wishbone: camber gain, deg/mm", Audit, gain, CamberGain(linkage), 5e-5);
    }

    [Fact] // Ball joints at 0.44 and 0.20 m in the wheel plane; going inboard the upper arm rises by 8°, the lower one falls by 3°.
    public void Double_wishbone_that_opens_inboard()
    {
        const double t = 0.775, arm = 0.35;
        var linkage = new DoubleWishbone(
            new(t - arm, 0.20 - (arm * Math.Tan(3 * Math.PI / 180))), new(t, 0.20), new(t - arm, 0.44 + (arm * Math.Tan(8 * Math.PI / 180))), new(t, 0.44), 0.3, t);
        var centre = linkage.WheelAt(0).InstantCentre!;
        const string notes = Evidence.PrintedUnreviewed + "course notes after Milliken and Milliken, Race Car Vehicle Dynamics, ch. 17, exercise 17.1";
        Validation.Row("opening inboard", "double wishbone: instant centre outboard of the wheel, m", notes, 1.244, centre.Y - t, 5e-4);
        Validation.Row("opening inboard", "double wishbone: instant centre, z, m", notes, 0.265, centre.Z, 5e-4);
        Validation.Row("opening inboard", "double wishbone: camber gain, deg/mm", notes, 0.046, -CamberGain(linkage), 5e-4);
    }

    /// <summary>Camber lost over travel at ride height, deg/mm, by central differences over 2 µm.</summary>
    private static double CamberGain(WheelLinkage linkage) =>
        (linkage.WheelAt(-1e-6).Camber - linkage.WheelAt(1e-6).Camber) / 2e-6 * 180 / Math.PI / 1e3;
}
