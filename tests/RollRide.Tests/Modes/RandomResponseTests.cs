using System.Numerics;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Roads;

namespace RollRide.Tests.Modes;

public class RandomResponseTests
{
    // 1e-8, as far as thirteen printed digits and a Lyapunov equation of eight states go.
    private const double Tight = 1e-8;
    private const string White = "white road velocity, intensity 1 m²/s, mean square";

    private static AssembledHalfCar Vehicle(string name) => name switch
    {
        "H1" => LinearVehicles.Independent(635, 250, 0.75, 45.4, 22e3, 192e3, 1500, 0),
        "H2" => LinearVehicles.Independent(635, 250, 0.75, 45.4, 22e3, 192e3, 1500, 8000),
        "H3" => LinearVehicles.Independent(750, 300, 0.70, 75, 35e3, 193e3, 2000, 12_000),
        "L1" => LinearVehicles.LiveAxle(1000, 450, 180, 60, 0.75, 35e3, 0.50, 2500, 0.45, 10e3, 220e3),
        "L2" => LinearVehicles.LiveAxle(1000, 450, 180, 60, 0.75, 35e3, 0.50, 2500, 0.70, 10e3, 220e3),
        _ => LinearVehicles.LiveAxle(2800, 1500, 450, 180, 0.90, 120e3, 0.50, 9000, 0.42, 0, 800e3),
    };

    private static double Coefficient(AssembledHalfCar car) => car.Layout.Damper.EquivalentCoefficient(0.5);

    // Half cars with independent wheels on a white-velocity road, W = 1 m²/s (derived: heave and roll are quarter cars, whose closed
    // forms are the standard result of, e.g., A. Hać 1985; F. Scheibe, M. C. Smith, Veh. Syst. Dyn. 47, 2009).
    [Theory]
    [InlineData("H1", 0, 1004.639427946, 3369.174933333, 0.1050870370370, 0.01833416720659)]
    [InlineData("H1", 0.5, 1506.959141918, 1684.587466667, 0.1130268518519, 0.01834083826196)]
    [InlineData("H1", 1, 2009.278855891, 0, 0.1209666666667, 0.01834750931734)]
    [InlineData("H2", 0, 1004.639427946, 3952.789616461, 0.1050870370370, 0.01829697346276)]
    [InlineData("H2", 0.5, 1506.959141918, 1976.394808230, 0.1130268518519, 0.01832224139005)]
    [InlineData("H3", 0, 1176.222222222, 4417.338953098, 0.1038903061224, 0.02379028038172)]
    [InlineData("H3", 0.5, 1764.333333333, 2208.669476549, 0.1081951530612, 0.02358422915969)]
    public void IndependentWheels_OnWhiteVelocity_MeetTheClosedForms(
        string name, double correlation, double body, double roll, double travel, double deflection)
    {
        var car = Vehicle(name);
        var response = new RandomResponse(car, Coefficient(car)).OnWhiteVelocity(1, correlation);
        const string Source = Evidence.Derived + "quarter cars in heave and roll, closed forms after Hać 1985, Scheibe and Smith 2009";
        var id = FormattableString.Invariant($"{name}, ρ = {correlation}");
        RowOfMeanSquare($"{id}, body", $"{White}: body acceleration, (m/s²)²", Source, body, response.BodyAcceleration);
        Validation.Row($"{id}, roll", "white road velocity, intensity 1 m²/s: roll acceleration, RMS, rad/s²", Source, Math.Sqrt(roll), response.RollAcceleration, Tight * (1 + Math.Sqrt(roll)));
        RowOfMeanSquare($"{id}, travel", $"{White}: wheel travel, m²", Source, travel, response.WheelTravel);
        RowOfMeanSquare($"{id}, tyre", $"{White}: tyre deflection, m²", Source, deflection, response.TyreLoad / car.Vehicle.Tyre.Stiffness);
    }

