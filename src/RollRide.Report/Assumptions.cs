using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Report;

/// <summary>What the numbers of a report rest on, in words; docs/theory.md says what each leaves out.</summary>
internal static class Assumptions
{
    /// <summary>The assumptions of a case.</summary>
    public static IReadOnlyList<string> Of(StudyCase study)
    {
        List<string> all =
        [
            "One axle with the part of the body that it carries, in the roll plane: pitch, the other axle and twist of the frame are left out.",
            "Rigid body, roll centre fixed on the centre plane; left and right are the same.",
            "The cornering is given, and body roll does not act back on the path of the vehicle.",
            "A tyre is a vertical spring and damper that pushes but never pulls; it follows the road at a point.",
            study.Vehicle.Suspension == SuspensionKind.LiveAxle
                ? "The axle is rigid and turns about the roll centre; elements with mount points use their exact length at every travel."
                : "Each wheel travels vertically; elements on an arm use their exact length at every travel.",
            study.Analysis.IncludeFriction
                ? "Damping ratios hold for small motions about ride height, with the friction of the dampers."
                : "Damping ratios hold for small motions about ride height, without the friction of the dampers; the runs include it.",
            "Dampers are as cold as on the test bench, and do not fade.",
        ];
        return all;
    }
}
