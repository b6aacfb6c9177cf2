using System.Runtime.CompilerServices;

namespace RollRide.Numerics;

/// <summary>
/// A function through points joined by straight lines, with a table of its own in each lane. With the piece that holds at zero,
/// <c>m x + b</c>, and the change <c>Δm</c> of the slope at each knot, it is
/// <c>m x + b + Σ Δm max(0, x − knot)</c> over the knots above zero, and the same with <c>min</c> over those at zero or below:
/// no branch, and exact at zero.
/// </summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class StraightPiecesLaw<T>
    where T : struct, ILanes<T>
{
    private const int Offset = 0, Slope = 1, FirstKnot = 2;

    private readonly int _below;
    private readonly int _above;
    private readonly LaneBuffer<T> _numbers;

    /// <summary>Makes room for tables of one form.</summary>
    /// <param name="form">How many knots there are.</param>
    public StraightPiecesLaw(StraightPiecesForm form)
    {
        (_below, _above) = (form.KnotsBelow, form.KnotsAbove);
        _numbers = new(FirstKnot + (2 * (_below + _above)));
    }

    /// <summary>Puts a table into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="pieces">The table, of the form of this law.</param>
    public void Load(int lane, StraightPieces pieces)
    {
        _numbers[Offset, lane] = pieces.Offsets[_below];
        _numbers[Slope, lane] = pieces.Slopes[_below];
        for (var knot = 0; knot < pieces.Knots.Length; knot++)
        {
            // Below zero the slope changes the other way: a knot acts on what lies beneath it.
            var change = pieces.Slopes[knot + 1] - pieces.Slopes[knot];
            _numbers[FirstKnot + (2 * knot), lane] = pieces.Knots[knot];
            _numbers[FirstKnot + (2 * knot) + 1, lane] = knot < _below ? -change : change;
        }
    }

    /// <summary>The function.</summary>
    /// <param name="x">The variable.</param>
    /// <param name="value">Receives the function's value.</param>
    public void At(in T x, out T value)
    {
        ref var numbers = ref _numbers[0];
        var argument = x;
        var sum = T.Fma(Unsafe.Add(ref numbers, Slope), argument, Unsafe.Add(ref numbers, Offset));
        ref var knot = ref Unsafe.Add(ref numbers, FirstKnot);
        for (var left = _below; left > 0; left--)
        {
            sum = T.Fma(Unsafe.Add(ref knot, 1), T.Min(argument - knot, T.All(0)), sum);
            knot = ref Unsafe.Add(ref knot, 2);
        }

        for (var left = _above; left > 0; left--)
        {
            sum = T.Fma(Unsafe.Add(ref knot, 1), T.Max(argument - knot, T.All(0)), sum);
            knot = ref Unsafe.Add(ref knot, 2);
        }

        value = sum;
    }
}

/// <summary>What tables must have in common to stand side by side.</summary>
/// <param name="KnotsBelow">Number of knots at zero or below.</param>
/// <param name="KnotsAbove">Number of knots above zero.</param>
internal readonly record struct StraightPiecesForm(int KnotsBelow, int KnotsAbove)
{
    /// <summary>The form of a table.</summary>
    public static StraightPiecesForm Of(StraightPieces pieces)
    {
        var below = pieces.PieceAt(0);
        return new(below, pieces.Knots.Length - below);
    }
}
