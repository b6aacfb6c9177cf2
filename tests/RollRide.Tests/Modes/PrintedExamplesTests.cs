using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Tests.Modes;

/// <summary>Natural frequencies, damping ratios and mode shapes against printed examples. Tolerances are half a unit of the last digit printed, unless said otherwise.</summary>
public class PrintedExamplesTests
{
    private const string Thomson = Evidence.Printed + "Thomson, Theory of Vibration with Applications, 4th ed., ";
    private const string Companion = " (in a public companion of its examples)";
    private const string Pound = "course notes after Milliken and Milliken, Race Car Vehicle Dynamics, ";

    [Fact] // 3220 lb, radius of gyration 4 ft, 2400 and 2600 lb/ft at 4.5 and 5.5 ft, g = 32.2 ft/s²; 9.06 rad/s is a slip of the print for 9.05.
    public void Bounce_and_pitch_of_Thomsons_body()
    {
        const double slug = 14.593902937, foot = 0.3048, poundPerFoot = 14.593902937;
        var modes = ModeFollower.Solve(AsymmetricCars.Body(100 * slug, 100 * slug * 16 * foot * foot, (5.5 * foot, 4.5 * foot), (2600 * poundPerFoot, 2400 * poundPerFoot)), 0);
        var node = (modes.Heave.Shape[0] / modes.Heave.Shape[1]).Real / foot;

        const string source = Thomson + "example 5.3-2, pp. 140-141";
        Validation.Row("Thomson's body", "lower natural frequency, rad/s", source, 6.90, 2 * Math.PI * modes.Heave.NaturalFrequency, 0.005);
        Validation.Row("Thomson's body, lower", "natural frequency of a body on two springs, Hz", source, 1.10, modes.Heave.NaturalFrequency, 0.005);
        Validation.Row("Thomson's body, upper", "natural frequency of a body on two springs, Hz", source, 1.44, modes.Roll.NaturalFrequency, 0.005);
        Validation.Row("Thomson's body", "bounce over pitch in the lower mode, ft/rad", source, -14.6, node, 0.05);
        Validation.Row("Thomson's body", "bounce over pitch in the lower mode, in/deg", source, -3.06, node * 12 * Math.PI / 180, 0.005);
    }

    [Fact] // 100 ẍ = −4000 x + 4000 θ, 1000 θ̈ = 4000 x − 104 000 θ; the source cuts 10.3155 to 10.31.
    public void Bounce_and_pitch_of_a_lecture()
    {
        var modes = ModeFollower.Solve(AsymmetricCars.Body(100, 1000, (4, 6), (2000, 2000)), 0);
        const string source = Evidence.Printed + "Gustafson, Univ. of Utah, Math 2250, FAQ 7.4-24, after Edwards and Penney";
        Validation.Row("lecture, lower", "natural frequency of a body on two springs, rad/s", source, 6.13, 2 * Math.PI * modes.Heave.NaturalFrequency, 0.005);
        Validation.Row("lecture, upper", "natural frequency of a body on two springs, rad/s", source, 10.31, 2 * Math.PI * modes.Roll.NaturalFrequency, 0.006);
    }

    [Fact] // 1000 kg, radius of gyration 0.9 m, 18 and 22 kN/m at 1.0 and 1.5 m.
    public void Bounce_and_pitch_of_Raos_automobile()
    {
        var modes = ModeFollower.Solve(AsymmetricCars.Body(1000, 810, (1.5, 1.0), (22e3, 18e3)), 0);
        const string source = Evidence.Remembered + "Rao, Mechanical Vibrations, ch. 5, frequencies and modes of an automobile";
        Validation.Row("Rao's automobile, lower", "natural frequency of a body on two springs, rad/s", source, 5.8593, 2 * Math.PI * modes.Heave.NaturalFrequency, 5e-5);
        Validation.Row("Rao's automobile, upper", "natural frequency of a body on two springs, rad/s", source, 9.4341, 2 * Math.PI * modes.Roll.NaturalFrequency, 5e-5);
        Validation.Row("Rao's automobile, lower", "bounce over pitch, m/rad", source, -2.6461, (modes.Heave.Shape[0] / modes.Heave.Shape[1]).Real, 5e-5);
        Validation.Row("Rao's automobile, upper", "bounce over pitch, m/rad", source, 0.3061, (modes.Roll.Shape[0] / modes.Roll.Shape[1]).Real, 5e-5);
    }

