using RollRide.Cornering;

namespace RollRide.Tests.Cornering;

/// <summary>The single-track model against printed exercises. Tolerances are half a unit of the last digit printed, unless said otherwise.</summary>
public class PrintedCarsTests
{
    private const double Gravity = 9.81, Degree = Math.PI / 180;
    private const string Notes = Evidence.PrintedUnreviewed + "course notes after Milliken and Milliken, Race Car Vehicle Dynamics, ";

    [Fact] // 1200 kg, axles at 1.20 and 1.40 m, 1400 and 1600 N/deg an axle.
    public void Understeering_car()
    {
        var car = Car(1200, 1500, 1.20, 1.40, 1400 / Degree, 1600 / Degree);
        Validation.Row("1200 kg", "understeer gradient, deg/g", Notes + "ch. 5", 1.132, car.UndersteerGradient(Gravity) / Degree, 5e-4);
        Validation.Row("1200 kg", "characteristic speed, m/s", Notes + "ch. 5", 35.9, car.CharacteristicSpeed!.Value, 0.05);
        Validation.Row("1200 kg", "road wheel angle at 20 m/s on a radius of 60 m, deg", Notes + "ch. 5", 3.25, 20.0 / 60 / car.YawGain(20) / Degree, 0.005);

        // Sideslip alone brings lateral force and yaw moment; where their resultant acts is the neutral steer point.
        var (lateral, yaw) = car.Derivatives(1, 0, 0, 20);
        var lever = -car.YawInertia * yaw / (car.Mass * lateral);
        Validation.Row("1200 kg", "neutral steer point behind the front axle, m", Notes + "ch. 5", 1.387, car.A + lever, 5e-4);
        Validation.Row("1200 kg", "static margin", Notes + "ch. 5", 0.0719, lever / car.Wheelbase, 2e-4); // from rounded values
    }

    [Fact] // 900 kg, 40 % in front, wheelbase 2.4 m, 1200 N/deg on both axles.
    public void Oversteering_car()
    {
        var car = Car(900, 1000, 0.6 * 2.4, 0.4 * 2.4, 1200 / Degree, 1200 / Degree);
        Validation.Row("900 kg, 40/60", "understeer gradient, deg/g", Notes + "ch. 5", -1.471, car.UndersteerGradient(Gravity) / Degree, 6e-4); // −1.4715, cut
        Validation.Row("900 kg, 40/60", "critical speed, m/s", Notes + "ch. 5", 30.3, car.CriticalSpeed!.Value, 0.05);
    }

    [Theory] // Wheelbase and understeer gradient given.
    [InlineData(2.7, -1.2, 35.6)]
    [InlineData(2.8, -0.8, 44.4)]
    public void Critical_speed_of_a_gradient(double wheelbase, double gradient, double printed)
    {
        // Half of the mass on either axle: K = m g/2 (1/Cf − 1/Cr).
        const double mass = 1000, front = 60e3;
        var rear = 1 / ((1 / front) - (gradient * Degree / (mass * Gravity / 2)));
        var car = Car(mass, 1500, wheelbase / 2, wheelbase / 2, front, rear);
        Validation.Row(FormattableString.Invariant($"gradient {gradient} deg/g, wheelbase {wheelbase} m"), "critical speed, m/s", Notes + "ch. 5", printed, car.CriticalSpeed!.Value, 0.05);
    }

    [Theory] // 1000 kg, axles at 1.25 and 1.35 m, 80 and 90 kN/rad.
    [InlineData(30, 1400, 7.35, 0.854, 3.83)]
    [InlineData(60, 1400, 5.00, 0.627, double.NaN)]
    [InlineData(30, 1120, 8.22, 0.868, double.NaN)]
    public void Yaw_response(double speed, double inertia, double frequency, double ratio, double damped)
    {
        var car = Car(1000, inertia, 1.25, 1.35, 80e3, 90e3);
        var which = FormattableString.Invariant($"1000 kg, {inertia} kg·m², {speed} m/s");
        var (got, gotRatio) = (car.NaturalFrequency(speed), car.DampingRatio(speed));
        Validation.Row(which, "natural frequency of yaw and sideslip, rad/s", Notes + "ch. 6", frequency, got, inertia == 1120 ? 0.006 : 0.005); // 8.2148, rounded up
        Validation.Row(which, "damping ratio of yaw and sideslip", Notes + "ch. 6", ratio, gotRatio, 0.001);
        if (double.IsFinite(damped))
            Validation.Row(which, "damped frequency of yaw and sideslip, rad/s", Notes + "ch. 6", damped, got * Math.Sqrt(1 - (gotRatio * gotRatio)), 0.01); // from rounded values
    }

    [Theory] // The same car: r/δ = gain (1 + lead s)/(1 + 2ζs/ωn + s²/ωn²), which begins with the slope gain · lead · ωn² after a step.
    [InlineData(30, 0.160)]
    [InlineData(60, 0.321)]
    public void Lead_of_the_yaw_response(double speed, double printed)
    {
        var car = Car(1000, 1400, 1.25, 1.35, 80e3, 90e3);
        var slope = car.Derivatives(0, 0, 1, speed).YawAcceleration;
        var frequency = car.NaturalFrequency(speed);
        Validation.Row(FormattableString.Invariant($"1000 kg, {speed} m/s"), "lead of the yaw response, s", Notes + "ch. 6", printed, slope / (car.YawGain(speed) * frequency * frequency), 5e-4);
    }

    private static SingleTrackModel Car(double mass, double inertia, double a, double b, double front, double rear) => new()
    {
        Mass = mass,
        YawInertia = inertia,
        A = a,
        B = b,
        FrontCorneringStiffness = front,
        RearCorneringStiffness = rear,
        SteeringRatio = 1,
    };
}
