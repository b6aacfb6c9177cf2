namespace RollRide.Modes;

/// <summary>The names of the modes as they are written.</summary>
public static class ModeNames
{
    /// <summary>The name in files: lower case.</summary>
    /// <param name="name">The mode.</param>
    public static string Key(ModeName name) => name switch
    {
        ModeName.Heave => "heave",
        ModeName.Roll => "roll",
        ModeName.Hop => "hop",
        _ => "tramp",
    };
}
