namespace RollRide.Numerics;

/// <summary>A smooth function of one variable, without kinks over the piece it is used for.</summary>
public interface ISignalShape
{
    /// <summary>The value at a distance from the start of the piece.</summary>
    /// <param name="u">The variable counted from the start of the piece (s or m).</param>
    double Value(double u);

    /// <summary>The derivative of <see cref="Value"/> with respect to <paramref name="u"/>.</summary>
    /// <param name="u">The variable counted from the start of the piece (s or m).</param>
    double Rate(double u);

    /// <summary>Value and derivative together, where both come from the same functions.</summary>
    /// <param name="u">The variable counted from the start of the piece (s or m).</param>
    (double Value, double Rate) At(double u) => (Value(u), Rate(u));
}
