using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>A layout as it stands in one load state, with all that a search for its damper needs and that no damper changes.</summary>
internal sealed class LayoutInLoad
{
    private readonly DamperLayout _layout;
    private readonly (double Left, double Right) _shares;

    private LayoutInLoad(LoadState? load, AssembledHalfCar car, DamperLayout layout, (double Left, double Right) shares)
    {
        (Load, Car, _layout, _shares, DamperStates) = (load, car, layout, shares, layout.Damper.AsWritten.States);
        Linear = LinearHalfCar.AtRest(car);
        Map = new DampingRatioMap(Linear.WithShares(shares));
    }

    private LayoutInLoad(LayoutInLoad other) =>
        (Load, Car, _layout, _shares, Linear, Map, DamperStates, ForceScale) = (other.Load, other.Car, other._layout, other._shares, other.Linear, other.Map, other.DamperStates, other.ForceScale);

    /// <summary>The load state; null for the vehicle as written.</summary>
    public LoadState? Load { get; private init; }

    /// <summary>In which state the dampers are here: each side in that which the layout keeps it in, or else in that of the load; null for as written.</summary>
    public (DamperState? Left, DamperState? Right) StateOfSides => (StateOn(Side.Left), StateOn(Side.Right));

    private ImmutableArray<DamperState> DamperStates { get; init; }

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
            var shares = Shares(layout, study.Load, study.Analysis.ReferenceVelocity);
            var same = Enumerable.Range(0, found.Count).FirstOrDefault(i => states[i].Study.Load?.Weights == study.Load?.Weights && found[i]._shares == shares, -1);
            found.Add(same < 0 ? Of(study, layout, shares) : new LayoutInLoad(found[same]) { Load = study.Load });
        }

        return [.. found];
    }

    /// <summary>What either side has of the mean coefficient with one damper on both, each side in its state.</summary>
    private static (double Left, double Right) Shares(DamperLayout layout, LoadState? load, double velocity) =>
        layout.Fitted(layout.Damper.AsWritten).InDamperState(load?.DamperState).SideShares(velocity);

    private static LayoutInLoad Of(StudyCase state, DamperLayout layout, (double Left, double Right) shares)
    {
        try
        {
            return new LayoutInLoad(state.Load, state.Assemble(layout), layout, shares);
        }
        catch (Exception e) when (e is UnstableBodyException or UnnamedModesException or NoRestPositionException)
        {
            throw new StudyException(layout.Name, e, state.Load?.Name);
        }
    }

    /// <summary>The same with dampers that were made as those of this layout, and are to be of another drawing.</summary>
    /// <param name="drawn">The damper as it was drawn when this one was made.</param>
    /// <param name="made">The damper as it was made.</param>
    /// <param name="velocity">Velocity amplitude at which the forces of both are compared, m/s.</param>
    public LayoutInLoad MadeFrom(Damper drawn, Damper made, double velocity) => new(this)
    {
        ForceScale = made.Curve.EquivalentCoefficient(velocity) / drawn.Curve.EquivalentCoefficient(velocity),
        DamperStates = made.States.Length == drawn.States.Length && made.States.Zip(drawn.States).All(pair => pair.First.IsSameAs(pair.Second)) ? drawn.States : made.States,
    };

    /// <summary>A vehicle with a layout as it is.</summary>
    /// <param name="vehicle">The vehicle.</param>
    /// <param name="layout">The layout.</param>
    /// <param name="velocity">Velocity amplitude at which unlike sides share the coefficient, m/s.</param>
    /// <exception cref="StudyException">The body does not swing about rest.</exception>
    public static LayoutInLoad Of(HalfCar vehicle, DamperLayout layout, double velocity)
    {
        try
        {
            return new LayoutInLoad(null, new AssembledHalfCar(vehicle, layout), layout, Shares(layout, null, velocity));
        }
        catch (Exception e) when (e is UnstableBodyException or UnnamedModesException)
        {
            throw new StudyException(layout.Name, e);
        }
    }

    /// <summary>The vehicle with other dampers of the same gas force in the same places.</summary>
    /// <param name="layout">The layout with these dampers, as written.</param>
    public AssembledHalfCar With(DamperLayout layout)
    {
        var fitted = layout.InDamperState(Load?.DamperState);
        DamperSide On(Side side) => Car.Layout.On(side) with { Damper = fitted.On(side).Damper };
        return new(Car.Vehicle, Car.Layout.With(On(Side.Left), Car.Layout.RightSide is null ? null : On(Side.Right)), Car.Standing);
    }

    /// <summary>
    /// What a damper is here, the mean of both sides where these are in unlike states: in the state in which dampers are under this load, and as far from its
    /// drawing as this one was made.
    /// </summary>
    /// <param name="drawn">The damper as drawn.</param>
    public Damper In(Damper drawn)
    {
        var state = DamperState.Mean(StateOn(Side.Left), StateOn(Side.Right));
        var there = state is null ? drawn.Curve : state.Of(drawn.Curve);
        return drawn with { Curve = ForceScale == 1 ? there : there.Scaled(ForceScale), States = [] };
    }

    private DamperState? StateOn(Side side) =>
        (_layout.On(side).Damper.State ?? Load?.DamperState) is { } name ? DamperStates.FirstOrDefault(state => state.Name == name) : null;
}
