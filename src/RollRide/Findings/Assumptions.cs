using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Findings;

/// <summary>What the numbers of a report rest on, in words; docs/theory.md says what each leaves out.</summary>
public static class Assumptions
{
    /// <summary>What is left out of a vehicle whose springs are given without friction.</summary>
    public const string NoSpringFriction = "Springs have no friction: that of leaf springs and bushes, which stiffens and damps small motions, is left out.";

    /// <summary>The assumptions of a case.</summary>
    /// <param name="study">The case.</param>
    public static IReadOnlyList<string> Of(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        var random = study.Manoeuvre.Road.Unevenness;
        var contact = random is { ContactLength: > 0 and var length }
            ? FormattableString.Invariant($"it follows obstacles at a point, and the random road averaged over a contact of {Unit.Millimetre.Show(length):0.#}.")
            : "it follows the road at a point.";
        List<string> all =
        [
            .. AroundTheAxle(study.Vehicle),
            "Rigid body, roll centre fixed on the centre plane.",
            "The cornering is given, and body roll does not act back on the path of the vehicle.",
            $"A tyre is a vertical spring and damper that pushes but never pulls; {contact}",
            study.Vehicle.Suspension.Motion,
            study.Analysis.IncludeFriction
                ? "Damping ratios hold for small motions about ride height, with the friction of the dampers."
                : "Damping ratios hold for small motions about ride height, without the friction of the dampers; the runs include it.",
            study.Vehicle.On(Side.Left).Spring.Friction is null && study.Vehicle.On(Side.Right).Spring.Friction is null
                ? NoSpringFriction
                : "The friction of the springs follows one build-up whatever the load; rest positions, modes and damping ratios leave it out, the runs include it.",
            "Dampers are as cold as on the test bench, and do not fade.",
        ];
        if (random is not null)
            all.Add("The random road is Gaussian and everywhere of the same kind: it has no holes, patches or joints but those given as obstacles.");
        return all;
    }

    private static IEnumerable<string> AroundTheAxle(HalfCar vehicle)
    {
        if (vehicle.SecondAxle is not { } second)
        {
            yield return "One axle with the part of the body that it carries, in the roll plane: pitch, the other axle and twist of the frame are left out.";
            yield break;
        }

        yield return FormattableString.Invariant(
            $"Two axles {Unit.Millimetre.Show(second.Chassis.Wheelbase):F0} apart on one body that does not bend, with {VehicleConclusions.Frame(vehicle)}{(second.Chassis.PitchInertia is null ? "; its ends bounce independently (dynamic index 1)" : "")}. Modes, setting windows and targets are those of this axle alone where nothing else is said.");
        if (second.IsEstimated)
        {
            var (other, damper) = (second.Vehicle, second.Layout.Damper.EquivalentCoefficient(1));
            yield return FormattableString.Invariant(
                $"The other axle is an estimate from its load, roll stiffness and damping ratio: {other.Suspension.Noun} with a track of {Unit.Millimetre.Show(other.Track):F0}, {other.Unsprung.Mass:F0} kg unsprung under {other.Body.Mass:F0} kg of body, roll centre {Unit.Millimetre.Show(other.RollCentreHeight):F0} above the road, linear springs and dampers at the wheels, of {damper:F0} N·s/m each, and single tyres like those of this axle.");
        }
    }
}
