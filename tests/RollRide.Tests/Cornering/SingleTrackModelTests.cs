using MathNet.Numerics.LinearAlgebra.Double;
using RollRide.Cornering;

namespace RollRide.Tests.Cornering;

public sealed class SingleTrackModelTests
{
    private const double Gravity = 9.81;
    private const double Degree = Math.PI / 180;

    // Gillespie 1992. Tolerances are half a unit of the printed digit; the source's yaw gain of 9.42 comes from a
    // gradient rounded to 0.23, hence 0.02.
    [Fact]
    public void SteadyState_GillespieExample_MatchesThePrintedAnswers()
    {
        var car = ReferenceVehicles.Gillespie;
        double speed = 60 * ReferenceVehicles.MilePerHour;
        const string Source = Evidence.Remembered + "Gillespie, Fundamentals of Vehicle Dynamics, SAE 1992, ch. 6, example 1";
        Validation.Row("car 1", "understeer gradient, deg/g", Source, 0.23, car.UndersteerGradient(ReferenceVehicles.GillespieGravity) / Degree, 0.005);
        Validation.Row("car 1", "characteristic speed, ft/s", Source, 259, car.CharacteristicSpeed!.Value / ReferenceVehicles.Foot, 0.5);
        Validation.Row("car 1", "characteristic speed, mph", Source, 177, car.CharacteristicSpeed!.Value / ReferenceVehicles.MilePerHour, 0.5);
        Validation.Row("car 1", "lateral acceleration gain at 60 mph, g/deg", Source, 0.45, car.LateralAccelerationGain(speed) / ReferenceVehicles.GillespieGravity * Degree, 0.005);
        Validation.Row("car 1", "yaw gain at 60 mph, 1/s", Source, 9.42, car.YawGain(speed), 0.02);
    }

    // Ackermann angle l/R of the same example, as the limit of slow driving.
    [Theory]
    [InlineData(500, 0.96, 0.005)]
    [InlineData(200, 2.4, 0.05)]
    [InlineData(100, 4.8, 0.05)]
    [InlineData(50, 9.6, 0.05)]
    public void YawGain_CrawlingSpeed_NeedsTheAckermannAngle(double radiusFeet, double angleDegrees, double tolerance)
    {
        const double Crawl = 1e-3;
        double yawRate = Crawl / (radiusFeet * ReferenceVehicles.Foot);
        Validation.Row(FormattableString.Invariant($"radius {radiusFeet} ft"), "Ackermann angle, deg", Evidence.Remembered + "Gillespie, Fundamentals of Vehicle Dynamics, SAE 1992, ch. 6, example 1",
            angleDegrees, yawRate / ReferenceVehicles.Gillespie.YawGain(Crawl) / Degree, tolerance);
    }

    // Derived from the same example, at 60 mph on a radius of 800 ft: β = b/R − (Wr/Cr) ay/g with
    // b = 4.6153248 ft, Wr/Cr = 1552/374 deg and ay/g = 88²/800/32.2.
    [Fact]
    public void SideslipGain_GillespieExample_MatchesTheDerivedAngle()
    {
        var car = ReferenceVehicles.Gillespie;
        double speed = 60 * ReferenceVehicles.MilePerHour;
        double roadWheel = speed / (800 * ReferenceVehicles.Foot) / car.YawGain(speed);
        Validation.Row("car 1", "sideslip at 60 mph on 800 ft radius, deg", Evidence.Derived + "the same example", -0.9169490, car.SideslipGain(speed) * roadWheel / Degree, 5e-7);
    }

    // Wong 2001: an understeering car.
    [Fact]
    public void SteadyState_WongExample_Understeers()
    {
        var car = ReferenceVehicles.Wong(38.92e3);
        const string Source = Evidence.Remembered + "Wong, Theory of Ground Vehicles, 3rd ed., Wiley 2001, example 5.1";
        Validation.Row("car 2", "understeer gradient, rad", Source, 0.016, car.UndersteerGradient(Gravity), 0.0005);
        Validation.Row("car 2", "characteristic speed, m/s", Source, 41.5, car.CharacteristicSpeed!.Value, 0.05);
        Validation.Row("car 2", "characteristic speed, km/h", Source, 149, car.CharacteristicSpeed!.Value * 3.6, 0.5);
        Assert.Null(car.CriticalSpeed);
        Assert.True(car.IsStable(200));
    }