    [Fact] // A body of 20 t and 10 t·m² on two axles at ±2.5 m, 1 MN/m each, 750 kg each on 3.5 MN/m.
    public void Planar_vehicle_of_two_axles_has_the_frequencies_of_an_independent_finite_element_model()
    {
        var modes = ModeFollower.Solve(AsymmetricCars.Body(20e3, 10e3, (2.5, 2.5), (1e6, 1e6), 750, 3.5e6), 0);
        double[] found = [.. modes.All.Select(mode => mode.NaturalFrequency).Order()];
        foreach (var (printed, i) in ((double[])[1.4010, 4.8321, 12.351, 12.661]).Select((printed, i) => (printed, i)))
        {
            Validation.Row(FormattableString.Invariant($"mode {i + 1}"), "body on two axles with wheels: natural frequency, Hz",
                Evidence.Printed + "Cantero, SoftwareX 19, 2022, 101103: validation vehicle, finite-element result", printed, found[i], i < 2 ? 5e-5 : 5e-4);
        }
    }

    [Theory] // Mass, stiffness and damper in SI; the printed inputs stand beside each.
    [InlineData("10 lb on 30 lb/in, 0.12 lb·s/in, g 386 in/s²", 4.5359237, 5253.805057, 21.01522023, 34.0, 0.05, 0.0681, 5e-5, "Thomson, Theory of Vibration with Applications, 4th ed., example 2.7-1, p. 34", "")]
    [InlineData("8 kg, 5400 N/m, 40 N·s/m", 8, 5400, 40, double.NaN, 0, 0.096, 5e-4, "Khurmi and Gupta, Theory of Machines, ch. 23, example", "")]
    public void Single_mass(string which, double mass, double stiffness, double damper, double frequency, double frequencyTolerance, double ratio, double ratioTolerance, string source, string note)
    {
        var heave = Heave(mass, stiffness, damper);
        if (double.IsFinite(frequency))
            Validation.Row(which, "mass, spring and damper: natural frequency, rad/s", Evidence.Printed + source + note, frequency, 2 * Math.PI * heave.NaturalFrequency, frequencyTolerance);
        Validation.Row(which, "mass, spring and damper: damping ratio", Evidence.Printed + source + note, ratio, heave.DampingRatio, ratioTolerance);
    }

    [Fact] // x = 0.256 e^(−1.25 t) sin(1.561 t + 0.896) of 8 kg, 20 N·s/m, 32 N/m.
    public void Decay_of_Meriams_mass()
    {
        var heave = Heave(8, 32, 20);
        const string source = Evidence.Printed + "Meriam and Kraige, Dynamics, sample problem 8/2" + Companion;
        Validation.Row("8 kg, 20 N·s/m, 32 N/m", "mass, spring and damper: damped frequency, rad/s", source, 1.561, 2 * Math.PI * heave.DampedFrequency, 5e-4);
        Validation.Row("8 kg, 20 N·s/m, 32 N/m", "mass, spring and damper: rate of decay, 1/s", source, 1.25, heave.DampingRatio * 2 * Math.PI * heave.NaturalFrequency, 0.005);
    }

    [Fact] // 12 lb on 20 lb/in, 10 lb at 20 in/s, g 386 in/s². The source rounds the ratio to 0.316: 0.05 rad/s.
    public void Damped_frequency_of_McLeans_mass() => Validation.Row("12 lb on 20 lb/in, 10 lb at 20 in/s", "mass, spring and damper: damped frequency, rad/s",
        Evidence.Printed + "McLean et al., Schaum's Engineering Mechanics, problems 19-19 and 19-20, p. 478" + Companion, 24.1, 2 * Math.PI * Heave(5.44310844, 3502.536705, 87.56341762).DampedFrequency, 0.05);

