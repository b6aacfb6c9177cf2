using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Packaging;

/// <summary>Why a slot takes no damper, and what it would take.</summary>
/// <param name="Side">The slot.</param>
/// <param name="Position">The position that comes closest, m.</param>
/// <param name="Worst">What is in the way there.</param>
/// <param name="Walls">The walls that, moved alone, open the slot, the least move first; none where no single one does.</param>
public sealed record Shortfall(RailSide Side, double Position, Contact Worst, ImmutableArray<WallMove> Walls);

/// <summary>How far one wall of a slot must go until one position fits.</summary>
/// <param name="Wall">The wall: a keep-out's name.</param>
/// <param name="Distance">How far, m.</param>
/// <param name="Direction">Which way.</param>
public sealed record WallMove(string Wall, double Distance, WallDirection Direction)
{
    /// <summary>The move in words.</summary>
    public string Words => FormattableString.Invariant($"{Unit.Millimetre.Show(Distance):F1} {DirectionName}");

    /// <summary>The direction in a word.</summary>
    public string DirectionName => Direction switch
    {
        WallDirection.Outboard => "outboard",
        WallDirection.Inboard => "inboard",
        WallDirection.Up => "up",
        _ => "down",
    };
}

/// <summary>A way to move a wall in the rear view.</summary>
public enum WallDirection
{
    /// <summary>Away from the centre plane.</summary>
    Outboard,

    /// <summary>Towards the centre plane.</summary>
    Inboard,

    /// <summary>Away from the road.</summary>
    Up,

    /// <summary>Towards the road.</summary>
    Down,
}
