using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>A layout as it stands in one load state, with all that a search for its damper needs and that no damper changes.</summary>
internal sealed class LayoutInLoad
{
    private LayoutInLoad(LoadState? load, AssembledHalfCar car)
    {
        (Load, Car) = (load, car);
        Linear = LinearHalfCar.AtRest(car);
        Map = new DampingRatioMap(Linear);
    }

    /// <summary>The load state; null for the vehicle as written.</summary>
    public LoadState? Load { get; }

    /// <summary>Force of the dampers as made over that of the drawing.</summary>
    public double ForceScale { get; private init; } = 1;

    /// <summary>The vehicle with the layout at rest, with its present damper.</summary>
    public AssembledHalfCar Car { get; }

    /// <summary>The vehicle linearised there.</summary>
    public LinearHalfCar Linear { get; }

    /// <summary>Its damping ratios over the damper coefficient.</summary>
    public DampingRatioMap Map { get; }

    /// <summary>A layout in each load state of a case.</summary>
    /// <param name="study">The case.</param>
    /// <param name="layout">The layout as written.</param>
    /// <exception cref="StudyException">The body does not swing about rest, or the vehicle cannot stand.</exception>
    public static ImmutableArray<LayoutInLoad> AllOf(StudyCase study, DamperLayout layout)
    {
        return [.. study.InEachLoad.Select(Of)];

        LayoutInLoad Of(StudyCase state)
        {
            try
            {
                return new LayoutInLoad(state.Load, state.Assemble(layout));
            }
            catch (Exception e) when (e is UnstableBodyException or UnnamedModesException or NoRestPositionException)
            {
                throw new StudyException(layout.Name, e, state.Load?.Name);
            }
        }
    }

    /// <summary>A vehicle with a layout as it is.</summary>
    /// <exception cref="StudyException">The body does not swing about rest.</exception>
    public static LayoutInLoad Of(HalfCar vehicle, DamperLayout layout)
    {
        try
        {
            return new LayoutInLoad(null, new AssembledHalfCar(vehicle, layout));
        }
        catch (Exception e) when (e is UnstableBodyException or UnnamedModesException)
        {
            throw new StudyException(layout.Name, e);
        }
    }

    /// <summary>The same with another damper of the same gas force on both sides.</summary>
    public AssembledHalfCar With(Damper damper) => new(Car.Vehicle, Car.Layout.With(side => side with { Damper = In(damper) }), Car.Standing);

    /// <summary>A damper as it is here: in the state that dampers are in under this load, and as far from its drawing as this one was made.</summary>
    public Damper In(Damper damper)
    {
        var there = damper.In(Load?.DamperState);
        return ForceScale == 1 ? there : there with { Curve = there.Curve.Scaled(ForceScale) };
    }
}
