using MathNet.Numerics.Interpolation;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Numerics;

namespace RollRide.Studies;

/// <summary>Damping ratio of every mode over the damper coefficient, from the full eigenvalues, tabulated once and read often.</summary>
internal sealed class DampingRatioMap
{
    /// <summary>Lowest and highest coefficient of the table, N·s/m: four decades hold every damper.</summary>
    public const double LowestCoefficient = 10, HighestCoefficient = 2e5;

    // At 2 % a step the interpolation is good to about 1e-5 of the ratio.
    private const double Step = 1.02;

    private readonly double[] _logCoefficients;
    private readonly double[][] _ratios;
    private readonly CubicSpline[] _splines;

    /// <summary>Tabulates a linearised half-car.</summary>
    /// <exception cref="UnstableBodyException">The body does not swing about rest.</exception>
    public DampingRatioMap(LinearHalfCar linear)
    {
        int count = 1 + (int)Math.Ceiling(Math.Log(HighestCoefficient / LowestCoefficient) / Math.Log(Step));
        var follower = new ModeFollower(linear);
        _logCoefficients = new double[count];
        _ratios = [.. Enum.GetValues<ModeName>().Select(_ => new double[count])];
        for (int i = 0; i < count; i++)
        {
            double coefficient = LowestCoefficient * Math.Pow(Step, i);
            var modes = follower.At(coefficient);
            _logCoefficients[i] = Math.Log(coefficient);
            foreach (var mode in Enum.GetValues<ModeName>())
                _ratios[(int)mode][i] = modes[mode].DampingRatio;
        }

        double[] heave = _ratios[(int)ModeName.Heave];
        int peak = Enumerable.Range(0, count - 1).FirstOrDefault(i => heave[i + 1] <= heave[i], count - 1);
        LockingCoefficient = Math.Exp(_logCoefficients[peak]);
        _splines = [.. _ratios.Select(ratios => CubicSpline.InterpolatePchipSorted(_logCoefficients, ratios))];
    }

    /// <summary>
    /// The coefficient, N·s/m, up to which more damping damps heave more. Beyond it the damper locks the suspension, the body bounces on
    /// its tyres, and ratios that fall again are not a setting anybody wants.
    /// </summary>
    public double LockingCoefficient { get; }

    /// <summary>The ratio of a mode at a coefficient, N·s/m; beyond the table that of its end.</summary>
    public double Ratio(ModeName mode, double coefficient) =>
        _splines[(int)mode].Interpolate(Math.Clamp(Math.Log(coefficient), _logCoefficients[0], _logCoefficients[^1]));

    /// <summary>The lowest coefficient with a ratio, N·s/m; null if the damper in this place does not reach it before it locks the suspension.</summary>
    public double? Coefficient(ModeName mode, double ratio)
    {
        double[] ratios = _ratios[(int)mode];
        if (ratio <= 0)
            return 0;
        int above = Array.FindIndex(ratios, r => r >= ratio);
        if (above < 0 || _logCoefficients[Math.Max(above - 1, 0)] >= Math.Log(LockingCoefficient))
            return null;
        if (above == 0)
            return LowestCoefficient * ratio / ratios[0]; // where damping is small the ratio grows with the coefficient
        return Math.Exp(DenseSearch.Crossing(log => _splines[(int)mode].Interpolate(log) - ratio, _logCoefficients[above - 1], _logCoefficients[above]));
    }
}
