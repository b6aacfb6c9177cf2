using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class StraightPiecesTests
{
    [Fact]
    public void Of_KnotAtWhichNothingBends_IsLeftOut()
    {
        var pieces = StraightPieces.Of([-1, 0, 2], [3, 3 * (1 + 1e-15), 3, 5], [1e-13, 0, 0, -4]);
        Assert.Equal([2.0], pieces.Knots);
        Assert.Equal([3.0, 5], pieces.Slopes);

        // Of the three that are one, the piece that holds at zero.
        Assert.Equal([0.0, -4], pieces.Offsets);
    }

    [Fact]
    public void PieceAt_Knot_IsTheOneAbove()
    {
        var pieces = StraightPieces.Of([-1, 2], [1, 2, 3], [1, 2, 0]);
        Assert.Equal([0, 1, 1, 2, 2], new[] { -1.5, -1, 0, 2, 9 }.Select(pieces.PieceAt));
    }

    [Fact]
    public void Pieces_OfATable_AreItsFunction()
    {
        var table = PiecewiseLinear.Through([-1, 0, 0.5, 2], [-3, 0, 2, 4]);
        var pieces = table.Pieces;
        for (var x = -2.0; x < 3; x += 0.13)
        {
            var piece = pieces.PieceAt(x);
            Assert.Equal(table.Value(x), (pieces.Slopes[piece] * x) + pieces.Offsets[piece], 1e-14);
        }
    }
}