    [Fact] // 50 lb on 100 lb/in, g 32.2 ft/s²; the amplitude halves each cycle.
    public void Damped_frequency_of_Bevans_mass()
    {
        const double mass = 50 * 4.4482216152605 / (32.2 * 0.3048), stiffness = 100 * 175.12683524647636;
        var decrement = Math.Log(2);
        var ratio = decrement / Math.Sqrt((4 * Math.PI * Math.PI) + (decrement * decrement));
        var heave = Heave(mass, stiffness, 2 * ratio * Math.Sqrt(stiffness * mass));
        const string source = Evidence.Printed + "Bevan, The Theory of Machines, ch. 15, example 4, p. 552" + Companion;
        Validation.Row("50 lb on 100 lb/in, halved each cycle", "mass, spring and damper: natural frequency, Hz", source, 4.424, heave.NaturalFrequency, 5e-4);
        Validation.Row("50 lb on 100 lb/in, halved each cycle", "mass, spring and damper: damped frequency, Hz", source, 4.398, heave.DampedFrequency, 5e-4);
        Validation.Row("50 lb on 100 lb/in, halved each cycle", "mass, spring and damper: damped over natural frequency", source, 0.994, heave.DampedFrequency / heave.NaturalFrequency, 5e-4);
    }

    [Theory] // Amplitude of the body on a road of waves, the damper between road and body.
    [InlineData("1200 kg, 400 kN/m, ratio 0.5, 20 km/h on waves of 6 m", 1200, 400e3, 0.5, 6, 20, 0.05, 0.0550, 5e-5, Evidence.Printed + "Rao, Mechanical Vibrations, ch. 3, vehicle moving on a rough road (in a public worked solution)")]
    [InlineData("2 Hz, ratio 0.15, 60 km/h on waves of 35 m", 1, 157.91367041742973, 0.15, 35, 60, 0.1, 0.106, 5e-4, Evidence.Printed + "Rao, Mechanical Vibrations, ch. 3, problem (in a public solution; wavelength, frequency and speed remembered)")]
    public void Body_on_a_road_of_waves(string which, double mass, double stiffness, double ratio, double wavelength, double speed, double height, double printed, double tolerance, string source)
    {
        var car = OnRigidTyres(mass, stiffness, 2 * ratio * Math.Sqrt(stiffness * mass));
        var response = FrequencyResponse.Of(LinearHalfCar.AtRest(car), car.Vehicle.HalfTrack, car.Layout.Damper.EquivalentCoefficient(0.1), [speed / 3.6 / wavelength]);
        Validation.Row(which, "amplitude of a body on a sinusoidal road, m", source, printed, height * response.RoadHeave.Body[0].Magnitude, tolerance);
    }

    [Fact] // 120 N/mm at the installation ratio 0.62, tyre 320 N/mm, 155 kg a corner, track 1.60 m.
    public void Rates_through_an_installation_ratio()
    {
        var car = Installed(155, 0.01, 120e3, 0.62, 320e3, 0, 1.60);
        var k = LinearHalfCar.AtRest(car).Stiffness;
        double ride = (k[0, 0] - (k[0, 2] * k[2, 0] / k[2, 2])) / 2, roll = k[1, 1] - (k[1, 3] * k[3, 1] / k[3, 3]);
        const string source = Evidence.PrintedUnreviewed + Pound + "ch. 16, exercises 16.1 and 16.2";
        Validation.Row("installation ratio 0.62", "wheel rate, N/mm", source, 46.13, k[0, 0] / 2 / 1e3, 0.005);
        Validation.Row("installation ratio 0.62", "ride rate, N/mm", source, 40.32, ride / 1e3, 0.005);
        Validation.Row("installation ratio 0.62", "ride frequency, Hz", source, 2.57, ModeFollower.Solve(LinearHalfCar.AtRest(car), 0).Heave.NaturalFrequency, 0.005);
        Validation.Row("installation ratio 0.62, rigid tyres", "ride frequency, Hz", source, 2.75,
            ModeFollower.Solve(LinearHalfCar.AtRest(Installed(155, 0.01, 120e3, 0.62, 1e10, 0, 1.60)), 0).Heave.NaturalFrequency, 0.005);

        // The source goes on from 40.32 N/mm as rounded: 6 N·m/rad.
        Validation.Row("installation ratio 0.62", "roll stiffness of the ride rates, N·m/rad", source, 51610, roll, 6);
        Validation.Row("installation ratio 0.62", "roll stiffness of the ride rates, N·m/deg", source, 900.7, roll * Math.PI / 180, 0.05);
    }

