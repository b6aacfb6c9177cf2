namespace RollRide.Dynamics;

/// <summary>Generalised forces on a vehicle that does not move, over its coordinates. Not thread-safe.</summary>
internal interface IStandingForces
{
    /// <summary>Number of coordinates.</summary>
    int Coordinates { get; }

    /// <summary>Mass or inertia of each coordinate: kg, kg·m².</summary>
    ReadOnlySpan<double> Masses { get; }

    /// <summary>Holds the inputs.</summary>
    /// <param name="roadLeft">Height of the road under the left wheel, m.</param>
    /// <param name="roadRight">Height of the road under the right wheel, m.</param>
    /// <param name="lateralAcceleration">Lateral acceleration, m/s².</param>
    void Hold(double roadLeft, double roadRight, double lateralAcceleration);

    /// <summary>Generalised forces of a position, N and N·m; not numbers where a linkage cannot follow.</summary>
    /// <param name="position">The coordinates, m and rad.</param>
    /// <param name="forces">Receives them.</param>
    void Forces(ReadOnlySpan<double> position, Span<double> forces);

    /// <summary>Accelerations of the coordinates, m/s² and rad/s²; not numbers where a linkage cannot follow.</summary>
    /// <param name="position">The coordinates, m and rad.</param>
    /// <param name="accelerations">Receives them.</param>
    void Accelerations(ReadOnlySpan<double> position, Span<double> accelerations);

    /// <summary>The stiffness, N/m, N and N·m/rad: how much less each force becomes with each coordinate, column after column.</summary>
    /// <param name="position">The coordinates, m and rad.</param>
    /// <param name="stiffness">Receives it.</param>
    void Stiffness(ReadOnlySpan<double> position, Span<double> stiffness);
}
