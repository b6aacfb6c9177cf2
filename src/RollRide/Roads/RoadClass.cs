namespace RollRide.Roads;

/// <summary>Road class of ISO 8608: each four times as uneven in power, twice in height, as the one before.</summary>
public enum RoadClass
{
    /// <summary>A: very good.</summary>
    A,

    /// <summary>B: good.</summary>
    B,

    /// <summary>C: average.</summary>
    C,

    /// <summary>D: poor.</summary>
    D,

    /// <summary>E: very poor.</summary>
    E,

    /// <summary>F.</summary>
    F,

    /// <summary>G.</summary>
    G,

    /// <summary>H.</summary>
    H,
}
