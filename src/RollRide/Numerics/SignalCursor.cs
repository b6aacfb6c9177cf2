namespace RollRide.Numerics;

/// <summary>
/// Evaluates a <see cref="PiecewiseSignal"/> within one segment between two breakpoints, with the branch that holds inside,
/// also at its ends. Allocates nothing when used; not thread-safe: one per run.
/// </summary>
public sealed class SignalCursor
{
    private readonly PiecewiseSignal _signal;
    private readonly SignalPiece[] _active;
    private int _count = -1;

    internal SignalCursor(PiecewiseSignal signal)
    {
        _signal = signal;
        _active = new SignalPiece[signal.Pieces.Length];
    }

    /// <summary>Chooses the pieces that act in the segment evaluated from now on.</summary>
    /// <param name="midpoint">A place strictly inside the segment (s or m).</param>
    public void EnterSegment(double midpoint)
    {
        _count = 0;
        foreach (SignalPiece piece in _signal.Pieces)
        {
            if (piece.Start < midpoint && midpoint < piece.End) _active[_count++] = piece;
        }
    }

    /// <summary>Whether the signal keeps its value throughout the segment entered last.</summary>
    internal bool IsHeld
    {
        get
        {
            foreach (SignalPiece piece in Active())
            {
                if (piece.Shape is not ConstantShape) return false;
            }

            return true;
        }
    }

    /// <summary>The value of the signal.</summary>
    /// <param name="t">Time or distance (s or m) within the segment entered last.</param>
    /// <exception cref="InvalidOperationException">No segment has been entered.</exception>
    public double Value(double t)
    {
        double sum = 0;
        foreach (SignalPiece piece in Active()) sum += piece.Shape.Value(t - piece.Start);
        return sum;
    }

    /// <summary>The derivative of the signal with respect to its variable.</summary>
    /// <param name="t">Time or distance (s or m) within the segment entered last.</param>
    /// <exception cref="InvalidOperationException">No segment has been entered.</exception>
    public double Rate(double t)
    {
        double sum = 0;
        foreach (SignalPiece piece in Active()) sum += piece.Shape.Rate(t - piece.Start);
        return sum;
    }

    private ReadOnlySpan<SignalPiece> Active() =>
        _count >= 0 ? _active.AsSpan(0, _count) : throw new InvalidOperationException("Enter a segment before evaluating the signal.");
}
