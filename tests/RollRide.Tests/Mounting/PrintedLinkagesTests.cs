using MathNet.Numerics.RootFinding;
using RollRide.Mounting;

namespace RollRide.Tests.Mounting;

/// <summary>Linkages against printed results, and against numbers worked out by another route.</summary>
public sealed class PrintedLinkagesTests
{
    private const double Degree = Math.PI / 180;
    private const string Audit = Evidence.PrintedUnreviewed + "PUCPR Racing (Formula SAE team 27), Suspension & Steering Geometry Audit, 2026, ";
    private const string Notes = Evidence.PrintedUnreviewed + "course notes after Milliken and Milliken, Race Car Vehicle Dynamics, ch. 17, ";
    private const string Loop = Evidence.Derived + "rigid links solved in 30 digits, centres where their lines cross";

    private static readonly RacingAxle Front = new("racing car, front", 620.00, 117.38, 582.00, 308.58, 536.97, 385.40);
    private static readonly RacingAxle Rear = new("racing car, rear", 600.00, 129.53, 558.60, 321.91, 519.69, 390.34);

    [Theory] // The source gives joints to 0.01 mm; at 1.5 m the instant centre moves by ten times as much.
    [InlineData(true, -880.0, 84.68, 35.00, 1500.00, 0.0382)]
    [InlineData(false, -800.0, 128.33, 55.00, 1400.00, 0.0409)]
    public void Double_wishbone_of_a_racing_car(bool front, double centreY, double centreZ, double rollCentre, double swingArm, double gain)
    {
        const string source = Audit + "section 2";
        var axle = front ? Front : Rear;
        var wheel = axle.Linkage.WheelAt(0);
        Validation.Row(axle.Name, "double wishbone: instant centre, y, mm", source, centreY, wheel.InstantCentre!.Y * 1e3, 0.1);
        Validation.Row(axle.Name, "double wishbone: instant centre, z, mm", source, centreZ, wheel.InstantCentre.Z * 1e3, 0.1);
        Validation.Row(axle.Name, "double wishbone: roll centre height, mm", source, rollCentre, wheel.RollCentreHeight * 1e3, 0.01);
        Validation.Row(axle.Name, "double wishbone: swing arm, mm", source, swingArm, (wheel.Contact.Y - wheel.InstantCentre.Y) * 1e3, 0.1);
        Validation.Row(axle.Name, "double wishbone: camber gain, deg/mm", source, gain, CamberGain(axle.Linkage), 5e-5);
    }

    // The source solves the linkage in space. At the rear the joints lie in one plane; at the front caster and tie rod take another 0.013° of camber
    // at 25 mm, so that only quantities that hardly depend on them are checked against the print there.
    [Theory]
    [InlineData(true, -0.038353, -0.391440, 16.230, 33.89)]
    [InlineData(false, -0.041114, -0.423899, 15.706, 54.25)]
    public void Double_wishbone_of_a_racing_car_about_its_ride_height(bool front, double camberRate, double migration, double rise, double overRoad)
    {
        const string source = Audit + "sections 2, 3 and 9";
        var axle = front ? Front : Rear;
        Validation.Row(axle.Name, "double wishbone: camber rate at ride height, deg/mm", source, camberRate, Rate(axle.Camber), 1e-5);
        Validation.Row(axle.Name, "double wishbone: roll centre migration, contact below the wheel centre, mm/mm", source, migration, Rate(z => axle.BelowCentre(z).RollCentre), 2e-5);

        // The source measures square to the road, the model along the body's vertical.
        Validation.Row(axle.Name, "double wishbone: roll centre height over the road at 1.5° of roll, mm", source,
            overRoad, axle.RollCentreAt(rise, -rise).HeightAboveGround * 1e3 * Math.Cos(1.5 * Degree), 0.01);
    }

    [Fact] // Static camber −1.5°.
    public void Double_wishbone_of_a_racing_car_through_its_travel()
    {
        const string source = Audit + "sections 2, 3 and 9";
        Validation.Row("racing car, rear, +25 mm", "double wishbone: camber, deg", source, -2.5447, RacingAxle.StaticCamber + Rear.Camber(25), 5e-4);
        Validation.Row("racing car, rear, -25 mm", "double wishbone: camber, deg", source, -0.4856, RacingAxle.StaticCamber + Rear.Camber(-25), 5e-4);
        Validation.Row("racing car, rear, outer", "double wishbone: camber to the road at 1.5° of roll, deg", source, -0.652, RacingAxle.StaticCamber + Rear.Camber(15.706) + 1.5, 5e-4);
        Validation.Row("racing car, rear, inner", "double wishbone: camber to the road at 1.5° of roll, deg", source, -2.360, RacingAxle.StaticCamber + Rear.Camber(-15.706) - 1.5, 5e-4);

        // Joints are given to 0.01 mm.
        Validation.Row("racing car, rear, +25 mm", "double wishbone: roll centre height, contact below the wheel centre, mm", source, 44.52, Rear.BelowCentre(25).RollCentre, 0.02);
        Validation.Row("racing car, rear, -25 mm", "double wishbone: roll centre height, contact below the wheel centre, mm", source, 65.74, Rear.BelowCentre(-25).RollCentre, 0.02);
        Validation.Row("racing car, rear", "double wishbone: half-track change, contact below the wheel centre, mm/mm", source, 0.092210, Rate(z => Rear.BelowCentre(z).Y), 2e-5);
    }

