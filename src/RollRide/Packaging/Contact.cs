using RollRide.Numerics;
using static System.FormattableString;

namespace RollRide.Packaging;

/// <summary>What limits a position, or is in the way: two things that come near each other, at one combination of heave and roll.</summary>
public sealed record Contact
{
    /// <summary>The part of the damper; null where its length is the limit, or no damper is involved.</summary>
    public required DamperPart? Part { get; init; }

    /// <summary>The keep-out that moves with the axle, where that and not the damper meets something.</summary>
    public string? Name { get; init; }

    /// <summary>What it meets: a keep-out's name, the other damper, or one of the damper's own lengths.</summary>
    public required string Against { get; init; }

    /// <summary>Heave there, m.</summary>
    public required double Heave { get; init; }

    /// <summary>Roll there, rad.</summary>
    public required double Roll { get; init; }

    /// <summary>What is left beyond the clearance to be kept, m; negative where it is missing.</summary>
    public required double Margin { get; init; }

    /// <summary>The clearance to be kept, m; 0 for a length.</summary>
    public double Clearance { get; init; }

    /// <summary>The contact in words, without numbers.</summary>
    public string Text => First is { } first ? $"{first} to {Against}" : Against;

    /// <summary>What is wrong, in words: how deep the two are in each other, or how much of the clearance is missing, or how far a length is passed; and where.</summary>
    public string Words
    {
        get
        {
            double lacking = Unit.Millimetre.Of(-Margin), depth = Unit.Millimetre.Of(-(Margin + Clearance));
            string where = Invariant($"at {Unit.Millimetre.Show(Heave):+0;-0;0} heave with {Unit.Degree.Show(Roll):+0.0;-0.0;0} roll");
            return First is not { } first ? Invariant($"{lacking:F1} mm beyond {Against} {where}")
                : depth > 0 ? Invariant($"{first} overlaps {Against} by {depth:F1} mm {where}")
                : Invariant($"{first} lacks {lacking:F1} mm of the {Unit.Millimetre.Show(Clearance):0.#} clearance to {Against} {where}");
        }
    }

    private string? First => Part is { } part ? PartName(part) : Name;

    private static string PartName(DamperPart part) => part switch
    {
        DamperPart.UpperTube => "upper tube",
        DamperPart.LowerTube => "lower tube",
        DamperPart.Rod => "rod",
        DamperPart.UpperBush => "upper bush",
        _ => "lower bush",
    };
}
