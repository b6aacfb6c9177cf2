using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>The equations of one kind of fitting, with parameters of its own in each lane.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal abstract class FittingLaw<T>
    where T : struct, ILanes<T>
{
    /// <summary>The equations that a fitting obeys, without parameters yet.</summary>
    /// <param name="fitting">A fitting of the kind.</param>
    public static FittingLaw<T> Of(IFitting fitting) => fitting switch
    {
        FixedRatioFitting => new FixedRatioLaw<T>(),
        LiveAxleMountFitting => new LiveAxleMountLaw<T>(),
        WheelTravelFitting => new WheelTravelLaw<T>(),
        _ => throw new ArgumentException($"A fitting of the kind {fitting.GetType().Name} has no equations.", nameof(fitting)),
    };

    /// <summary>Whether sine and cosine of the relative roll are asked for.</summary>
    public virtual bool TurnsMounts => false;

    /// <summary>Puts a fitting into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="fitting">The fitting, of the kind of these equations.</param>
    public abstract void Load(int lane, IFitting fitting);

    /// <summary>The element's compression from ride height and its first derivatives.</summary>
    /// <param name="position">Where the axle stands against the body.</param>
    /// <param name="side">The side of the vehicle.</param>
    /// <param name="motion">Receives them.</param>
    public abstract void At(in RelativePosition<T> position, Side side, out ElementMotion<T> motion);

    /// <summary>The same of both sides of a vehicle whose fittings are each other's mirror image.</summary>
    /// <param name="position">Where the axle stands against the body.</param>
    /// <param name="left">Receives those of the left side.</param>
    /// <param name="right">Receives those of the right side.</param>
    public virtual void AtBoth(in RelativePosition<T> position, out ElementMotion<T> left, out ElementMotion<T> right)
    {
        At(position, Side.Left, out left);
        At(position, Side.Right, out right);
    }

    /// <summary>Whether <see cref="TakeFault"/> can give a reason at all.</summary>
    public virtual bool HasFaults => false;

    /// <summary>Takes the reason why a lane had no compression in the last evaluation; null if it had one, or the reason is not known.</summary>
    /// <param name="lane">The lane.</param>
    public virtual Exception? TakeFault(int lane) => null;
}

/// <summary>Where the axle stands against the body: relative heave <c>q</c>, m, and relative roll <c>r</c>, rad, with its sine and cosine where <see cref="FittingLaw{T}.TurnsMounts"/>.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal struct RelativePosition<T>
    where T : struct, ILanes<T>
{
    /// <summary>Relative heave, m.</summary>
    public T Heave;

    /// <summary>Relative roll, rad.</summary>
    public T Roll;

    /// <summary>Sine of the relative roll.</summary>
    public T SinRoll;

    /// <summary>Cosine of the relative roll.</summary>
    public T CosRoll;

    /// <summary>A position with sine and cosine of its roll.</summary>
    public static RelativePosition<T> Of(in T heave, in T roll)
    {
        var position = new RelativePosition<T> { Heave = heave, Roll = roll };
        LaneMath.SinCos(roll, out position.SinRoll, out position.CosRoll);
        return position;
    }
}

/// <summary>Compression of an element and its sensitivity to the vehicle's motion, as in <see cref="ElementMotion"/>.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal struct ElementMotion<T>
    where T : struct, ILanes<T>
{
    /// <summary>Compression from ride height, m.</summary>
    public T Compression;

    /// <summary><c>∂X/∂q</c>.</summary>
    public T HeaveRatio;

    /// <summary><c>∂X/∂r</c>, m/rad.</summary>
    public T RollArm;
}

/// <summary>The equations of a fitting in single numbers.</summary>
internal static class FittingLaw
{
    /// <summary>The equations of one fitting.</summary>
    public static FittingLaw<OneLane> With(IFitting fitting)
    {
        var law = FittingLaw<OneLane>.Of(fitting);
        law.Load(0, fitting);
        return law;
    }

    /// <summary>Compression and derivatives in single numbers.</summary>
    public static ElementMotion At(this FittingLaw<OneLane> law, double q, double r, Side side)
    {
        law.At(RelativePosition<OneLane>.Of(new(q), new(r)), side, out var motion);
        return new ElementMotion(motion.Compression.Value, motion.HeaveRatio.Value, motion.RollArm.Value);
    }
}