    // In the model the upright carries the contact, which gives 0.7 % less migration than a contact below the wheel centre. Rates by differences, good to 1e-8;
    // all else to rounding of the solution for a travel.
    [Theory]
    [InlineData(true, -0.976855607928, 0.944057429718, 25.3624584493, 44.8325849115, -0.3889209222, 0.05668331387, 16.230, -111.643554, 30.9533552)]
    [InlineData(false, -1.04463278395, 1.01438039014, 44.6019310754, 65.6953623853, -0.4212752642, 0.09208652187, 15.706, -72.0596826, 52.350235)]
    public void Double_wishbone_of_a_racing_car_in_its_plane(
        bool front, double camberUp, double camberDown, double rollCentreUp, double rollCentreDown, double migration, double halfTrack, double rise, double rollCentreY, double rollCentreZ)
    {
        var axle = front ? Front : Rear;
        Validation.Row($"{axle.Name}, +25 mm", "double wishbone: camber from ride height in the plane, deg", Loop, camberUp, axle.Camber(25), 1e-9);
        Validation.Row($"{axle.Name}, -25 mm", "double wishbone: camber from ride height in the plane, deg", Loop, camberDown, axle.Camber(-25), 1e-9);
        Validation.Row($"{axle.Name}, +25 mm", "double wishbone: roll centre height in the body's frame, mm", Loop, rollCentreUp, axle.RollCentreAt(25, 25).Z * 1e3, 1e-8);
        Validation.Row($"{axle.Name}, -25 mm", "double wishbone: roll centre height in the body's frame, mm", Loop, rollCentreDown, axle.RollCentreAt(-25, -25).Z * 1e3, 1e-8);
        Validation.Row(axle.Name, "double wishbone: roll centre migration, mm/mm", Loop, migration, Rate(z => axle.RollCentreAt(z, z).Z * 1e3), 1e-8);
        Validation.Row(axle.Name, "double wishbone: half-track change, mm/mm", Loop, halfTrack, Rate(z => axle.Wheel(z).Contact.Y * 1e3), 1e-8);
        var centre = axle.RollCentreAt(rise, -rise);
        Validation.Row(axle.Name, "double wishbone: roll centre at 1.5° of roll, y, mm", Loop, rollCentreY, centre.Y * 1e3, 1e-6);
        Validation.Row(axle.Name, "double wishbone: roll centre at 1.5° of roll, z, mm", Loop, rollCentreZ, centre.Z * 1e3, 1e-6);
    }

    [Fact] // Ball joints at 0.44 and 0.20 m in the wheel plane; going inboard the upper arm rises by 8°, the lower one falls by 3°.
    public void Double_wishbone_that_opens_inboard()
    {
        const double t = 0.775, arm = 0.35;
        var linkage = new DoubleWishbone(
            new(t - arm, 0.20 - (arm * Math.Tan(3 * Math.PI / 180))), new(t, 0.20), new(t - arm, 0.44 + (arm * Math.Tan(8 * Math.PI / 180))), new(t, 0.44), 0.3, t);
        var centre = linkage.WheelAt(0).InstantCentre!;
        const string notes = Notes + "exercise 17.1";
        Validation.Row("opening inboard", "double wishbone: instant centre outboard of the wheel, m", notes, 1.244, centre.Y - t, 5e-4);
        Validation.Row("opening inboard", "double wishbone: instant centre, z, m", notes, 0.265, centre.Z, 5e-4);
        Validation.Row("opening inboard", "double wishbone: camber gain, deg/mm", notes, 0.046, -CamberGain(linkage), 5e-4);
    }

    [Fact] // A wheel on a swing arm of 2.4 m. The source is linear, which takes 2e-5° at 30 mm.
    public void Swing_arm()
    {
        const double t = 0.75, height = 0.30;
        var arm = new TrailingArm(new(0.2, t - 2.4, height), new(-0.2, t - 2.4, height), height, t);
        const string notes = Notes + "exercise 17.4";
        Validation.Row("swing arm of 2.4 m", "swing axle: camber gain, deg/mm", notes, 0.0239, CamberGain(arm), 5e-5);
        Validation.Row("swing arm of 2.4 m", "swing axle: camber lost at 30 mm of bump, deg", notes, 0.716, -arm.WheelAt(0.030).Camber / Degree, 5e-4);
    }

