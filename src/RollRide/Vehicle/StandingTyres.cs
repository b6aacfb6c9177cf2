using RollRide.Mounting;

namespace RollRide.Vehicle;

/// <summary>
/// What the tyres carry where the suspension is held still at a heave and roll, whatever road and body force hold it there: with the springs' force <c>F</c>
/// and the moment <c>M</c> of springs and bar, <c>Σ Ft = F + mu g</c> and <c>Σ y Ft = M</c>. A tyre only pushes, so where <c>|M|</c> exceeds <c>F + mu g</c> times the
/// outermost contact's distance from the centre plane, nothing can hold it.
/// </summary>
/// <remarks>
/// Springs are set at the design load, and what the tyres carry does not depend on the load. Gas is counted as part of the springs' preload. Stops are left out: only travel that
/// they leave free is looked at. In motion a wheel can go further for an instant.
/// </remarks>
internal sealed record StandingTyres
{
    private readonly HalfCar _design;

    /// <summary>The tyres of a vehicle.</summary>
    /// <param name="design">The vehicle, drawn at its design position under its design load.</param>
    public StandingTyres(HalfCar design) => _design = design;

    /// <summary>Relative heave from the design position at which heave is counted, m.</summary>
    public double Heave { get; private init; }

    /// <summary>Relative roll at which roll is counted, rad.</summary>
    public double Roll { get; private init; }

    /// <summary>The same counted from another rest position.</summary>
    /// <param name="heave">Relative heave there, m.</param>
    /// <param name="roll">Relative roll there, rad.</param>
    public StandingTyres From(double heave, double roll) => this with { Heave = Heave + heave, Roll = Roll + roll };

    /// <summary>The load left on the side that lifts first, both sides' tyres as a pair at the outermost contacts, N; negative where a tyre would have to pull.</summary>
    /// <param name="heave">Relative heave, m.</param>
    /// <param name="roll">Relative roll, rad.</param>
    /// <exception cref="ArgumentOutOfRangeException">A spring's table never carries its share of the body.</exception>
    public double LeastLoad(double heave, double roll)
    {
        double load = _design.Unsprung.Mass * _design.Gravity, moment = _design.AntiRollBar * (Roll + roll);
        foreach (var side in (ReadOnlySpan<Side>)[Side.Left, Side.Right])
        {
            var spring = _design.On(side).Spring;
            var preload = (_design.Body.Mass * _design.Gravity / 2 / spring.Fitting.HeaveRatio) + spring.PreloadChange;
            var motion = spring.Fitting.At(Heave + heave, Roll + roll, side);
            var force = spring.Characteristic.AtRideHeight(preload).Value(motion.Compression);
            load += motion.HeaveRatio * force;
            moment += motion.RollArm * force;
        }

        return (load - (Math.Abs(moment) / _design.ContactPositions[0])) / 2;
    }
}
