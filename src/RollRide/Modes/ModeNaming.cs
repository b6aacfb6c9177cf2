using RollRide.Dynamics;
using RollRide.Numerics;

namespace RollRide.Modes;

/// <summary>Names modes where damping is small, by the coordinate that holds most of the kinetic energy.</summary>
internal static class ModeNaming
{
    // Naming starts where no motion has more than about this damping ratio: small enough for shapes to be those of the undamped vehicle.
    private const double NamingDampingRatio = 0.01;

    private static readonly int[][] Permutations = [.. Permute([0, 1, 2, 3])];

    /// <summary>The setting at which modes are named, N·s/m.</summary>
    /// <param name="linear">The linearised half-car.</param>
    public static double Coefficient(LinearHalfCar linear)
    {
        // ζ = c Σj²/(2 √(k m)), for whichever motion the dampers brake most.
        var rate = 0.0;
        for (var i = 0; i < HalfCarState.Rates; i++)
        {
            var arms = 0.0;
            foreach (var arm in linear.DamperArms)
                arms += arm[i] * arm[i];
            rate = Math.Max(rate, arms / (2 * Math.Sqrt(linear.Stiffness[i, i] * linear.Mass[i, i])));
        }

        return rate > 0 ? NamingDampingRatio / rate : 1;
    }

    /// <summary>Whether every motion swings while the dampers do hardly anything, so that modes can be named.</summary>
    public static bool Swings(LinearHalfCar linear) => UpperOfPairs(EigenSystem.Solve(linear, Coefficient(linear))) is not null;

    /// <summary>Gives each swinging pair the name whose coordinate takes part most, all four together.</summary>
    public static (int First, int Second)[] Pairs(EigenSystem system)
    {
        var upper = UpperOfPairs(system) ?? throw new UnnamedModesException();
        var (best, most) = (Permutations[0], double.NegativeInfinity);
        foreach (var order in Permutations)
        {
            var share = 0.0;
            for (var name = 0; name < order.Length; name++)
                share += EigenSystem.MagnitudeSquared(system.Weighted[upper[order[name]]][name]);
            if (share > most)
                (best, most) = (order, share);
        }

        return best.Map(k => (upper[k], system.ConjugateOf(upper[k])));
    }

    /// <summary>The upper eigenvalue of each swinging pair; null unless there are four.</summary>
    private static int[]? UpperOfPairs(EigenSystem system)
    {
        var upper = new int[Permutations[0].Length];
        var count = 0;
        for (var k = 0; k < system.Values.Length; k++)
        {
            if (system.Values[k].Imaginary > 0 && count++ < upper.Length)
                upper[count - 1] = k;
        }

        return count == upper.Length ? upper : null;
    }

    private static IEnumerable<int[]> Permute(int[] items) =>
        items.Length == 1
            ? [items]
            : items.SelectMany(head => Permute([.. items.Where(item => item != head)]).Select(tail => (int[])[head, .. tail]));
}
