using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>What is set once, at the design load: a load changes the position, never the setting.</summary>
/// <param name="SpringPreload">Force of the left spring at the design position <c>P</c>, N, and of the right one unless <see cref="RightSpringPreload"/> says otherwise.</param>
/// <param name="TyreLoad">Load of one tyre at the design position <c>F0</c>, N; greater than 0.</param>
public sealed record DesignSetting(double SpringPreload, double TyreLoad)
{
    /// <summary>Force of one spring at the design position <c>P</c>, N.</summary>
    public double SpringPreload { get; init => field = Require.Finite(value, "N", nameof(SpringPreload)); } = Require.Finite(SpringPreload, "N");

    /// <summary>Force of the right spring at the design position, N, where it is not that of the left one; null where it is.</summary>
    public double? RightSpringPreload { get; init => field = value is { } preload ? Require.Finite(preload, "N", nameof(RightSpringPreload)) : null; }

    /// <summary>Load of one tyre at the design position <c>F0</c>, N; greater than 0.</summary>
    public double TyreLoad { get; init => field = Require.Positive(value, "N", nameof(TyreLoad)); } = Require.Positive(TyreLoad, "N");

    /// <summary>The setting with which a vehicle stands at its design position under its design load.</summary>
    /// <param name="design">Vehicle and layout.</param>
    public static DesignSetting Of(AssembledHalfCar design)
    {
        ArgumentNullException.ThrowIfNull(design);
        double Set(Side side) => design.Standing.Spring(side) + design.Vehicle.On(side).Spring.PreloadChange;
        var (left, right) = (Set(Side.Left), Set(Side.Right));
        return new DesignSetting(left, design.Vehicle.StaticTyreLoad) { RightSpringPreload = left == right ? null : right };
    }

    /// <summary>
    /// The setting with other springs and tyres in the same places: a spring of the same free length compressed as far as the one before, a tyre
    /// pressed as deep. A spring table from ride height has no free length, and keeps its force.
    /// </summary>
    /// <param name="before">The vehicle that this is the setting of.</param>
    /// <param name="after">The vehicle with other springs and tyres.</param>
    public DesignSetting With(HalfCar before, HalfCar after)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        double InPlace(Side side, double preload) => after.On(side).Spring.Characteristic.ForceInPlaceOf(before.On(side).Spring.Characteristic, preload);
        var (left, right) = (InPlace(Side.Left, SpringPreload), InPlace(Side.Right, RightSpringPreload ?? SpringPreload));
        return new DesignSetting(left, TyreLoad * after.Tyre.Stiffness / before.Tyre.Stiffness) { RightSpringPreload = left == right ? null : right };
    }
}
