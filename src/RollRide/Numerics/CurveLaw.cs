namespace RollRide.Numerics;

/// <summary>A function of one variable given by a table, with a table of its own in each lane: straight lines if they are few, else whatever joins its points.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class CurveLaw<T>
    where T : struct, ILanes<T>
{
    private readonly StraightPiecesLaw<T>? _straight;
    private readonly ISmoothFunction?[] _functions = new ISmoothFunction?[T.Count];

    /// <summary>Makes room for tables of one form.</summary>
    /// <param name="form">The form.</param>
    public CurveLaw(CurveForm form) => _straight = form.Straight is { } straight ? new(straight) : null;

    /// <summary>Puts a table into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="pieces">Its straight lines; null if it has others.</param>
    /// <param name="function">The table itself.</param>
    public void Load(int lane, StraightPieces? pieces, ISmoothFunction function)
    {
        _straight?.Load(lane, pieces!);
        _functions[lane] = function;
    }

    /// <summary>The function.</summary>
    /// <param name="x">The variable.</param>
    /// <param name="value">Receives the function's value.</param>
    public void At(in T x, out T value)
    {
        if (_straight is not null)
            _straight.At(x, out value);
        else
            Search(x, out value);
    }

    private void Search(in T x, out T value) => value = T.Map(_functions, x, out _);
}

/// <summary>What tables must have in common to stand side by side.</summary>
/// <param name="Straight">Their straight lines; null if they are evaluated one by one.</param>
internal readonly record struct CurveForm(StraightPiecesForm? Straight)
{
    /// <summary>With more knots than this a search in each lane is faster than adding up all of them.</summary>
    private const int MostKnots = 24;

    /// <summary>The form of a table.</summary>
    /// <param name="pieces">Its straight lines; null if it has others.</param>
    public static CurveForm Of(StraightPieces? pieces) => new(pieces is { Knots.Length: <= MostKnots } few ? StraightPiecesForm.Of(few) : null);
}