    // Wong 2001: stiffer front tyres make it oversteer. Gradient printed to four decimals, speeds to half a unit.
    [Fact]
    public void SteadyState_WongExampleWithStifferFrontTyres_Oversteers()
    {
        var car = ReferenceVehicles.Wong(47.82e3);
        const string Source = Evidence.Remembered + "Wong, Theory of Ground Vehicles, 3rd ed., Wiley 2001, example 5.1, stiffer front tyres";
        Validation.Row("car 2, stiffer front tyres", "understeer gradient, rad", Source, -0.0097, car.UndersteerGradient(Gravity), 0.00005);
        Validation.Row("car 2, stiffer front tyres", "critical speed, m/s", Source, 53.1, car.CriticalSpeed!.Value, 0.05);
        Validation.Row("car 2, stiffer front tyres", "critical speed, km/h", Source, 191, car.CriticalSpeed!.Value * 3.6, 0.5);
        Assert.Null(car.CharacteristicSpeed);
        Assert.True(car.IsStable(53));
        Assert.False(car.IsStable(53.2));
        var refusal = Assert.Throws<ArgumentOutOfRangeException>(() => car.YawGain(54));
        Assert.Contains("53.1", refusal.Message, StringComparison.Ordinal);
    }

    // Pacejka: gradient printed 0.0174 rad; characteristic speed derived: K = 1600/9 · 0.2/60000 = 1/1687.5.
    [Fact]
    public void SteadyState_PacejkaVehicle_MatchesThePrintedGradient()
    {
        Validation.Row("car 3", "understeer gradient, rad", Evidence.Remembered + "Pacejka, Tire and Vehicle Dynamics, ch. 1", 0.0174, ReferenceVehicles.Pacejka.UndersteerGradient(Gravity), 5e-5);
        Validation.Row("car 3", "characteristic speed, m/s", Evidence.Derived + "the same vehicle", Math.Sqrt(1687.5), ReferenceVehicles.Pacejka.CharacteristicSpeed!.Value, 1e-12);
    }

    // Car 3 over speed (derived from determinant and trace of the system matrix, checked in 40-digit arithmetic); relative
    // tolerance 1e-9, the printed digits.
    [Theory]
    [InlineData(10, 3.146853147, 31.46853147, 7.719024118, 0.9737845810)]
    [InlineData(20, 5.389221557, 107.7844311, 4.170831252, 0.9010993507)]
    [InlineData(30, 6.521739130, 195.6521739, 3.095695937, 0.8093674594)]
    [InlineData(40, 6.844106464, 273.7642586, 2.617051458, 0.7180472745)]
    [InlineData(50, 6.716417910, 335.8208955, 2.362907813, 0.6362217455)]
    [InlineData(60, 6.382978723, 382.9787234, 2.212653008, 0.5661880888)]
    public void GainsAndMode_PacejkaVehicleOverSpeed_MatchTheDerivedTable(
        double speed, double yawGain, double lateralGain, double frequency, double damping)
    {
        var car = ReferenceVehicles.Pacejka;
        foreach (var (check, expected, got) in (ReadOnlySpan<(string, double, double)>)
        [
            ("yaw gain, 1/s", yawGain, car.YawGain(speed)), ("lateral acceleration gain, (m/s²)/rad", lateralGain, car.LateralAccelerationGain(speed)),
            ("natural frequency of yaw and sideslip, rad/s", frequency, car.NaturalFrequency(speed)), ("damping ratio of yaw and sideslip", damping, car.DampingRatio(speed)),
        ])
        {
            Validation.Row(FormattableString.Invariant($"car 3, {speed} m/s, {check.Split(',')[0]}"), check, Evidence.Derived + "the vehicle of Pacejka in 40-digit arithmetic", expected, got, 1e-9 * expected);
        }
    }

    // Derived: 10 m/s, 0.5 g; relative tolerance 1e-9 or the printed digits.
    [Fact]
    public void SteadyState_SmallCar_MatchesTheDerivedNumbers()
    {
        var car = ReferenceVehicles.SmallCar;
        const double Speed = 10, Lateral = 0.5 * Gravity;
        double roadWheel = Lateral / car.LateralAccelerationGain(Speed);
        // The row's stability factor is the gradient per m/s² of lateral acceleration.
        const string Source = Evidence.Derived + "steady state and characteristic equation";
        Validation.Row("car 4", "understeer gradient, rad/(m/s²)", Source, 1.2423439e-4, car.UndersteerGradient(1), 5e-12);
        Validation.Row("car 4", "understeer gradient, deg/g", Source, 0.06982862, car.UndersteerGradient(Gravity) / Degree, 5e-9);
        Validation.Row("car 4", "characteristic speed, m/s", Source, 133.0731481, car.CharacteristicSpeed!.Value, 1.4e-7);
        Validation.Row("car 4", "radius at 0.5 g and 10 m/s, m", Source, 20.38735984, Speed / (car.YawGain(Speed) * roadWheel), 2e-8);
        Validation.Row("car 4", "road wheel angle at 0.5 g and 10 m/s, rad", Source, 0.1085193697, roadWheel, 1e-10);
        Validation.Row("car 4", "sideslip at 0.5 g and 10 m/s, rad", Source, 0.03045097806, car.SideslipGain(Speed) * roadWheel, 3e-11);
        Validation.Row("car 4", "natural frequency of yaw and sideslip, rad/s", Source, 28.18790500, car.NaturalFrequency(Speed), 3e-8);
        Validation.Row("car 4", "damping ratio of yaw and sideslip", Source, 1.000384653, car.DampingRatio(Speed), 1e-9);
    }

