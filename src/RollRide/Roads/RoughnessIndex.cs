using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>
/// International Roughness Index: the suspension stroke that a reference quarter car at 80 km/h gathers, over the distance.
/// </summary>
/// <remarks>
/// M. W. Sayers, On the calculation of International Roughness Index from longitudinal road profile, Transp. Res. Rec. 1501,
/// 1995; ASTM E1926. The state is carried from slope to slope by the exact transition of the linear system, computed here
/// rather than taken from the printed tables, whose first input coefficient is off by up to 6e-4.
/// </remarks>
public static class RoughnessIndex
{
    /// <summary>Speed of the reference quarter car, m/s.</summary>
    public static double Speed { get; } = 80 * Unit.KilometrePerHour.InSi;

    // The reference quarter car, over its sprung mass: stiffnesses in 1/s², damping in 1/s, unsprung mass as a ratio. Lengths in m.
    private const double TyreStiffness = 653;
    private const double SpringStiffness = 63.3;
    private const double Damping = 6.0;
    private const double MassRatio = 0.15;
    private const double Base = 0.25;
    private const double StartLength = 11;
    private const int States = 4;

    /// <summary>The index of a profile, m/km.</summary>
    /// <param name="elevations">Elevations, m, at a constant spacing; at least 11 m of them.</param>
    /// <param name="step">Spacing, m; above 0 and at most 0.3, beyond which the index is not defined.</param>
    /// <exception cref="ArgumentException">The spacing is too coarse or the profile too short.</exception>
    public static double Of(IReadOnlyList<double> elevations, double step)
    {
        var strokes = Strokes(elevations, step);
        double sum = 0;
        for (var i = 0; i < strokes.Length; i++) sum += strokes[i];
        return 1000 * sum / strokes.Length;
    }

    /// <summary>The rectified stroke slope <c>|Z1 − Z3|</c> after each slope of the profile, m/m.</summary>
    /// <param name="elevations">Elevations, m, at a constant spacing; at least 11 m of them.</param>
    /// <param name="step">Spacing, m; above 0 and at most 0.3.</param>
    /// <exception cref="ArgumentException">The spacing is too coarse or the profile too short.</exception>
    public static double[] Strokes(IReadOnlyList<double> elevations, double step)
    {
        ArgumentNullException.ThrowIfNull(elevations);
        const double CoarsestStep = 0.3;
        Require.Positive(step, "m");
        if (step > CoarsestStep)
            throw new ArgumentOutOfRangeException(nameof(step), step, FormattableString.Invariant($"The roughness index needs a sample spacing of {CoarsestStep} m or less."));
        var start = (int)Math.Round(StartLength / step);
        if (elevations.Count <= start)
            throw new ArgumentException(FormattableString.Invariant($"The roughness index needs {StartLength} m of profile; there are {(elevations.Count - 1) * step:F2} m."), nameof(elevations));

        var (transition, input) = Transition(step);
        Span<double> z = [(elevations[start] - elevations[0]) / StartLength, 0, 0, 0];
        z[2] = z[0];
        Span<double> next = stackalloc double[States];

        // Slope over the base length of 250 mm: the difference of the smoothed profile in one.
        var width = Math.Max(1, (int)Math.Round(Base / step));
        var strokes = new double[elevations.Count - width];
        for (var i = 0; i < strokes.Length; i++)
        {
            var slope = (elevations[i + width] - elevations[i]) / (width * step);
            for (var row = 0; row < States; row++)
            {
                next[row] = input[row] * slope;
                for (var column = 0; column < States; column++) next[row] += transition[row, column] * z[column];
            }

            next.CopyTo(z);
            strokes[i] = Math.Abs(z[0] - z[2]);
        }

        return strokes;
    }

    /// <summary>Transition of the states and effect of a slope held over one spacing: <c>Z' = ST·Z + PR·u</c>.</summary>
    /// <param name="step">Spacing, m.</param>
    internal static (Matrix<double> Transition, Vector<double> Input) Transition(double step)
    {
        var a = DenseMatrix.OfArray(new[,]
        {
            { 0, 1, 0, 0 },
            { -SpringStiffness, -Damping, SpringStiffness, Damping },
            { 0, 0, 0, 1 },
            {
                SpringStiffness / MassRatio, Damping / MassRatio,
                -(TyreStiffness + SpringStiffness) / MassRatio, -Damping / MassRatio,
            },
        });
        var b = DenseVector.OfArray([0, 0, 0, TyreStiffness / MassRatio]);
        var transition = Exponential(a * (step / Speed));
        return (transition, a.Solve((transition - DenseMatrix.CreateIdentity(States)) * b));
    }

    /// <summary>Matrix exponential by halving until the series converges fast, and squaring back.</summary>
    private static Matrix<double> Exponential(Matrix<double> matrix)
    {
        const int Halvings = 8;
        const int Terms = 12;
        var scaled = matrix / Math.Pow(2, Halvings);
        Matrix<double> term = DenseMatrix.CreateIdentity(matrix.RowCount), sum = term;
        for (var k = 1; k <= Terms; k++)
        {
            term = term * scaled / k;
            sum += term;
        }

        for (var k = 0; k < Halvings; k++) sum *= sum;
        return sum;
    }
}
