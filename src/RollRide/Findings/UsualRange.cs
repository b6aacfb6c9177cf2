using RollRide.Numerics;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What is usual for a quantity of a road vehicle, and who says so. What lies outside is possible, and worth a second look.</summary>
/// <param name="Lowest">The lowest usual value, SI; null where none is too low.</param>
/// <param name="Highest">The highest usual value, SI; null where none is too high.</param>
/// <param name="Unit">The unit in which it is shown.</param>
/// <param name="Decimals">Decimals of a value shown.</param>
/// <param name="Whose">What such values are usual for: "body damping of road cars".</param>
/// <param name="Source">Who says so.</param>
public sealed record UsualRange(double? Lowest, double? Highest, Unit Unit, int Decimals, string Whose, string Source)
{
    /// <summary>Heave frequency of the body: below it the motion may make passengers ill, above it vehicles are race cars.</summary>
    public static UsualRange RideFrequency { get; } = new(1, 2, Unit.Hertz, 2, "road vehicles",
        "below 1 Hz may cause nausea: Audi self-study programme 242, pp. 8–9; passenger cars up to 1.5 Hz, sedan race cars up to 2 Hz: M. Giaraffa, Tech Tip: Springs & Dampers, Part One");

    /// <summary>Heave damping ratio of the body.</summary>
    public static UsualRange HeaveDamping { get; } = new(0.2, 0.4, Unit.One, 2, "road cars",
        "T. D. Gillespie, Fundamentals of Vehicle Dynamics, 1992, ch. 5, from memory; sports cars have 0.5 to 0.7");

    /// <summary>Roll damping ratio of the body.</summary>
    public static UsualRange RollDamping { get; } = new(0.1, null, Unit.One, 2, "road vehicles", "common practice, no source");

    /// <summary>Body roll per lateral acceleration, rad per m/s²: from stiff sports cars to soft passenger cars.</summary>
    public static UsualRange RollGradient { get; } = new(Unit.DegreePerG.InSi, 7 * Unit.DegreePerG.InSi, Unit.DegreePerG, 2, "cars",
        "sports cars 1 to 2, passenger cars 3 to 7: W. F. Milliken, D. L. Milliken, Race Car Vehicle Dynamics, from memory");

    /// <summary>Stroke that a damper has left at rest in one direction, m: an ordinary road uses as much, and a bump more.</summary>
    public static UsualRange StrokeLeft { get; } = new(30 * Unit.Millimetre.InSi, null, Unit.Millimetre, 0, "road vehicles", "common practice, no source");

    /// <summary>The range in words: "0.2 to 0.4", "at least 30".</summary>
    public string Words => (Unit.Of(Lowest), Unit.Of(Highest)) switch
    {
        ({ } low, { } high) => Invariant($"{low:0.##} to {high:0.##}"),
        ({ } low, null) => Invariant($"at least {low:0.##}"),
        var (_, high) => Invariant($"at most {high:0.##}"),
    };

    /// <summary>Whether a value is usual.</summary>
    /// <param name="value">The value, SI.</param>
    public bool Holds(double value) => !(value < Lowest) && !(value > Highest);
}