    // Live axles: heave and roll are quarter cars as well (derived; closed form and an 8-state Lyapunov equation agree).
    [Theory]
    [InlineData("L1", 0, 839.1, 1386.051414927, 0.02605000382187)]
    [InlineData("L1", 0.5, 1258.65, 693.0257074633, 0.02468084302664)]
    [InlineData("L2", 0, 839.1, 1676.375241455, 0.02024024448423)]
    [InlineData("L2", 0.5, 1258.65, 838.1876207273, 0.02177596335782)]
    [InlineData("L3", 0, 1250, 825.7642119015, 0.02305770017035)]
    [InlineData("L3", 0.5, 1875, 412.8821059507, 0.02075998150258)]
    public void LiveAxles_OnWhiteVelocity_MeetTheClosedForms(string name, double correlation, double body, double roll, double deflection)
    {
        var car = Vehicle(name);
        var response = new RandomResponse(car, Coefficient(car)).OnWhiteVelocity(1, correlation);
        const string Source = Evidence.Derived + "closed form, and a Lyapunov equation of eight states";
        var id = FormattableString.Invariant($"{name}, ρ = {correlation}");
        RowOfMeanSquare($"{id}, body", $"{White}: body acceleration, (m/s²)²", Source, body, response.BodyAcceleration);
        RowOfMeanSquare($"{id}, roll", $"{White}: roll acceleration, (rad/s²)²", Source, roll, response.RollAcceleration);
        RowOfMeanSquare($"{id}, tyre", $"{White}: tyre deflection, m²", Source, deflection, response.TyreLoad / car.Vehicle.Tyre.Stiffness);
    }

    [Fact]
    public void DampersOfAQuarterCar_TakeThePowerOfTheRoadAndTyreAlone()
    {
        // Mean-square damper velocity W kt/(2c), power W kt/2 (L. Zuo, P.-S. Zhang, J. Vib. Acoust. 135, 2013).
        var car = Vehicle("H1");
        foreach (var c in (double[])[500, 1500, 4000])
        {
            Validation.Row(FormattableString.Invariant($"c = {c:0000} N·s/m"), "power of a quarter car's damper over the intensity of the road, N/m", Evidence.Remembered + "Zuo and Zhang, J. Vib. Acoust. 135, 2013: kt/2",
                192e3 / 2, c * Math.Pow(new RandomResponse(car, c).OnWhiteVelocity(1, 1).DamperVelocity, 2), 96e3 * Tight);
        }
    }

