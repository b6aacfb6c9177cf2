namespace RollRide.Numerics;

/// <summary>
/// A number and its derivative by one variable, so that the equations of motion give their own linearisation (forward differentiation).
/// At the corner of a table of straight lines the derivative is the mean of both sides.
/// </summary>
/// <param name="value">The number.</param>
/// <param name="slope">Its derivative.</param>
internal readonly struct Dual(double value, double slope) : ILanes<Dual>
{
    /// <summary>The number.</summary>
    public readonly double Value = value;

    /// <summary>Its derivative.</summary>
    public readonly double Slope = slope;

    private const double Ln2 = 0.6931471805599453;

    public static int Count => 1;

    public static Dual operator +(in Dual a, in Dual b) => new(a.Value + b.Value, a.Slope + b.Slope);

    public static Dual operator -(in Dual a, in Dual b) => new(a.Value - b.Value, a.Slope - b.Slope);

    public static Dual operator *(in Dual a, in Dual b) => new(a.Value * b.Value, (a.Value * b.Slope) + (a.Slope * b.Value));

    public static Dual operator /(in Dual a, in Dual b)
    {
        var quotient = a.Value / b.Value;
        return new(quotient, (a.Slope - (quotient * b.Slope)) / b.Value);
    }

    public static Dual operator -(in Dual a) => new(-a.Value, -a.Slope);

    public static Dual All(double value) => new(value, 0);

    public static Dual Fma(in Dual a, in Dual b, in Dual c) =>
        new(Math.FusedMultiplyAdd(a.Value, b.Value, c.Value), (a.Value * b.Slope) + (a.Slope * b.Value) + c.Slope);

    public static Dual NegatedFma(in Dual a, in Dual b, in Dual c) => Fma(-a, b, c);

    public static Dual Sqrt(in Dual a)
    {
        var root = Math.Sqrt(a.Value);
        return new(root, 0.5 * a.Slope / root);
    }

    public static Dual CopySign(in Dual size, in Dual sign) =>
        double.IsNegative(size.Value) == double.IsNegative(sign.Value) ? size : -size;

    public static Dual Map(ReadOnlySpan<ISmoothFunction?> functions, in Dual x, out Dual slope)
    {
        var (value, first) = functions[0]!.At(x.Value);
        slope = new(first, x.Slope == 0 ? 0 : functions[0]!.SecondAt(x.Value) * x.Slope);
        return new(value, first * x.Slope);
    }

    public static Dual Abs(in Dual a) => a.Value < 0 ? -a : a;

    public static Dual Max(in Dual a, in Dual b) => a.Value > b.Value ? a : a.Value < b.Value ? b : Mean(a, b);

    public static Dual Min(in Dual a, in Dual b) => a.Value < b.Value ? a : a.Value > b.Value ? b : Mean(a, b);

    public static Dual WhereGreater(in Dual a, in Dual b, in Dual then, in Dual otherwise) => a.Value > b.Value ? then : otherwise;

    public static Dual Where(int lanes, in Dual then, in Dual otherwise) => (lanes & 1) != 0 ? then : otherwise;

    public static int Greater(in Dual a, in Dual b) => a.Value > b.Value ? 1 : 0;

    public static Dual PowerOfTwo(in Dual exponent)
    {
        // Differentiated as the smooth function of the exponent that it is: a number rounded to a whole one keeps its derivative.
        var power = Math.ScaleB(1, (int)exponent.Value);
        return new(power, power * Ln2 * exponent.Slope);
    }

    public static Dual RoughLog2(Dual a) => new(OneLane.RoughLog2(new(a.Value)).Value, a.Slope / (a.Value * Ln2)); // of the smooth function, as above

    public static Dual RoughExp2(Dual a) => throw new NotSupportedException("Only step sizes are taken to a rough power, and they have no derivative.");

    private static Dual Mean(in Dual a, in Dual b) => new(b.Value, 0.5 * (a.Slope + b.Slope));
}
