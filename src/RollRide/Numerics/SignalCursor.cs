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
    private double _held;

    internal SignalCursor(PiecewiseSignal signal)
    {
        _signal = signal;
        _active = new SignalPiece[signal.Pieces.Length];
    }

    /// <summary>Whether the signal keeps its value throughout the segment entered last.</summary>
    internal bool IsHeld { get; private set; }

    /// <summary>Chooses the pieces that act in the segment evaluated from now on.</summary>
    /// <param name="midpoint">A place strictly inside the segment (s or m).</param>
    public void EnterSegment(double midpoint)
    {
        _count = 0;
        _held = 0;
        IsHeld = true;
        foreach (SignalPiece piece in _signal.Pieces)
        {
            if (!(piece.Start < midpoint && midpoint < piece.End)) continue;
            if (piece.Shape is ConstantShape constant) _held += constant.Level;
            else (_active[_count++], IsHeld) = (piece, false);
        }
    }

    /// <summary>The value of the signal.</summary>
    /// <param name="t">Time or distance (s or m) within the segment entered last.</param>
    /// <exception cref="InvalidOperationException">No segment has been entered.</exception>
    public double Value(double t) => At(t).Value;

    /// <summary>The derivative of the signal with respect to its variable.</summary>
    /// <param name="t">Time or distance (s or m) within the segment entered last.</param>
    /// <exception cref="InvalidOperationException">No segment has been entered.</exception>
    public double Rate(double t) => At(t).Rate;

    /// <summary>The value of the signal and its derivative with respect to its variable.</summary>
    /// <param name="t">Time or distance (s or m) within the segment entered last.</param>
    /// <exception cref="InvalidOperationException">No segment has been entered.</exception>
    public (double Value, double Rate) At(double t)
    {
        if (_count < 0) throw new InvalidOperationException("Enter a segment before evaluating the signal.");
        var (sum, rate) = (_held, 0.0);
        for (var i = 0; i < _count; i++)
        {
            var piece = _active[i];
            var (value, slope) = piece.Shape.At(t - piece.Start);
            (sum, rate) = (sum + value, rate + slope);
        }

        return (sum, rate);
    }
}
