namespace RollRide.Numerics;

/// <summary>
/// A smooth shape that acts from one instant (or place) to another. An end may be infinite if the shape is a
/// <see cref="ConstantShape"/>: a value held without beginning, or without end.
/// </summary>
public sealed record SignalPiece
{
    /// <summary>Makes a piece.</summary>
    /// <param name="start">Start (s or m); the shape's variable counts from here.</param>
    /// <param name="end">End (s or m), after the start.</param>
    /// <param name="shape">The shape.</param>
    /// <exception cref="ArgumentException">The ends are not in order, or infinite for a shape that is not constant.</exception>
    public SignalPiece(double start, double end, ISignalShape shape)
    {
        ArgumentNullException.ThrowIfNull(shape);
        if (!(start < end)) throw new ArgumentOutOfRangeException(nameof(end), end, FormattableString.Invariant($"A piece must end after its start, {start:R}."));
        if (shape is not ConstantShape && !(double.IsFinite(start) && double.IsFinite(end)))
        {
            throw new ArgumentException(
                FormattableString.Invariant($"A piece from {start:R} to {end:R} needs a constant shape; other shapes have finite ends."), nameof(shape));
        }

        (Start, End, Shape) = (start, end, shape);
    }

    /// <summary>Start (s or m); may be −∞ for a constant.</summary>
    public double Start { get; }

    /// <summary>End (s or m), after the start; may be +∞ for a constant.</summary>
    public double End { get; }

    /// <summary>The shape; its variable counts from <see cref="Start"/>.</summary>
    public ISignalShape Shape { get; }
}
