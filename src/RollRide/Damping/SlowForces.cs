using System.Collections.Immutable;
using System.Globalization;
using MathNet.Numerics.LinearRegression;

namespace RollRide.Damping;

/// <summary>What a damper's rod feels besides the valves, as slow movement shows it.</summary>
/// <param name="Friction">Friction, N.</param>
/// <param name="GasForce">Gas force at mid-stroke, N.</param>
/// <param name="GasRate">Stiffness of the gas, N/m.</param>
internal readonly record struct SlowForces(double Friction, double GasForce, double GasRate)
{
    // Friction and gas are read from the slow movement: above the velocity over which friction builds up, and below the knee of
    // ordinary dampers (common practice, no source).
    private const double SlowShare = 0.3, SlowVelocity = 0.1;

    /// <summary>
    /// Friction and gas from slow movement, by linear least squares: <c>F = G + K (x − x₀) + Fc sgn v + cc v⁺ + cr v⁻</c>. Extended to
    /// <c>v = 0</c>, half the gap between both directions is the friction and their mean is the gas force.
    /// </summary>
    public static SlowForces Of(
        IReadOnlyList<IReadOnlyList<DynoCycle>> slowest, ImmutableArray<string>.Builder warnings)
    {
        var rows = new List<double[]>();
        var forces = new List<double>();
        foreach (var cycle in slowest.SelectMany(cycles => cycles))
        {
            double peak = cycle.Velocity.Max(Math.Abs);
            for (int i = 0; i < cycle.Velocity.Length - 1; i++)
            {
                double v = cycle.Velocity[i];
                if (Math.Abs(v) < SlowShare * peak)
                    continue;
                rows.Add([1, cycle.Displacement[i] - cycle.MidStroke, Math.Sign(v), Math.Max(v, 0), Math.Min(v, 0)]);
                forces.Add(cycle.Force[i]);
            }
        }

        double fastest = slowest.SelectMany(cycles => cycles).Max(c => c.Velocity.Max(Math.Abs));
        if (fastest > SlowVelocity)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture,
                $"The slowest movement reaches {fastest:F3} m/s; friction and gas force are extended from there to rest and are sure only from runs below {SlowVelocity} m/s."));
        }

        double[] solution = MultipleRegression.QR([.. rows], [.. forces], intercept: false);
        double friction = solution[2];
        if (friction < 0)
        {
            warnings.Add(string.Create(
                CultureInfo.InvariantCulture, $"The forces at reversal give a friction of {friction:F1} N, which cannot be; 0 N is taken."));
            friction = 0;
        }

        return new SlowForces(friction, solution[0], solution[1]);
    }
}
