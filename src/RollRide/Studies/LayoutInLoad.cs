using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>A layout as it stands in one load state, with all that a search for its damper needs and that no damper changes.</summary>
internal sealed class LayoutInLoad
{
    private LayoutInLoad(LoadState? load, AssembledHalfCar car, ImmutableArray<DamperState> damperStates)
    {
        (Load, Car, DamperStates) = (load, car, damperStates);
        Linear = LinearHalfCar.AtRest(car);
        Map = new DampingRatioMap(Linear);
    }

    private LayoutInLoad(LayoutInLoad other) =>
        (Load, Car, Linear, Map, DamperStates, ForceScale) = (other.Load, other.Car, other.Linear, other.Map, other.DamperStates, other.ForceScale);

    /// <summary>The load state; null for the vehicle as written.</summary>
    public LoadState? Load { get; private init; }

    /// <summary>The states of its dampers.</summary>
    public ImmutableArray<DamperState> DamperStates { get; private init; }

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
    public static ImmutableArray<LayoutInLoad> AllOf(StudyCase study, DamperLayout layout) => AllOf([.. study.InEachLoad.Select(state => (state, layout))]);

    /// <summary>A layout of one vehicle in each of its states.</summary>
    /// <param name="states">The case in each state, with the layout as written there.</param>
    /// <exception cref="StudyException">The body does not swing about rest, or the vehicle cannot stand.</exception>
    public static ImmutableArray<LayoutInLoad> AllOf(IReadOnlyList<(StudyCase Study, DamperLayout Layout)> states)
    {
        // Dampers in another state stand where the others do: only their forces differ.
        var found = new List<LayoutInLoad>();
        foreach (var (study, layout) in states)
        {
            var same = Enumerable.Range(0, found.Count).FirstOrDefault(i => states[i].Study.Load?.Weights == study.Load?.Weights, -1);
            found.Add(same < 0 ? Of(study, layout) : new LayoutInLoad(found[same]) { Load = study.Load });
        }

        return [.. found];
    }

    private static LayoutInLoad Of(StudyCase state, DamperLayout layout)
    {
        try
        {
            return new LayoutInLoad(state.Load, state.Assemble(layout), layout.Damper.States);
        }
        catch (Exception e) when (e is UnstableBodyException or UnnamedModesException or NoRestPositionException)
        {
            throw new StudyException(layout.Name, e, state.Load?.Name);
        }
    }

    /// <summary>The same with dampers that were made as those of this layout, and are to be of another drawing.</summary>
    /// <param name="drawn">The damper as it was drawn when this one was made.</param>
    /// <param name="made">The layout with the damper as it was made.</param>
    /// <param name="velocity">Velocity amplitude at which the forces of both are compared, m/s.</param>
    public LayoutInLoad MadeFrom(Damper drawn, DamperLayout made, double velocity) => new(this)
    {
        ForceScale = made.Damper.Curve.EquivalentCoefficient(velocity) / drawn.Curve.EquivalentCoefficient(velocity),
        DamperStates = made.Damper.States.Length == drawn.States.Length && made.Damper.States.Zip(drawn.States).All(pair => pair.First.IsSameAs(pair.Second)) ? drawn.States : made.Damper.States,
    };

    /// <summary>A vehicle with a layout as it is.</summary>
    /// <exception cref="StudyException">The body does not swing about rest.</exception>
    public static LayoutInLoad Of(HalfCar vehicle, DamperLayout layout)
    {
        try
        {
            return new LayoutInLoad(null, new AssembledHalfCar(vehicle, layout), layout.Damper.States);
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
        var there = (damper with { States = DamperStates }).In(Load?.DamperState);
        return ForceScale == 1 ? there : there with { Curve = there.Curve.Scaled(ForceScale) };
    }
}