    // Textbook: the yaw gain of an understeering vehicle peaks at the characteristic speed with V/(2l), half a neutral one's.
    [Fact]
    public void YawGain_AtTheCharacteristicSpeed_PeaksAtHalfTheNeutralGain()
    {
        var car = ReferenceVehicles.Pacejka;
        double speed = car.CharacteristicSpeed!.Value, peak = car.YawGain(speed);
        Assert.Equal(speed / (2 * car.Wheelbase), peak, 1e-13);
        Assert.True(car.YawGain(0.99 * speed) < peak);
        Assert.True(car.YawGain(1.01 * speed) < peak);
    }

    [Fact]
    public void NeutralVehicle_AnySpeed_TurnsByTheWheelbaseAlone()
    {
        var neutral = ReferenceVehicles.Pacejka with { A = 1.5, B = 1.5 };
        Assert.Equal(0, neutral.UndersteerGradient(Gravity));
        Assert.Null(neutral.CharacteristicSpeed);
        Assert.Null(neutral.CriticalSpeed);
        Assert.Equal(50 / 3.0, neutral.YawGain(50), 1e-13);
    }

    [Theory]
    [InlineData(10)]
    [InlineData(35)]
    [InlineData(60)]
    public void NaturalFrequencyAndDamping_AnySpeed_AreThoseOfTheEigenvalues(double speed)
    {
        foreach (var car in (SingleTrackModel[])[ReferenceVehicles.Pacejka, ReferenceVehicles.SmallCar, ReferenceVehicles.Wong(38.92e3)])
        {
            var roots = SystemMatrix(car, speed).Evd().EigenValues;
            double frequency = Math.Sqrt((roots[0] * roots[1]).Real);
            // Rounding of an eigenvalue computation; roots are of the order of 10.
            Assert.Equal(frequency, car.NaturalFrequency(speed), 1e-11);
            Assert.Equal(-(roots[0] + roots[1]).Real / (2 * frequency), car.DampingRatio(speed), 1e-11);
        }
    }

    [Theory]
    [InlineData(45)]
    [InlineData(60)]
    public void IsStable_OversteeringVehicle_AgreesWithTheEigenvalues(double speed)
    {
        var car = ReferenceVehicles.Wong(47.82e3);
        bool decays = SystemMatrix(car, speed).Evd().EigenValues.All(root => root.Real < 0);
        Assert.Equal(decays, car.IsStable(speed));
    }

    [Fact]
    public void Derivatives_InTheSteadyTurn_AreZero()
    {
        var car = ReferenceVehicles.Pacejka;
        const double Speed = 25, RoadWheel = 0.05;
        double yawRate = car.YawGain(Speed) * RoadWheel, lateral = Speed * car.SideslipGain(Speed) * RoadWheel;
        (double lateralVelocityRate, double yawAcceleration) = car.Derivatives(lateral, yawRate, RoadWheel, Speed);
        // Rounding of forces of 1e4 N over 1e3 kg.
        Assert.Equal(0, lateralVelocityRate, 1e-13);
        Assert.Equal(0, yawAcceleration, 1e-13);
        Assert.Equal(car.LateralAccelerationGain(Speed) * RoadWheel, car.LateralAcceleration(lateral, yawRate, RoadWheel, Speed), 1e-13);
    }

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void Properties_NotPositive_AreRefusedByName(double value)
    {
        var car = ReferenceVehicles.Pacejka;
        Assert.Throws<ArgumentOutOfRangeException>("Mass", () => car with { Mass = value });
        Assert.Throws<ArgumentOutOfRangeException>("YawInertia", () => car with { YawInertia = value });
        Assert.Throws<ArgumentOutOfRangeException>("A", () => car with { A = value });
        Assert.Throws<ArgumentOutOfRangeException>("B", () => car with { B = value });
        Assert.Throws<ArgumentOutOfRangeException>("FrontCorneringStiffness", () => car with { FrontCorneringStiffness = value });
        Assert.Throws<ArgumentOutOfRangeException>("RearCorneringStiffness", () => car with { RearCorneringStiffness = value });
        Assert.Throws<ArgumentOutOfRangeException>("SteeringRatio", () => car with { SteeringRatio = value });
        Assert.Throws<ArgumentOutOfRangeException>("speed", () => car.YawGain(value));
    }

    /// <summary>The system matrix, column by column from the equations of motion themselves.</summary>
    private static DenseMatrix SystemMatrix(SingleTrackModel car, double speed)
    {
        var byVelocity = car.Derivatives(1, 0, 0, speed);
        var byYaw = car.Derivatives(0, 1, 0, speed);
        return DenseMatrix.OfArray(new[,]
        {
            { byVelocity.LateralVelocityRate, byYaw.LateralVelocityRate },
            { byVelocity.YawAcceleration, byYaw.YawAcceleration },
        });
    }
}