    [Fact] // 65 N/mm at the wheel, tyre 300 N/mm, 160 kg and 38 kg a corner; damper at the ratio 0.60 for 0.7 of critical on the ride rate.
    public void Damper_through_an_installation_ratio()
    {
        const string source = Evidence.PrintedUnreviewed + Pound + "ch. 22, exercises 22.1 to 22.3";
        var k = LinearHalfCar.AtRest(Installed(160, 0.01, 65e3, 1, 300e3, 0, 1.60)).Stiffness;
        Validation.Row("65 N/mm at the wheel", "ride rate, N/mm", source, 53.42, (k[0, 0] - (k[0, 2] * k[2, 0] / k[2, 2])) / 2 / 1e3, 0.005);
        Validation.Row("65 N/mm at the wheel", "ride frequency, Hz", source, 2.91, ModeFollower.Solve(LinearHalfCar.AtRest(Installed(160, 0.01, 65e3, 1, 300e3, 0, 1.60)), 0).Heave.NaturalFrequency, 0.005);
        Validation.Row("body held, 365 N/mm on 38 kg", "frequency of hop, Hz", source, 15.6, ModeFollower.Solve(LinearHalfCar.AtRest(Installed(1e7, 38, 65e3, 1, 300e3, 0, 1.60)), 0).Hop.NaturalFrequency, 0.05);

        Validation.Row("4093 N·s/m at the ratio 1", "damping ratio of heave", source, 0.7, ModeFollower.Solve(LinearHalfCar.AtRest(Installed(160, 0.01, 53.42e3, 1, 1e10, 1, 1.60)), 4093).Heave.DampingRatio, 1e-4);

        // The ride rate as one spring. 11369 comes from 4093 as rounded: a coefficient within 1 N·s/m, a ratio within 1e-4.
        var damped = Installed(160, 0.01, 53.42e3, 1, 1e10, 0.60, 1.60);
        Validation.Row("11369 N·s/m at the ratio 0.60", "damping ratio of heave", source, 0.7, ModeFollower.Solve(LinearHalfCar.AtRest(damped), 11369).Heave.DampingRatio, 1e-4);
        Validation.Row("1 N·s/m at the ratio 1, times 5847", "damping ratio of heave", source, 1, 5847 * ModeFollower.Solve(LinearHalfCar.AtRest(Installed(160, 0.01, 53.42e3, 1, 1e10, 1, 1.60)), 1).Heave.DampingRatio, 1e-4);
    }

    [Fact] // A spring of 148.7 N/mm at the ratio 0.70, tyre 300 N/mm, 145 kg a corner: the answers for 3.2 Hz, forwards. The spring's last digit is 0.0245 N/mm at the wheel.
    public void Spring_for_a_ride_frequency()
    {
        var car = LinearHalfCar.AtRest(Installed(145, 0.01, 148.7e3, 0.70, 300e3, 0, 1.60));
        var k = car.Stiffness;
        const string source = Evidence.PrintedUnreviewed + Pound + "ch. 16, exercise 16.4";
        Validation.Row("148.7 N/mm at the ratio 0.70", "wheel rate, N/mm", source, 72.86, k[0, 0] / 2 / 1e3, 0.01);
        Validation.Row("148.7 N/mm at the ratio 0.70", "ride rate, N/mm", source, 58.62, (k[0, 0] - (k[0, 2] * k[2, 0] / k[2, 2])) / 2 / 1e3, 0.01);
        Validation.Row("148.7 N/mm at the ratio 0.70", "ride frequency, Hz", source, 3.2, ModeFollower.Solve(car, 0).Heave.NaturalFrequency, 0.001);
    }

