using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Vehicle;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Dynamics;

/// <summary>
/// Roll gradient and load transfer against the worked example of D. C. Barton, J. D. Fieldhouse, Automotive Chassis Engineering,
/// Springer 2018, ch. 3, p. 174, whose g is 9.81, and against identities derived from the equations of equilibrium.
/// </summary>
public sealed class SteadyCorneringTests
{
    private const string Source = Evidence.Printed + "Barton and Fieldhouse, Automotive Chassis Engineering, Springer 2018, ch. 3, p. 174";
    private const double DegPerRad = 180 / Math.PI;
    private const double Mass = 1280, Arm = 0.365, RollStiffness = 28650, CarTrack = 1.46;
    private const double LateralAcceleration = 0.6 * TextbookGravity;
    private const double InstabilityStiffness = Mass * TextbookGravity * Arm;

    // Small enough that sin φ = φ to φ²/6 = 1e-10.
    private const double Small = 1e-3;

    [Fact]
    public void WholeCar_RollGradient_IsThatOfTheTextbook()
    {
        var gradient = StaticEquilibrium.Find(WholeCar(RollStiffness), Small).BodyRoll / Small;

        // As printed (rounded to the last digit), then the closed form; the tyres give kφ/(2 kt T²) = 3e-6.
        Validation.Row("two-axle car", "roll gradient, rad/(m/s²)", Source, 0.0194, gradient, 5e-5);
        Validation.Row("two-axle car", "roll gradient, deg/g", Source, 10.9, gradient * TextbookGravity * DegPerRad, 0.05);
        Validation.Row("two-axle car, digits", "roll gradient, rad/(m/s²)", Evidence.Derived + "the same example, to more digits", 0.01941266064, gradient, 0.01941266064 * 1e-5);
    }

    [Fact]
    public void WholeCar_At06G_RollsByTheTextbooksAngleLessItsSine()
    {
        var roll = StaticEquilibrium.Find(WholeCar(RollStiffness), LateralAcceleration).BodyRoll;

        // The example is linear; the model has sin φ, which at 0.114 rad takes 0.19·φ²/6 = 4.1e-4 from the angle.
        Validation.Row("two-axle car", "roll angle at 0.6 g, rad", Evidence.Derived + "the same example, to more digits; linear", 0.1142629206, roll, 0.1142629206 * 4.5e-4);
        Assert.True(roll < 0.1142629206);
        Assert.Equal(Mass * Arm * LateralAcceleration, (RollStiffness * roll) - (InstabilityStiffness * Math.Sin(roll)), 0.02);
    }

    // One half-car holds one axle. The body being one piece, each axle carries of the roll moment what its stiffness is of the
    // whole, so each half-car gets its CG at the arm at which it does: (kφi/kφ)·ms·d / (ms share). Derived.
    [Theory]
    [InlineData(true, 195.0604274, 158.0350685, 1569.550, 1922.645388, 1919, 4)]
    [InlineData(false, 759.6003945, 217.7013699, 672.664, 1649.966032, 1649, 1.5)]
    public void Axle_LoadTransfer_IsThatOfTheTextbook(
        bool front, double geometric, double unsprung, double elastic, double total, double printed, double tolerance)
    {
        var car = Axle(front);
        var transfer = Transfer(car, LateralAcceleration);

        // As printed; the source rounds the angle to 0.114 rad and the front total with it.
        var axle = front ? "front" : "rear";
        Validation.Row($"two-axle car, {axle}", $"load transfer of the {axle} axle at 0.6 g, N", Source, printed, transfer, tolerance);

        // The exact linear total; sin φ takes 4.1e-4 of the elastic part. The other two parts by their formulas; then the
        // elastic part with the exact angle (the source rounds the angle, and prints 1556 N for 1566 N in front: not tested against).
        Validation.Row($"two-axle car, {axle}, digits", $"load transfer of the {axle} axle at 0.6 g, N", Evidence.Derived + "the same example, to more digits; linear", total, transfer, 4.5e-4 * elastic);
        Assert.Equal(geometric, car.Vehicle.Body.Mass * car.Vehicle.RollCentreHeight * LateralAcceleration / CarTrack, 1e-6);
        Assert.Equal(unsprung, car.Vehicle.Unsprung.Mass * car.Vehicle.Unsprung.CgHeight * LateralAcceleration / CarTrack, 1e-6);
        Validation.Row($"two-axle car, {axle}", $"load transfer of the {axle} axle at 0.6 g, through the roll centre and of the unsprung mass, N", Evidence.Derived + "the same example, its formulas",
            geometric + unsprung, car.Vehicle.UnsprungLateralMoment * LateralAcceleration / CarTrack, 1e-6);
        Validation.Row($"two-axle car, {axle}", $"load transfer of the {axle} axle at 0.6 g, elastic part, N", Evidence.Derived + "the same example, its formula with the exact angle",
            elastic, transfer - geometric - unsprung, 4.5e-4 * elastic);
    }

