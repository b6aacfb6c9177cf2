using System.Runtime.CompilerServices;
using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>The force of a travel stop, <c>k δⁿ</c> over its penetration δ and 0 when it does not touch, with a stop of its own in each lane.</summary>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class StopLaw<T>
    where T : struct, ILanes<T>
{
    private const int Stiffness = 0, Clearance = 1;

    private readonly StopForm _form;
    private readonly ISmoothFunction?[] _powers = new ISmoothFunction?[T.Count];
    private readonly LaneBuffer<T> _numbers = new(2);

    /// <summary>Makes room for stops of one form.</summary>
    /// <param name="form">The form.</param>
    public StopLaw(StopForm form) => _form = form;

    /// <summary>Puts a stop into a lane.</summary>
    /// <param name="lane">The lane.</param>
    /// <param name="stop">The stop, of the form of this law.</param>
    public void Load(int lane, TravelStop stop)
    {
        _powers[lane] = new Power(stop);
        _numbers[Stiffness, lane] = stop.Stiffness;
        _numbers[Clearance, lane] = stop.Clearance;
    }

    /// <summary>Force at a travel towards the stop from ride height.</summary>
    /// <param name="travel">Travel at the stop, m.</param>
    /// <param name="force">Receives the force, N.</param>
    /// <returns>Whether a lane's stop touches.</returns>
    public bool Force(in T travel, out T force)
    {
        var penetration = travel - _numbers[Clearance];
        if (T.Greater(penetration, T.All(0)) == 0)
        {
            force = default;
            return false;
        }

        Touch(penetration, out force);
        return true;
    }

    /// <summary>A method of its own: most of the time no stop touches.</summary>
    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Touch(in T penetration, out T force)
    {
        if (_form == StopForm.OtherPower)
        {
            force = T.Map(_powers, penetration, out _);
            return;
        }

        var touching = T.WhereGreater(penetration, default, penetration, default);
        var linear = _numbers[Stiffness] * touching;
        force = _form == StopForm.Linear ? linear : linear * touching;
    }

    private sealed class Power(TravelStop stop) : ISmoothFunction
    {
        public (double Value, double First) At(double x) => (stop.Force(x), stop.Slope(x));

        public double SecondAt(double x) => x <= 0 ? 0 : stop.Stiffness * stop.Exponent * (stop.Exponent - 1) * Math.Pow(x, stop.Exponent - 2);
    }
}

/// <summary>What stops must have in common to stand side by side.</summary>
internal enum StopForm
{
    /// <summary>Force in proportion to penetration.</summary>
    Linear,

    /// <summary>Force in proportion to its square.</summary>
    Quadratic,

    /// <summary>Another power.</summary>
    OtherPower,
}
