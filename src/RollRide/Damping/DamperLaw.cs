using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>The force of a damper over its velocity, <c>F(v) + Fc tanh(v/v0)</c>, with a damper of its own in each lane.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class DamperLaw<T>
    where T : struct, ILanes<T>
{
    private const int Friction = 0, PerFrictionVelocity = 1, LeftShare = 2, RightShare = 3, GasForce = 4, PerRingArea = 5;

    private readonly CurveLaw<T> _valves;
    private readonly bool _hasFriction;
    private readonly bool _hasRodChamber;
    private readonly GasLaw<T>? _gas;
    private readonly ISmoothFunction?[] _inverses = new ISmoothFunction?[T.Count];
    private readonly LaneBuffer<T> _numbers = new(6);

    /// <summary>Makes room for dampers of one form.</summary>
    /// <param name="form">The form.</param>
    public DamperLaw(DamperForm form)
    {
        (_valves, _hasFriction, _hasRodChamber) = (new(form.Valves), form.HasFriction, form.HasRodChamber);
        _gas = form.HasGasChamber ? new() : null;
    }

    /// <summary>Puts a damper into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="damper">The damper, of the form of this law.</param>
    public void Load(int lane, Damper damper)
    {
        _valves.Load(lane, damper.Curve.StraightPieces, damper.Curve);
        _inverses[lane] = damper.TopMountStiffness is null ? null : new Inverse(damper);
        _gas?.Load(lane, damper.Gas!);
        _numbers[GasForce, lane] = damper.GasForce;
        _numbers[PerRingArea, lane] = 1 / damper.Gas?.PistonRingArea ?? 0;
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

    /// <summary>Force of the gas.</summary>
    /// <param name="stroke">Stroke from ride height, m, taken between the mounts: an elastic top mount gives way by next to nothing of the gas's volume.</param>
    /// <param name="pressure">Receives the absolute pressure of the gas, Pa, where its force changes with the stroke.</param>
    /// <param name="force">Receives the force, N.</param>
    public void GasAt(in T stroke, ref T pressure, out T force)
    {
        if (_gas is null)
            force = _numbers[GasForce];
        else
            _gas.At(stroke, out pressure, out force);
    }

    /// <summary>Absolute pressure in the chamber around the rod: that of the gas less what the compression valves take, <c>p − F/Ar</c>. Of dampers whose piston is known.</summary>
    /// <param name="gas">Absolute pressure of the gas, Pa.</param>
    /// <param name="velocity">Velocity, m/s.</param>
    /// <param name="force">Force of valves and friction, N.</param>
    /// <param name="pressure">Receives the pressure, Pa: below 0 where the oil would have torn off.</param>
    public void RodChamberPressureAt(in T gas, in T velocity, in T force, ref T pressure)
    {
        if (!_hasRodChamber)
            return;
        var valves = force;
        if (_hasFriction)
        {
            LaneMath.Tanh(velocity * _numbers[PerFrictionVelocity], out var share);
            valves = T.NegatedFma(_numbers[Friction], share, force);
        }

        pressure = T.NegatedFma(valves, _numbers[PerRingArea], gas);
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
/// <param name="HasGasChamber">Whether the force of their gas changes with the stroke.</param>
/// <param name="HasRodChamber">Whether the piston is known too, and with it the pressure around the rod.</param>
internal readonly record struct DamperForm(CurveForm Valves, bool HasFriction, bool HasGasChamber, bool HasRodChamber)
{
    /// <summary>The form of a damper.</summary>
    public static DamperForm Of(Damper damper) => new(CurveForm.Of(damper.Curve.StraightPieces), damper.Friction > 0, damper.Gas is not null, damper.Gas?.PistonRingArea is not null);
}