    [Fact]
    public void BothAxles_TotalTransfer_IsTheMomentOfAllMassesOverTheTrack()
    {
        // 3572.611420 N in the linear case; sin φ takes 4.1e-4 of the elastic 2242 N.
        var transfer = Transfer(Axle(front: true), LateralAcceleration) + Transfer(Axle(front: false), LateralAcceleration);
        Validation.Row("two-axle car", "load transfer of both axles at 0.6 g, N", Evidence.Derived + "moment of all masses over the track", 3572.611420, transfer, 1.0);
    }

    [Fact]
    public void BothAxles_ElasticTransfer_SplitsAsTheirRollStiffnesses()
    {
        // The tyres' compliance of 2e-6 rad enters the split.
        double Elastic(bool front)
        {
            var car = Axle(front);
            return Transfer(car, LateralAcceleration) - (car.Vehicle.UnsprungLateralMoment * LateralAcceleration / CarTrack);
        }

        Validation.Row("two-axle car", "elastic load transfer, front over rear", Evidence.Derived + "splits as the roll stiffnesses", 20055.0 / 8595.0, Elastic(true) / Elastic(false), 1e-4);
    }

    [Fact]
    public void WholeCar_WithoutGravity_HasTheGradientOfItsStiffnessAlone()
    {
        // 9.165788835 deg/g. Gravity of 1e-3 m/s² leaves a moment of 1.6e-5 of the stiffness; ay so small that no tyre lifts.
        var car = new AssembledHalfCar(WholeCar(RollStiffness).Vehicle with { Gravity = 1e-3 }, LinearLayout());
        var gradient = StaticEquilibrium.Find(car, 1e-4).BodyRoll / 1e-4;
        Validation.Row("two-axle car", "roll gradient without the weight's moment, deg/g", Evidence.Derived + "the same example", 9.165788835, gradient * TextbookGravity * DegPerRad, 9.17 * 3e-5);
    }

    [Fact]
    public void RacingCar_LoadTransfer_IsThatOfTheNotes()
    {
        // 6900 N of body, 45 % in front, 450 N an axle, CG at 0.315 m, unsprung at 0.32 m, roll centres at 0.040 and 0.070 m, so an arm of
        // 0.2585 m; 44 and 38 kN·m/rad, track 1.58 m, 1.5 g; without gravity's moment. Printed to 0.1 N, from rounded values.
        const string notes = Evidence.PrintedUnreviewed + "course notes after Milliken and Milliken, Race Car Vehicle Dynamics, ch. 18, exercise 18.2";
        const double ay = 1.5 * TextbookGravity, track = 1.58, arm = 0.2585, body = 6900 / TextbookGravity;
        (double Total, double Direct) Of(double share, double rollCentre, double stiffness)
        {
            var car = Car(share * body, rollCentre, stiffness / 82e3 * arm / share, 450 / TextbookGravity, 0.32, stiffness);
            car = new AssembledHalfCar(car.Vehicle with { Track = track, Gravity = 1e-3 }, LinearLayout());
            return (Transfer(car, 1e-4) / 1e-4 * ay, car.Vehicle.UnsprungLateralMoment * ay / track);
        }

        var (front, rear) = (Of(0.45, 0.040, 44e3), Of(0.55, 0.070, 38e3));
        Validation.Row("racing car, front", "load transfer at 1.5 g through the roll centre and of the unsprung mass, N", notes, 117.9 + 136.7, front.Direct, 0.1);
        Validation.Row("racing car, rear", "load transfer at 1.5 g through the roll centre and of the unsprung mass, N", notes, 252.2 + 136.7, rear.Direct, 0.1);
        Validation.Row("racing car, front", "load transfer at 1.5 g, elastic part, N", notes, 908.7, front.Total - front.Direct, 0.1);
        Validation.Row("racing car, rear", "load transfer at 1.5 g, elastic part, N", notes, 784.7, rear.Total - rear.Direct, 0.1);
        Validation.Row("racing car, front", "load transfer at 1.5 g, N", notes, 1163.3, front.Total, 0.1);
        Validation.Row("racing car, rear", "load transfer at 1.5 g, N", notes, 1173.6, rear.Total, 0.1);
        Validation.Row("racing car", "load transfer of both axles at 1.5 g, N", notes, 2336.9, front.Total + rear.Total, 0.1);
        Validation.Row("racing car", "share of the front axle in the load transfer", notes, 0.498, front.Total / (front.Total + rear.Total), 5e-4);
    }

