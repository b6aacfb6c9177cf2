namespace RollRide.Mounting;

/// <summary>
/// How an element (damper, spring, stop) is fitted between the body and the axle or wheel: its compression as a function
/// of the relative heave <c>q = zu − zs</c> (m) and the relative roll <c>r = φu − φs</c> (rad).
/// </summary>
/// <remarks>Immutable and thread-safe. The right side mirrors the left: <c>X_right(q, r) = X_left(q, −r)</c>.</remarks>
public interface IFitting
{
    /// <summary>Element travel over wheel travel in pure heave, at ride height.</summary>
    double HeaveRatio { get; }

    /// <summary>Element travel over wheel travel in pure roll, at ride height.</summary>
    double RollRatio { get; }

    /// <summary>The element's compression from ride height and its first derivatives. Allocates nothing.</summary>
    /// <param name="q">Relative heave, m.</param>
    /// <param name="r">Relative roll, rad.</param>
    /// <param name="side">The side of the vehicle.</param>
    ElementMotion At(double q, double r, Side side);

    /// <summary>The same element drawn at another ride height, its compression counted from there.</summary>
    /// <param name="change">Where body, axle and roll centre stand then.</param>
    /// <exception cref="UnreachableTravelException">The wheel's linkage does not reach it.</exception>
    IFitting Redrawn(RideHeightChange change);

    /// <summary>The same element with the axle turned against the body, its compression counted from there; seen from the element's side.</summary>
    /// <param name="roll">Relative roll, rad, positive where the wheel of the element's side rises against the body.</param>
    /// <exception cref="UnreachableTravelException">The wheel's linkage does not reach it.</exception>
    IFitting Turned(double roll);
}

/// <summary>Compression of an element and its sensitivity to the vehicle's motion, at one position.</summary>
/// <param name="Compression">Compression from ride height, m.</param>
/// <param name="HeaveRatio"><c>∂X/∂q</c>: element travel over heave travel.</param>
/// <param name="RollArm"><c>∂X/∂r</c>, m/rad, signed: at ride height <c>s·Rr·T</c>, positive on the left.</param>
public readonly record struct ElementMotion(double Compression, double HeaveRatio, double RollArm);
