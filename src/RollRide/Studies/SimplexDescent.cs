using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Double;
using MathNet.Numerics.Optimization;

namespace RollRide.Studies;

/// <summary>A simplex search in the unit cube of settings (J. A. Nelder and R. Mead, 1965).</summary>
internal static class SimplexDescent
{
    // What a setting costs with which the vehicle rolls over, or that keeps no floor: far above any real value, and finite for the simplex.
    private const double RolledOver = 1e6;

    /// <summary>A simplex search from a start, and at its end the nearest edges and corners of the cube; all that was tried.</summary>
    public static List<TradeOffTrial> Run(Func<TradeOffPoint, double> goal, TradeOffTrial start, double step, int tries, Func<double[], TradeOffTrial> attempt)
    {
        var trials = new List<TradeOffTrial>(tries + 8);
        double Value(TradeOffTrial trial) => trial.Point is { } point ? goal(point) : RolledOver;
        double Evaluate(Vector<double> x)
        {
            if (trials.Count >= tries)
                return RolledOver; // the budget is spent: nothing more improves, and the simplex shrinks to its end
            var trial = attempt([.. x.Select(Folded)]);
            trials.Add(trial);
            return Value(trial);
        }

        try
        {
            new NelderMeadSimplex(1e-6, tries).FindMinimum(
                ObjectiveFunction.Value(Evaluate),
                DenseVector.OfArray(start.Place),
                DenseVector.Create(TradeOff.Dimensions, step));
        }
        catch (MaximumIterationsException)
        {
            // Expected: the search ends with its budget, and all it tried is kept.
        }

        // A simplex creeps along a bound without reaching it; one look at each face next to the best settles that.
        var best = trials.Append(start).MinBy(Value)!;
        for (int i = 0; i < TradeOff.Dimensions; i++)
        {
            var place = (double[])best.Place.Clone();
            place[i] = Math.Round(place[i]);
            var edge = attempt(place);
            trials.Add(edge);
            if (Value(edge) < Value(best))
                best = edge;
        }

        return trials;
    }

    /// <summary>Mirrors the real line into 0…1: the simplex knows no bounds.</summary>
    private static double Folded(double x)
    {
        double within = Math.Abs(x) % 2;
        return within > 1 ? 2 - within : within;
    }
}
