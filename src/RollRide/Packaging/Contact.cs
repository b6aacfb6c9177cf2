namespace RollRide.Packaging;

/// <summary>What limits a position: a part of the damper against something, at one combination of heave and roll.</summary>
public sealed record Contact
{
    /// <summary>The part of the damper; null where its length is the limit.</summary>
    public required DamperPart? Part { get; init; }

    /// <summary>What it meets: a keep-out's name, the other damper, or one of the damper's own lengths.</summary>
    public required string Against { get; init; }

    /// <summary>Heave there, m.</summary>
    public required double Heave { get; init; }

    /// <summary>Roll there, rad.</summary>
    public required double Roll { get; init; }

    /// <summary>What is left beyond the clearance to be kept, m; negative where it is missing.</summary>
    public required double Margin { get; init; }

    /// <summary>The contact in words, without numbers.</summary>
    public string Text => Part is null ? Against : $"{PartName(Part.Value)} to {Against}";

    private static string PartName(DamperPart part) => part switch
    {
        DamperPart.UpperTube => "upper tube",
        DamperPart.LowerTube => "lower tube",
        DamperPart.Rod => "rod",
        DamperPart.UpperBush => "upper bush",
        _ => "lower bush",
    };
}
