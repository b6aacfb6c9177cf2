using System.Collections.Immutable;

namespace RollRide.Numerics;

/// <summary>
/// A function of time or distance made of smooth pieces: their sum where they overlap, zero where there is none. Immutable,
/// safe to share; <see cref="CreateCursor"/> gives the fast way to evaluate it in a run.
/// </summary>
public sealed class PiecewiseSignal
{
    private readonly ImmutableArray<SignalPiece> _pieces;

    /// <summary>Makes a signal from pieces.</summary>
    /// <param name="pieces">The pieces, in any order; they may overlap.</param>
    public PiecewiseSignal(params IEnumerable<SignalPiece> pieces)
    {
        ArgumentNullException.ThrowIfNull(pieces);
        _pieces = [.. pieces];
        var ends = new List<double>(2 * _pieces.Length);
        foreach (var piece in _pieces)
            ends.AddRange([piece.Start, piece.End]);
        ends.RemoveAll(end => !double.IsFinite(end));
        Breakpoints = [.. Ascending.Once(ends)];
        FinalValue = HeldSince(double.PositiveInfinity);
    }

    /// <summary>The signal that is zero everywhere.</summary>
    public static PiecewiseSignal Zero { get; } = new();

    /// <summary>The finite ends of the pieces, ascending, each once: where the signal may have a kink or a jump.</summary>
    public ImmutableArray<double> Breakpoints { get; }

    /// <summary>The value held after the last breakpoint.</summary>
    public double FinalValue { get; }

    /// <summary>Start of the first piece: −∞ if a value is held since ever, +∞ if there is no piece.</summary>
    public double Start => _pieces.Select(p => p.Start).DefaultIfEmpty(double.PositiveInfinity).Min();

    /// <summary>End of the last piece: +∞ if a value is held without end, −∞ if there is no piece.</summary>
    public double End => _pieces.Select(p => p.End).DefaultIfEmpty(double.NegativeInfinity).Max();

    internal ImmutableArray<SignalPiece> Pieces => _pieces;

    /// <summary>The value; at a breakpoint that of the right-hand side.</summary>
    /// <param name="t">Time or distance (s or m).</param>
    public double Value(double t)
    {
        double sum = 0;
        foreach (SignalPiece piece in _pieces)
        {
            if (piece.Start <= t && t < piece.End) sum += piece.Shape.Value(t - piece.Start);
        }

        return sum;
    }

    /// <summary>What the events begun by a point leave behind permanently: the sum of the values held since then or before.</summary>
    /// <param name="t">Time or distance (s or m).</param>
    public double HeldSince(double t)
    {
        double sum = 0;
        foreach (SignalPiece piece in _pieces)
        {
            if (piece.Start <= t && double.IsPositiveInfinity(piece.End)) sum += piece.Shape.Value(0);
        }

        return sum;
    }

    /// <summary>The same signal, later.</summary>
    /// <param name="by">How much later (s or m); negative for earlier; finite.</param>
    public PiecewiseSignal Shifted(double by)
    {
        Require.Finite(by);
        return new(_pieces.Select(p => new SignalPiece(p.Start + by, p.End + by, p.Shape)));
    }

    /// <summary>The sum of this signal and another.</summary>
    /// <param name="other">The other signal.</param>
    public PiecewiseSignal Plus(PiecewiseSignal other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return new(_pieces.Concat(other._pieces));
    }

    /// <summary>Makes a cursor, which evaluates the signal within one segment after the other.</summary>
    public SignalCursor CreateCursor() => new(this);
}