    // Isotropic road of class C at 20 m/s, all wavelengths (derived by quadrature, 1e-6).
    [Theory]
    [InlineData("H1", 1.14515192, 1.61460462)]
    [InlineData("H2", 1.14515192, 1.69656101)]
    [InlineData("H3", 1.28966397, 1.62186354)]
    public void SpectralIntegration_OnTheIsotropicRoad_MeetsTheQuadrature(string name, double body, double roll)
    {
        var car = Vehicle(name);
        var response = new RandomResponse(car, Coefficient(car)).OnRoad(AllWavelengths(car.Vehicle.Track), 20, 4000);

        // The band reaches from 1e-4 to 100 cycle/m; above it lies some 1e-5 of body acceleration.
        const string Source = Evidence.Derived + "quadrature";
        Validation.Row($"{name}, class C, body", "isotropic road at 20 m/s: body acceleration, RMS, m/s²", Source, body, response.BodyAcceleration, 3e-5 * body);
        Validation.Row($"{name}, class C, roll", "isotropic road at 20 m/s: roll acceleration, RMS, rad/s²", Source, roll, response.RollAcceleration, 3e-5 * roll);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.7)]
    public void BothRoutes_GiveTheSame(double correlation)
    {
        var car = Vehicle("L2");
        var model = new RandomResponse(car, 2500);
        var road = AllWavelengths(1.5) with { Coherence = TrackCoherence.Constant(correlation) };
        var (integrated, lyapunov) = (model.OnRoad(road, 20, 4000), model.OnWhiteVelocity(road.Spectrum.VelocityIntensity(20), correlation));

        // What the band leaves out: white velocity of the dampers and body dies out as 1/n, the share above 100 cycle/m is 1e-4 at most.
        Assert.Equal(lyapunov.BodyAcceleration, integrated.BodyAcceleration, 1e-4 * lyapunov.BodyAcceleration);
        Assert.Equal(lyapunov.RollAcceleration, integrated.RollAcceleration, 1e-4 * lyapunov.RollAcceleration);
        Assert.Equal(lyapunov.WheelTravel, integrated.WheelTravel, 1e-4 * lyapunov.WheelTravel);
        Assert.Equal(lyapunov.DamperVelocity, integrated.DamperVelocity, 1e-4 * lyapunov.DamperVelocity);
        Assert.Equal(lyapunov.TyreLoad, integrated.TyreLoad, 1e-3 * lyapunov.TyreLoad);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-2)]
    [InlineData(7)]
    public void OnRoad_WithIntervalsThatSimpsonsRuleCannotUse_IsRefused(int intervals) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new RandomResponse(Vehicle("L2"), 2500).OnRoad(AllWavelengths(1.5), 20, intervals));

    [Fact]
    public void OnWhiteVelocity_WithTyreDamping_HasNoFiniteTyreLoad()
    {
        var plain = Vehicle("H1");
        var car = new AssembledHalfCar(plain.Vehicle with { Tyre = plain.Vehicle.Tyre with { Damping = 100 } }, plain.Layout);
        var response = new RandomResponse(car, 1500).OnWhiteVelocity(1, 0);
        Assert.Equal(double.PositiveInfinity, response.TyreLoad);
        Assert.True(double.IsFinite(response.BodyAcceleration));
    }

    [Fact]
    public void StatisticalLinearisation_OfALinearDamper_IsItsCoefficient() =>
        Assert.Equal(1500, StatisticalLinearisation.Coefficient(Vehicle("H1").Layout.Damper, 0.3), 1e-6);

    [Fact] // Linear dampers of 1000 and 2000 N·s/m have two and four thirds of their mean, however fast they move.
    public void StatisticalLinearisation_OfUnlikeLinearDampers_GivesEachItsOwn()
    {
        var plain = Vehicle("H1");
        RollRide.Damping.Damper Linear(string name, double coefficient) => new(name, RollRide.Damping.ForceVelocityCurve.Linear(coefficient));
        var layout = plain.Layout with { Damper = Linear("soft", 1000), RightSide = plain.Layout.On(RollRide.Mounting.Side.Right) with { Damper = Linear("hard", 2000) } };
        var (coefficient, shares, _) = StatisticalLinearisation.OnRoad(new AssembledHalfCar(plain.Vehicle, layout), AllWavelengths(1.5) with { Spectrum = RoughnessSpectrum.Of(RoadClass.C) }, 20);

        Assert.Equal(1500, coefficient, 1e-5);
        Assert.Equal(2 / 3.0, shares.Left, 1e-8);
        Assert.Equal(4 / 3.0, shares.Right, 1e-8);
    }

    [Fact]
    public void StatisticalLinearisation_OfFrictionAlone_IsTheClosedForm()
    {
        // Coulomb friction: c = √(2/π) F/σ. With tanh over v0 ≪ σ it is lower by the order (v0/σ)².
        var damper = new RollRide.Damping.Damper("f", RollRide.Damping.ForceVelocityCurve.FromPoints([-1, 0, 1], [-1e-6, 0, 1e-6])) { Friction = 100, FrictionVelocity = 0.001 };
        Assert.Equal(Math.Sqrt(2 / Math.PI) * 100 / 0.5, StatisticalLinearisation.Coefficient(damper, 0.5), 0.01);
    }

    [Fact] // A patch half as long as the wave averages it to 2/π of its height: sin(π/2)/(π/2). The narrowest band is 1 % wide: the mean over it is off by the square of that.
    public void OnRoad_WithAContactPatch_FollowsTheMeanHeightUnderIt()
    {
        var model = new RandomResponse(Vehicle("L2"), 2500);
        var wave = AllWavelengths(1.5) with { Spectrum = RoughnessSpectrum.Of(RoadClass.C) with { LowestWavenumber = 0.497, HighestWavenumber = 0.503 } };
        var (point, patch) = (model.OnRoad(wave, 20, 100), model.OnRoad(wave with { ContactLength = 1 }, 20, 100));

        Assert.Equal(2 / Math.PI, patch.BodyAcceleration / point.BodyAcceleration, 1e-3);
        Assert.Equal(2 / Math.PI, patch.RollAcceleration / point.RollAcceleration, 1e-3);
        Assert.Equal(2 / Math.PI, patch.TyreLoad / point.TyreLoad, 1e-3);
    }

    [Fact] // The textbook's quarter car with a dashpot beside the tyre's spring; both carry the road.
    public void OnRoad_WithTyreDamping_IsTheQuarterCarWithADashpotInItsTyre()
    {
        var plain = Vehicle("H1");
        var damped = new AssembledHalfCar(plain.Vehicle with { Tyre = plain.Vehicle.Tyre with { Damping = 2000 } }, plain.Layout);
        var wave = AllWavelengths(1.5) with
        {
            Spectrum = RoughnessSpectrum.Of(RoadClass.C) with { LowestWavenumber = 0.497, HighestWavenumber = 0.503 },
            Coherence = TrackCoherence.Constant(1),
        };
        var (with, without) = (new RandomResponse(damped, 1500).OnRoad(wave, 20, 100), new RandomResponse(plain, 1500).OnRoad(wave, 20, 100));

        // The band is 1.2 % wide: gains change by a few per cent over it, and their means by the square of that.
        Assert.Equal(Gains(2000).Body / Gains(0).Body, with.BodyAcceleration / without.BodyAcceleration, 1e-3);
        Assert.Equal(Gains(2000).TyreLoad / Gains(0).TyreLoad, with.TyreLoad / without.TyreLoad, 1e-3);

        static (double Body, double TyreLoad) Gains(double tyreDamping)
        {
            var s = new Complex(0, 2 * Math.PI * 0.5 * 20);
            Complex spring = 22e3 + (1500 * s), tyre = 192e3 + (tyreDamping * s), body = (317.5 * s * s) + spring;
            var determinant = (body * ((45.4 * s * s) + spring + tyre)) - (spring * spring);
            return ((tyre * spring / determinant).Magnitude, (tyre * (1 - (tyre * body / determinant))).Magnitude);
        }
    }

    [Theory] // Seen in a mirror the softer damper moves as fast, and the wheels travel as far.
    [InlineData(null)]
    [InlineData(400e3)]
    public void OnWhiteVelocity_WithUnlikeDampers_IsTheSameInAMirror(double? topMount)
    {
        var plain = Vehicle("L2");
        var car = new AssembledHalfCar(plain.Vehicle, plain.Layout with { Damper = plain.Layout.Damper with { TopMountStiffness = topMount } });
        var (one, other) = (Response((1.6, 0.4)), Response((0.4, 1.6)));

        Assert.Equal(one.DamperVelocity, other.DamperVelocity, 1e-9 * one.DamperVelocity);
        Assert.Equal(one.WheelTravel, other.WheelTravel, 1e-9 * one.WheelTravel);
        Assert.Equal(one.TyreLoad, other.TyreLoad, 1e-9 * one.TyreLoad);
        Assert.True(one.DamperVelocity > Response((1, 1)).DamperVelocity);

        LinearRideResponse Response((double, double) shares) => new RandomResponse(car, 2500, shares).OnWhiteVelocity(1, 0.3);
    }

    [Fact]
    public void OnWhiteVelocity_CorrelationOfMoreThanOne_IsRefused()
    {
        var model = new RandomResponse(Vehicle("H1"), 1500);
        Assert.Equal(0, model.OnWhiteVelocity(1, -1).BodyAcceleration, 1e-6); // tracks in opposition roll a symmetrical car, and lift nothing
        foreach (var correlation in (double[])[-1.01, 1.01, double.NaN])
            Assert.Contains("between −1 and 1", Assert.Throws<ArgumentOutOfRangeException>(() => model.OnWhiteVelocity(1, correlation)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ANegativeCoefficient_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => new RandomResponse(Vehicle("H1"), -1));

    private static RandomRoad AllWavelengths(double track) => new()
    {
        Spectrum = RoughnessSpectrum.Of(RoadClass.C) with { LowestWavenumber = 1e-4, HighestWavenumber = 100 },
        Coherence = TrackCoherence.Isotropic(track),
        Seed = 1,
    };

    private static void RowOfMeanSquare(string id, string check, string source, double expected, double rms) =>
        Validation.Row(id, check, source, expected, rms * rms, Tight * expected);

    [Fact]
    public void TopMount_OnTracksThatAreTheSame_IsAQuarterCarWithASpringInSeriesWithItsDamper()
    {
        // Heave alone moves, so body and wheels are a quarter car of complex stiffness k + 1/(1/(iω c) + 1/km), by hand below.
        const double ms = 635, mu = 90.8, k = 44e3, kt = 384e3, c = 1500, km = 90e3, speed = 20;
        const int intervals = 4000;
        var plain = Vehicle("H1");
        var car = new AssembledHalfCar(plain.Vehicle, plain.Layout with { Damper = plain.Layout.Damper with { TopMountStiffness = km } });
        var road = AllWavelengths(1.5) with { Coherence = TrackCoherence.Constant(1) };

        var (body, velocity, step) = (0.0, 0.0, Math.Log(100 / 1e-4) / intervals);
        for (var i = 0; i <= intervals; i++)
        {
            var n = 1e-4 * Math.Exp(i * step);
            var s = new System.Numerics.Complex(0, 2 * Math.PI * n * speed);
            var share = km / (km + (c * s)); // of the travel between body and wheel, what the damper takes
            var between = k + (2 * c * s * share);

            // ms s² x = S (y − x); mu s² y = kt (w − y) − S (y − x), for a road of w = 1.
            var y = kt / (kt + (mu * s * s) + (between * ms * s * s / ((ms * s * s) + between)));
            var x = y * between / ((ms * s * s) + between);
            var weight = (i == 0 || i == intervals ? 1 : i % 2 == 1 ? 4 : 2) * step / 3 * n * road.Spectrum.Density(n);
            body += weight * Math.Pow((s * s * x).Magnitude, 2);
            velocity += weight * Math.Pow((s * (y - x) * share).Magnitude, 2);
        }

        var response = new RandomResponse(car, c).OnRoad(road, speed, intervals);
        Assert.Equal(Math.Sqrt(body), response.BodyAcceleration, 1e-9 * Math.Sqrt(body)); // the same sums, to rounding of the solutions
        Assert.Equal(Math.Sqrt(velocity), response.DamperVelocity, 1e-9 * Math.Sqrt(velocity));
        Assert.Equal(0, response.RollAcceleration, 1e-6);
    }

    [Theory]
    [InlineData(null)]
    [InlineData(600e3)]
    [InlineData(20e3)]
    public void StatisticalLinearisation_OfAProgressiveDamper_SettlesWhereItsVelocityCallsForIt(double? topMount)
    {
        // Nearly no force up to 0.05 m/s, then 32 kN·s/m: a larger coefficient slows the damper, which calls for a much smaller one.
        var damper = new RollRide.Damping.Damper("progressive", RollRide.Damping.ForceVelocityCurve.FromPoints([-1, -0.05, 0, 0.05, 1], [-30_000, -10, 0, 10, 30_000])) { TopMountStiffness = topMount };
        var plain = Vehicle("H1");
        var car = new AssembledHalfCar(plain.Vehicle, plain.Layout with { Damper = damper });

        var road = AllWavelengths(1.5) with { Spectrum = RoughnessSpectrum.Of(RoadClass.C) };
        var (coefficient, _, response) = StatisticalLinearisation.OnRoad(car, road, 20);

        // Settled to 1e-6 of the coefficient.
        Assert.InRange(coefficient, 210, 31_000);
        Assert.Equal(StatisticalLinearisation.Coefficient(damper, response.DamperVelocity), coefficient, 2e-6 * coefficient);
    }

    [Fact]
    public void OnWhiteVelocity_OfTracksThatAreTheSame_RollsNothing()
    {
        var plain = Vehicle("H3");
        var car = new AssembledHalfCar(plain.Vehicle, plain.Layout with { Damper = plain.Layout.Damper with { TopMountStiffness = 1e9 } });

        Assert.Equal(0, new RandomResponse(car, 150_000).OnWhiteVelocity(1e-4, 1).RollAcceleration, 1e-3);
    }
}
