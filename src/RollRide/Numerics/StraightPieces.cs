namespace RollRide.Numerics;

/// <summary>
/// A continuous function made of straight pieces: piece <c>k</c>, <c>slope[k] x + offset[k]</c>, holds from knot <c>k − 1</c> to
/// knot <c>k</c>; the first and the last reach to infinity.
/// </summary>
internal sealed class StraightPieces
{
    /// <summary>Slopes closer than this, relative, are one slope computed twice.</summary>
    private const double SameSlope = 1e-12;

    private StraightPieces(double[] knots, double[] slopes, double[] offsets) => (Knots, Slopes, Offsets) = (knots, slopes, offsets);

    /// <summary>The knots, ascending: one fewer than pieces.</summary>
    public double[] Knots { get; }

    /// <summary>Slope of each piece.</summary>
    public double[] Slopes { get; }

    /// <summary>Value of each piece, extended, at zero.</summary>
    public double[] Offsets { get; }

    /// <summary>Makes the function, leaving out knots at which nothing bends.</summary>
    /// <param name="knots">Knots, ascending.</param>
    /// <param name="slopes">Slopes, one more.</param>
    /// <param name="offsets">Values at zero, one more.</param>
    public static StraightPieces Of(ReadOnlySpan<double> knots, ReadOnlySpan<double> slopes, ReadOnlySpan<double> offsets)
    {
        var (k, s, o) = (new List<double>(), new List<double> { slopes[0] }, new List<double> { offsets[0] });
        for (var i = 0; i < knots.Length; i++)
        {
            if (Math.Abs(slopes[i + 1] - s[^1]) <= SameSlope * Math.Abs(s[^1]))
            {
                // Of two that are one, the piece that holds at zero is kept: it has no rounding there.
                if (knots[i] <= 0)
                    (s[^1], o[^1]) = (slopes[i + 1], offsets[i + 1]);
                continue;
            }

            k.Add(knots[i]);
            s.Add(slopes[i + 1]);
            o.Add(offsets[i + 1]);
        }

        return new StraightPieces([.. k], [.. s], [.. o]);
    }

    /// <summary>The piece that holds at a value; at a knot the one above.</summary>
    public int PieceAt(double x)
    {
        var piece = 0;
        while (piece < Knots.Length && Knots[piece] <= x)
            piece++;
        return piece;
    }
}