    // 2200 N·m/rad, arm 0.28 m, ratio 0.85, track 1.60 m. The source takes 2200/0.28² at each wheel's link; were 2200 the torque over the twist from
    // end to end, the bar would be twice as stiff.
    [Fact]
    public void Rates_of_an_anti_roll_bar_at_its_links()
    {
        var k = LinearHalfCar.AtRest(Installed(155, 0.01, 2200 / (0.28 * 0.28), 0.85, 1e10, 0, 1.60)).Stiffness;
        const string source = Evidence.PrintedUnreviewed + Pound + "ch. 16, exercise 16.3";
        Validation.Row("28061 N/m at the ratio 0.85", "link rate at the wheel, N/m", source, 20274, k[0, 0] / 2, 0.5);
        Validation.Row("28061 N/m at the ratio 0.85", "roll stiffness of the links, N·m/rad", source, 25951, k[1, 1], 0.5);
    }

    [Fact] // 900 N at 50 mm/s, ratio 0.62.
    public void Coefficient_at_the_wheel() => Validation.Row("900 N at 50 mm/s, ratio 0.62", "damper coefficient at the wheel, N·s/m", Evidence.PrintedUnreviewed + Pound + "ch. 22, exercise 22.4",
        6919, LinearHalfCar.AtRest(Installed(155, 30, 120e3, 0.62, 320e3, 0.62, 1.60)).Damping(900 / 0.05)[0, 0] / 2, 0.5);

    [Fact] // Wheel rate 199 lb/in, tyre 2000 lb/in, track 65.58 in.
    public void Ride_rate_and_roll_stiffness_of_a_racing_car()
    {
        const double poundPerInch = 175.12683524647636, inch = 0.0254, poundFoot = 1.3558179483314004;
        var k = LinearHalfCar.AtRest(Installed(300, 30, 199 * poundPerInch, 1, 2000 * poundPerInch, 0, 65.58 * inch)).Stiffness;
        const string source = Evidence.Printed + "Milliken and Milliken, Race Car Vehicle Dynamics, SAE 1995, section 16.5, pp. 602-603 (quoted in a public test file)";
        Validation.Row("199 lb/in at the wheel", "ride rate, lb/in", source, 181, (k[0, 0] - (k[0, 2] * k[2, 0] / k[2, 2])) / 2 / poundPerInch, 0.5);
        Validation.Row("199 lb/in at the wheel", "roll stiffness of the ride rates, lb·ft/deg", source, 566, (k[1, 1] - (k[1, 3] * k[3, 1] / k[3, 3])) * Math.PI / 180 / poundFoot, 0.5);
    }

    /// <summary>Heave of a body on rigid tyres: one mass, one spring, one damper.</summary>
    private static Mode Heave(double mass, double stiffness, double damper) =>
        ModeFollower.Solve(LinearHalfCar.AtRest(OnRigidTyres(mass, stiffness, damper)), damper / 2).Heave;

    private static AssembledHalfCar OnRigidTyres(double mass, double stiffness, double damper) =>
        LinearVehicles.Independent(mass, 0.3 * mass, 0.75, 1e-3 * mass, stiffness / 2, 1e7 * stiffness, damper / 2, 0);

    /// <summary>A car of two corners, each with a spring and a damper at ratios to its wheel.</summary>
    private static AssembledHalfCar Installed(double mass, double wheel, double spring, double springRatio, double tyre, double damperRatio, double track)
    {
        var car = LinearVehicles.Independent(2 * mass, 0.3 * mass, track / 2, wheel, spring, tyre, 100, 0);
        return new AssembledHalfCar(
            car.Vehicle with { Spring = new Spring(new LinearSpring(spring), new FixedRatioFitting(springRatio, springRatio, track / 2)) },
            car.Layout with { Fitting = new FixedRatioFitting(damperRatio, damperRatio, track / 2) });
    }
}
