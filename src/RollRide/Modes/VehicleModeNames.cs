namespace RollRide.Modes;

/// <summary>The names of the modes of a vehicle with two axles as they are written.</summary>
public static class VehicleModeNames
{
    /// <summary>The name in files.</summary>
    /// <param name="name">The mode.</param>
    public static string Key(VehicleModeName name) => name switch
    {
        VehicleModeName.Bounce => "bounce",
        VehicleModeName.Pitch => "pitch",
        VehicleModeName.Roll => "roll",
        VehicleModeName.Twist => "twist",
        VehicleModeName.FrontHop => "frontHop",
        VehicleModeName.FrontTramp => "frontTramp",
        VehicleModeName.RearHop => "rearHop",
        _ => "rearTramp",
    };

    /// <summary>The name in a table.</summary>
    /// <param name="name">The mode.</param>
    public static string Words(VehicleModeName name) => name switch
    {
        VehicleModeName.FrontHop => "hop, front",
        VehicleModeName.FrontTramp => "tramp, front",
        VehicleModeName.RearHop => "hop, rear",
        VehicleModeName.RearTramp => "tramp, rear",
        _ => Key(name),
    };
}