    [Fact]
    public void RacingCar_RollGradient_IsThatOfTheNotes()
    {
        // 6800 N at an arm of 0.26 m on 42 + 36 kN·m/rad, without gravity's moment.
        const string notes = Evidence.PrintedUnreviewed + "course notes after Milliken and Milliken, Race Car Vehicle Dynamics, ch. 16, exercise 16.5";
        var car = new AssembledHalfCar(Car(6800 / TextbookGravity, 0.05, 0.26, 90, 0.3, 78e3).Vehicle with { Gravity = 1e-3 }, LinearLayout());
        var gradient = StaticEquilibrium.Find(car, 1e-4).BodyRoll / 1e-4 * TextbookGravity;
        Validation.Row("racing car", "roll gradient without the weight's moment, rad/g", notes, 0.02267, gradient, 5e-6);
        Validation.Row("racing car", "roll gradient without the weight's moment, deg/g", notes, 1.30, gradient * DegPerRad, 0.005);
    }

    [Fact]
    public void WholeCar_AtTheStiffnessOfItsWeightMoment_BecomesUnstable()
    {
        // kφ = ms g d = 4583.232 N·m/rad; the tyres in series move it by kφ/(2 kt T²) = 4e-7, and its last digit is rounded.
        var least = Bisect(0.999 * InstabilityStiffness, 1.001 * InstabilityStiffness, stiffness => StaticEquilibrium.TryFind(WholeCar(stiffness), 0, out _));
        Validation.Row("two-axle car", "least roll stiffness at which the car stands, N·m/rad", Evidence.Derived + "the same example: ms g d", 4583.232, least, 3e-3);
        Assert.True(StaticEquilibrium.TryFind(WholeCar(1.00001 * InstabilityStiffness), 0, out _));
        Assert.False(StaticEquilibrium.TryFind(WholeCar(0.99999 * InstabilityStiffness), 0, out _));
    }

    [Fact]
    public void RigidCar_LiftsItsInnerWheelsAtTheStaticStabilityFactor()
    {
        // Moments about the outer contact: transfer m ay h/t, lift at ay = g t/(2h) = 1.327273 g.
        const double Height = 0.55;
        var rigid = WholeCar(1e10).Vehicle with
        {
            Unsprung = new UnsprungMass { Mass = 140, CgHeight = Height, AxleRollInertia = 30 },
        };
        var car = new AssembledHalfCar(rigid, LinearLayout());
        var limit = TextbookGravity * CarTrack / (2 * Height);
        // The car leans by 1e-5 rad on what gives in its springs and tyres.
        Validation.Row("rigid car", "lateral acceleration at which a rigid car lifts its inner wheels, g", Evidence.Derived + "moments about the outer contact: t/(2h)",
            1.327273, Bisect(1.001 * limit, 0.999 * limit, ay => StaticEquilibrium.TryFind(car, ay, out _)) / TextbookGravity, 2e-5);
        Validation.Row("rigid car", "load transfer of a rigid car at 5 m/s², N", Evidence.Derived + "moments about the outer contact: m ay h/t", (Mass + 140) * 5 * Height / CarTrack, Transfer(car, 5), 0.01);

        // Deflections of 1e-6 rad move the limit by as much.
        Assert.True(StaticEquilibrium.TryFind(car, 0.9999 * limit, out _));
        Assert.False(StaticEquilibrium.TryFind(car, 1.0001 * limit, out _));
        Assert.Throws<NoEquilibriumException>(() => StaticEquilibrium.Find(car, 1.0001 * limit));
    }

