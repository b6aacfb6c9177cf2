namespace RollRide.Tests.Numerics;

/// <summary>Published test problems for integrators.</summary>
internal static class ReferenceProblems
{
    /// <summary>
    /// Restricted three-body problem, earth and moon (Arenstorf orbits): E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary
    /// Differential Equations I, 2nd ed. 1993, p. 129-130.
    /// </summary>
    public static FunctionSystem Arenstorf { get; } = new(4, (_, y, f) =>
    {
        const double Mu = 0.012277471, Rest = 1 - Mu;
        double d1 = Math.Pow((y[0] + Mu) * (y[0] + Mu) + y[1] * y[1], 1.5);
        double d2 = Math.Pow((y[0] - Rest) * (y[0] - Rest) + y[1] * y[1], 1.5);
        f[0] = y[2];
        f[1] = y[3];
        f[2] = y[0] + 2 * y[3] - Rest * (y[0] + Mu) / d1 - Mu * (y[0] - Rest) / d2;
        f[3] = y[1] - 2 * y[2] - Rest * y[1] / d1 - Mu * y[1] / d2;
    });

    /// <summary>Brusselator, Hairer, Nørsett, Wanner 1993, eq. (16.12) (equation number from memory).</summary>
    public static FunctionSystem Brusselator { get; } = new(2, (_, y, f) =>
    {
        f[0] = 1 + y[0] * y[0] * y[1] - 4 * y[0];
        f[1] = 3 * y[0] - y[0] * y[0] * y[1];
    });

    /// <summary>
    /// Two-body orbit, problems D1 to D5 of T. E. Hull et al., Comparing numerical methods for ordinary differential equations,
    /// SIAM J. Numer. Anal. 9, 1972 (from memory).
    /// </summary>
    public static FunctionSystem Kepler { get; } = new(4, (_, y, f) =>
    {
        double cube = Math.Pow(y[0] * y[0] + y[1] * y[1], 1.5);
        f[0] = y[2];
        f[1] = y[3];
        f[2] = -y[0] / cube;
        f[3] = -y[1] / cube;
    });

    /// <summary>Exact solution of the two-body orbit: x, y and velocities, from Kepler's equation.</summary>
    public static double[] KeplerAt(double eccentricity, double time)
    {
        double anomaly = time;
        for (int i = 0; i < 100; i++)
        {
            anomaly -= (anomaly - eccentricity * Math.Sin(anomaly) - time) / (1 - eccentricity * Math.Cos(anomaly));
        }

        double minor = Math.Sqrt(1 - eccentricity * eccentricity);
        double rate = 1 / (1 - eccentricity * Math.Cos(anomaly));
        return
        [
            Math.Cos(anomaly) - eccentricity, minor * Math.Sin(anomaly),
            -Math.Sin(anomaly) * rate, minor * Math.Cos(anomaly) * rate,
        ];
    }

    public static double Distance(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++) sum += (a[i] - b[i]) * (a[i] - b[i]);
        return Math.Sqrt(sum);
    }
}
