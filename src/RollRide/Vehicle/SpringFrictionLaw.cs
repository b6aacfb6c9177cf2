using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>
/// The friction beside a spring, with one of its own in each lane: <c>F = σ z</c> and <c>ż = Ẋ − |Ẋ| z/β</c>, with a deflection <c>z</c> for its memory,
/// which is 0 where the friction has not been loaded yet.
/// </summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class SpringFrictionLaw<T>
    where T : struct, ILanes<T>
{
    private const int Stiffness = 0, PerBuildUp = 1;

    private readonly LaneBuffer<T> _numbers = new(2);

    /// <summary>Puts a friction into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="friction">The friction; null for none on this side.</param>
    public void Load(int lane, SpringFriction? friction)
    {
        _numbers[Stiffness, lane] = friction?.Stiffness ?? 0;
        _numbers[PerBuildUp, lane] = 1 / friction?.BuildUp ?? 0;
    }

    /// <summary>The force, and how its memory changes.</summary>
    /// <param name="velocity">Velocity of the spring, m/s, positive in compression.</param>
    /// <param name="deflection">The deflection <c>z</c>, m.</param>
    /// <param name="force">Receives the force, N, positive where it resists compression.</param>
    /// <param name="rate">Receives <c>ż</c>, m/s.</param>
    /// <param name="heat">Receives the power turned into heat <c>F (Ẋ − ż)</c>, W.</param>
    public void At(in T velocity, in T deflection, out T force, out T rate, out T heat)
    {
        force = _numbers[Stiffness] * deflection;
        var slip = T.Abs(velocity) * (deflection * _numbers[PerBuildUp]);
        rate = velocity - slip;
        heat = force * slip;
    }
}