    // Derived from K (φs, φu) = (ms h, ms hrc + mu hu) ay; values per ay, and per ay with rigid tyres in deg/g.
    [Theory]
    [InlineData(false, 0.02699723, 0.00400009, 15.17437535, 12.43796409, 660.0142706)]
    [InlineData(true, 0.05309150, 0.00341113, 29.84122161, 27.01975675, 2456.012243)]
    public void SoftTyres_RollAndTransfer_AreThoseOfTheMatrices(
        bool soft, double bodyRoll, double axleRoll, double gradient, double rigidGradient, double transfer)
    {
        var vehicle = soft ? SoftCar() : LiveAxle;
        var car = new AssembledHalfCar(vehicle, LinearLayout());
        var stand = StaticEquilibrium.Find(car, Small);

        // Half a unit of the last digit given.
        var id = soft ? "axle E" : "axle D";
        const string Matrices = Evidence.Derived + "K (φs, φu) = (ms h, ms hrc + mu hu) ay";
        Validation.Row($"{id}, body roll", "live axle: body roll over lateral acceleration, rad/(m/s²)", Matrices, bodyRoll, stand.BodyRoll / Small, 6e-9);
        Validation.Row($"{id}, axle roll", "live axle: axle roll over lateral acceleration, rad/(m/s²)", Matrices, axleRoll, stand.UnsprungRoll / Small, 6e-9);
        Validation.Row(soft ? "axle E, gradient" : "axle D, gradient", "live axle: roll gradient, deg/g", Matrices,
            gradient, stand.BodyRoll / Small * TextbookGravity * DegPerRad, 1e-6);
        Validation.Row($"{id}, transfer", "live axle: load transfer over lateral acceleration, N/(m/s²)", Matrices, transfer, Transfer(car, Small) / Small, 1e-4);

        var rigid = new AssembledHalfCar(vehicle with { Tyre = new Tyre { Stiffness = 1e12 } }, LinearLayout());
        Validation.Row($"{id}, gradient, rigid tyres", "live axle on rigid tyres: roll gradient, deg/g", Matrices,
            rigidGradient, StaticEquilibrium.Find(rigid, Small).BodyRoll / Small * TextbookGravity * DegPerRad, 1e-5);
    }

    /// <summary>Where a condition changes between a value that does not meet it and one that does, to a relative 1e-9.</summary>
    private static double Bisect(double without, double with, Func<double, bool> meets)
    {
        while (Math.Abs(with - without) > 1e-9 * Math.Abs(with))
        {
            var middle = 0.5 * (without + with);
            (without, with) = meets(middle) ? (without, middle) : (middle, with);
        }

        return 0.5 * (without + with);
    }

    private static double Transfer(AssembledHalfCar car, double ay)
    {
        var channels = ChannelsAt(car, StaticEquilibrium.Find(car, ay));
        return (channels.Of(Channel.TyreLoadRight) - channels.Of(Channel.TyreLoadLeft)) / 2;
    }

    /// <summary>The whole car of the book's example on one axle: mean roll centre height 0.185 m, so that the CG stands at 0.55 m.</summary>
    private static AssembledHalfCar WholeCar(double rollStiffness) => Car(Mass, 0.185, Arm, 320, 0.29, rollStiffness);

    private static AssembledHalfCar Axle(bool front) => front
        ? Car(0.54 * Mass, 0.07, 20055 / RollStiffness * Arm / 0.54, 140, 0.280, 20055)
        : Car(0.46 * Mass, 0.32, 8595 / RollStiffness * Arm / 0.46, 180, 0.300, 8595);

    /// <summary>A car whose roll stiffness is all in its bar: the springs sit on the centre line.</summary>
    private static AssembledHalfCar Car(double mass, double rollCentre, double arm, double unsprung, double unsprungHeight, double rollStiffness) =>
        new(
            LiveAxle with
            {
                Track = CarTrack,
                RollCentreHeight = rollCentre,
                Body = new SprungBody { Mass = mass, RollInertia = 400, CgHeight = rollCentre + arm },
                Unsprung = new UnsprungMass { Mass = unsprung, CgHeight = unsprungHeight, AxleRollInertia = 30 },
                Spring = new Spring(new LinearSpring(30e3), new FixedRatioFitting(1, 0, CarTrack / 2)),
                AntiRollBar = rollStiffness,
                Tyre = new Tyre { Stiffness = RigidTyre },
            },
            LinearLayout());

    /// <summary>Axle C with the heights of axle E: h, hrc, hu = 0.70, 0.45, 0.40 m.</summary>
    private static HalfCar SoftCar() => LiveAxle with
    {
        Track = 1.8,
        RollCentreHeight = 0.45,
        Body = new SprungBody { Mass = 2800, RollInertia = 1500 - (2800 * 0.7 * 0.7), CgHeight = 1.15 },
        Unsprung = new UnsprungMass { Mass = 450, CgHeight = 0.40, AxleRollInertia = 180 - (450 * 0.05 * 0.05) },
        Spring = new Spring(new LinearSpring(120e3), new FixedRatioFitting(1, 0.5 / 0.9, 0.9)),
        AntiRollBar = 0,
        Tyre = new Tyre { Stiffness = 800e3 },
    };
}
