namespace RollRide.Modes;

/// <summary>The four modes at one damper coefficient.</summary>
/// <param name="Coefficient">Coefficient of each damper, N·s/m.</param>
/// <param name="Heave">Body heave.</param>
/// <param name="Roll">Body roll.</param>
/// <param name="Hop">Axle hop.</param>
/// <param name="Tramp">Axle tramp.</param>
public sealed record ModeSet(double Coefficient, Mode Heave, Mode Roll, Mode Hop, Mode Tramp)
{
    /// <summary>A mode by its name.</summary>
    /// <param name="name">The name.</param>
    public Mode this[ModeName name] => name switch
    {
        ModeName.Heave => Heave,
        ModeName.Roll => Roll,
        ModeName.Hop => Hop,
        _ => Tramp,
    };

    /// <summary>All four, in the order heave, roll, hop, tramp.</summary>
    public IReadOnlyList<Mode> All => [Heave, Roll, Hop, Tramp];
}
