namespace RollRide.Roads;

/// <summary>The wheel track that a road event lies in.</summary>
public enum RoadSide
{
    /// <summary>Under the left wheels.</summary>
    Left,

    /// <summary>Under the right wheels.</summary>
    Right,

    /// <summary>Under both.</summary>
    Both,
}