    [Fact] // Strut along the line from (0.62, 0.35) to its top at (0.56, 0.82), lower arm from (0.36, 0.24) to (0.70, 0.20), contact at 0.75 m.
    public void Strut()
    {
        var linkage = new StrutSuspension(new(0.36, 0.24), new(0.70, 0.20), new(0.62, 0.35), new(0.56, 0.82), 0.31, 0.75);
        var wheel = linkage.WheelAt(0);
        const string source = Evidence.Derived + "lower arm and the square to the strut at its top meet in the instant centre";
        Validation.Row("strut", "strut: instant centre, y, m", source, -1.9003061224, wheel.InstantCentre!.Y, 1e-10);
        Validation.Row("strut", "strut: instant centre, z, m", source, 0.5059183673, wheel.InstantCentre.Z, 1e-10);
        Validation.Row("strut", "strut: roll centre height, m", source, 0.1431679051, wheel.RollCentreHeight, 1e-10);
        Validation.Row("strut", "strut: swing arm, m", source, 2.6503061224, wheel.Contact.Y - wheel.InstantCentre.Y, 1e-10);
        Validation.Row("strut", "strut: camber gain, deg/mm", source, 0.0216185515, CamberGain(linkage), 1e-9);
        Validation.Row("strut", "strut: its travel over that of the wheel", source, 0.9358439180,
            new LinkageMountFitting(linkage, LinkagePart.Upright, new(0, 0.62, 0.35), new(0, 0.56, 0.82)).Ratio(0), 1e-10);
    }

    [Fact]
    public void Panhard_rod() => Validation.Row("rod from (-0.4, 0.30) to (0.5, 0.36) m", "Panhard rod: roll centre height, m",
        Evidence.Derived + "where the rod crosses the centre plane: 0.30 + 0.06·4/9", 0.3266666667, new PanhardRod(new(-0.4, 0.30), new(0.5, 0.36)).RollCentreHeight, 1e-10);

    /// <summary>Camber lost over travel at ride height, deg/mm, by central differences over 2 µm.</summary>
    private static double CamberGain(WheelLinkage linkage) =>
        (linkage.WheelAt(-1e-6).Camber - linkage.WheelAt(1e-6).Camber) / 2e-6 / Degree / 1e3;

    /// <summary>Change of a quantity per millimetre of rise at ride height, by central differences over 20 µm.</summary>
    private static double Rate(Func<double, double> of) => (of(0.01) - of(-0.01)) / 0.02;

    /// <summary>
    /// An axle of the racing car, in millimetres and degrees. The source counts travel at the wheel centre, which stands 6.42 mm inboard of the
    /// contact because the wheel leans in by 1.5°. The model's wheel is upright, so a rise of that point is turned into the model's travel here.
    /// </summary>
    private sealed class RacingAxle(string name, double contact, double lowerPivotZ, double lowerY, double upperPivotZ, double upperY, double upperZ)
    {
        public const double StaticCamber = -1.5;
        private const double CentreHeight = 245;

        public string Name { get; } = name;

        public DoubleWishbone Linkage { get; } = new(Point(175, lowerPivotZ), Point(lowerY, 130), Point(175, upperPivotZ), Point(upperY, upperZ), CentreHeight / 1e3, contact / 1e3);

        public WheelPosition Wheel(double rise) => Linkage.WheelAt(Travel(rise));

        public double Camber(double rise) => Wheel(rise).Camber / Degree;

        public RollCentre RollCentreAt(double leftRise, double rightRise) => RollCentre.Of(Linkage, Travel(leftRise), Travel(rightRise))!;

        /// <summary>The source's contact, the wheel's height below its centre and on its plane, and where its line to the instant centre cuts the centre plane.</summary>
        public (double Y, double RollCentre) BelowCentre(double rise)
        {
            var centre = Centre(Travel(rise));
            var instantCentre = Wheel(rise).InstantCentre!;
            var y = (centre.Y * 1e3) - (CentreHeight * Math.Tan((StaticCamber + Camber(rise)) * Degree));
            return (y, rise + (((instantCentre.Z * 1e3) - rise) * y / (y - (instantCentre.Y * 1e3))));
        }

        private SpaceVector Centre(double travel) => Linkage.PointAt(LinkagePart.Upright, new(0, (contact - 6.42) / 1e3, CentreHeight / 1e3), travel).Position;

        private double Travel(double rise) => Brent.FindRoot(travel => Centre(travel).Z - ((CentreHeight + rise) / 1e3), -0.05, 0.05, 1e-15, 100);

        private static RearViewPoint Point(double y, double z) => new(y / 1e3, z / 1e3);
    }
}
