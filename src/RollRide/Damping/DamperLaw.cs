using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>The force of a damper over its velocity, <c>F(v) + Fc tanh(v/v0)</c>, with a damper of its own in each lane.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class DamperLaw<T>
    where T : struct, ILanes<T>
{
    private const int Friction = 0, PerFrictionVelocity = 1, LeftShare = 2, RightShare = 3;

    private readonly CurveLaw<T> _valves;
    private readonly bool _hasFriction;
    private readonly ISmoothFunction?[] _inverses = new ISmoothFunction?[T.Count];
    private readonly LaneBuffer<T> _numbers = new(4);

    /// <summary>Makes room for dampers of one form.</summary>
    /// <param name="form">The form.</param>
    public DamperLaw(DamperForm form) => (_valves, _hasFriction) = (new(form.Valves), form.HasFriction);

    /// <summary>Puts a damper into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="damper">The damper, of the form of this law.</param>
    public void Load(int lane, Damper damper)
    {
        _valves.Load(lane, damper.Curve.StraightPieces, damper.Curve);
        _inverses[lane] = damper.TopMountStiffness is null ? null : new Inverse(damper);
        _numbers[Friction, lane] = damper.Friction;
        _numbers[PerFrictionVelocity, lane] = 1 / damper.FrictionVelocity;
    }

    /// <summary>Forces of both sides at their velocities, next to each other: dampers that are the same share one law.</summary>
    /// <param name="ofLeft">The law of the left damper.</param>
    /// <param name="ofRight">The law of the right damper.</param>
    /// <param name="left">Velocity of the left damper, m/s.</param>
    /// <param name="right">Velocity of the right damper, m/s.</param>
    /// <param name="leftForce">Receives the force of the left damper, N.</param>
    /// <param name="rightForce">Receives the force of the right damper, N.</param>
    public static void Force(DamperLaw<T> ofLeft, DamperLaw<T> ofRight, in T left, in T right, out T leftForce, out T rightForce)
    {
        ofLeft._valves.At(left, out leftForce);
        ofRight._valves.At(right, out rightForce);
        if (!(ofLeft._hasFriction | ofRight._hasFriction))
            return;
        var (l, r) = (ofLeft._numbers, ofRight._numbers);
        l[LeftShare] = left * l[PerFrictionVelocity];
        r[RightShare] = right * r[PerFrictionVelocity];
        LaneMath.Tanh(l[LeftShare], out l[LeftShare]);
        LaneMath.Tanh(r[RightShare], out r[RightShare]);
        leftForce = T.Fma(l[Friction], l[LeftShare], leftForce);
        rightForce = T.Fma(r[Friction], r[RightShare], rightForce);
    }

    /// <summary>Velocity at a force: of dampers in top mounts, which have one.</summary>
    /// <param name="force">Force, N.</param>
    /// <param name="velocity">Receives the velocity, m/s.</param>
    public void VelocityAt(in T force, out T velocity) => velocity = T.Map(_inverses, force, out _);

    private sealed class Inverse(Damper damper) : ISmoothFunction
    {
        public (double Value, double First) At(double x)
        {
            var velocity = damper.VelocityAt(x);
            return (velocity, 1 / damper.Slope(velocity));
        }

        public double SecondAt(double x) => throw new NotSupportedException("Dampers in top mounts are linearised with a coefficient in place of their law.");
    }
}

/// <summary>What dampers must have in common to stand side by side.</summary>
/// <param name="Valves">The form of their curves.</param>
/// <param name="HasFriction">Whether they have friction.</param>
internal readonly record struct DamperForm(CurveForm Valves, bool HasFriction)
{
    /// <summary>The form of a damper.</summary>
    public static DamperForm Of(Damper damper) => new(CurveForm.Of(damper.Curve.StraightPieces), damper.Friction > 0);
}
