using MathNet.Numerics.LinearAlgebra;

namespace RollRide.Dynamics;

/// <summary>Whether a vehicle stands at a position: its stiffness there is positive definite, beyond rounding.</summary>
internal static class Stability
{
    // Below this share of the largest squared natural frequency a stiffness is zero but for rounding.
    private const double Margin = 1e-14;

    /// <summary>The same of a linearised vehicle.</summary>
    /// <param name="mass">Its mass matrix.</param>
    /// <param name="stiffness">Its stiffness matrix.</param>
    public static bool Holds(Matrix<double> mass, Matrix<double> stiffness) => Holds(mass.Diagonal().ToArray(), stiffness.ToColumnMajorArray());

    /// <summary>
    /// Whether the stiffness is positive definite: every pivot of its elimination is positive (Sylvester's criterion). It is scaled by the masses first, <c>Kij/√(mi mj)</c>, so
    /// that all its numbers are squared frequencies and one margin serves for heave and roll.
    /// </summary>
    /// <param name="masses">Mass or inertia of each coordinate, kg and kg·m².</param>
    /// <param name="stiffness">The stiffness, N/m, N and N·m/rad, symmetric, column after column; overwritten.</param>
    public static bool Holds(ReadOnlySpan<double> masses, Span<double> stiffness)
    {
        var (count, largest) = (masses.Length, 0.0);
        for (var column = 0; column < count; column++)
        {
            for (var row = 0; row < count; row++)
                stiffness[(column * count) + row] /= Math.Sqrt(masses[column]) * Math.Sqrt(masses[row]);
            largest = Math.Max(largest, stiffness[(column * count) + column]);
        }

        for (var pivot = 0; pivot < count; pivot++)
        {
            var diagonal = stiffness[(pivot * count) + pivot];
            if (!(diagonal > Margin * largest))
                return false;
            for (var row = pivot + 1; row < count; row++)
            {
                for (var column = pivot + 1; column < count; column++)
                    stiffness[(column * count) + row] -= stiffness[(pivot * count) + row] * stiffness[(column * count) + pivot] / diagonal;
            }
        }

        return true;
    }
}
