using System.Collections.Immutable;
using RollRide.Damping;
using RollRide.Modes;

namespace RollRide.Studies;

/// <summary>The coefficients of a damper as drawn with which a target is kept in every state of load and damper.</summary>
/// <param name="Target">The target.</param>
/// <param name="Mode">The mode that it is about.</param>
/// <param name="Coefficient">The coefficient of the damper as drawn at the target's velocity, its valves alone, N·s/m.</param>
/// <param name="InStates">The window of each state, in coefficients of the damper as drawn.</param>
public sealed record TargetWindow(TuningTarget Target, ModeName Mode, double Coefficient, ImmutableArray<StateWindow> InStates)
{
    /// <summary>The state that asks for the hardest damper.</summary>
    public StateWindow Lower => InStates.MaxBy(state => state.Lowest)!;

    /// <summary>The state that allows the softest damper at most.</summary>
    public StateWindow Upper => InStates.MinBy(state => state.Highest)!;

    /// <summary>Whether some damper keeps the target in every state.</summary>
    public bool IsOpen => Lower.Lowest <= Upper.Highest;

    /// <summary>By what share of its force the damper may become softer before it leaves the window; below 0 where it is too soft already.</summary>
    public double Softer => 1 - (Lower.Lowest / Coefficient);

    /// <summary>By what share of its force the damper may become harder before it leaves the window; below 0 where it is too hard already.</summary>
    public double Harder => (Upper.Highest / Coefficient) - 1;

    /// <summary>The tolerance of the damping ratio from which on some damper keeps the target in every state: its own where one does already; null where none does up to 0.5.</summary>
    public double? OpeningTolerance { get; private init; }

    // Steps of a bisection between 0 and 0.5: the last is finer than any ratio is told.
    private const int Halvings = 12;
    private const double WidestTolerance = 0.5;

    /// <summary>The window of a damper.</summary>
    /// <param name="states">The layout in each state.</param>
    /// <param name="drawn">The damper as drawn.</param>
    /// <param name="mode">The mode.</param>
    /// <param name="target">The target.</param>
    /// <param name="includeFriction">Whether friction counts in the damping ratios.</param>
    internal static TargetWindow Of(ImmutableArray<LayoutInLoad> states, Damper drawn, ModeName mode, TuningTarget target, bool includeFriction)
    {
        var valves = drawn.Curve.EquivalentCoefficient(target.DamperVelocity);
        var friction = includeFriction ? drawn.EquivalentCoefficient(target.DamperVelocity, DampingDirection.Both, true) - valves : 0;
        double[] ratios = [.. states.Select(state => state.In(drawn).Curve.EquivalentCoefficient(target.DamperVelocity) / valves)];
        TargetWindow With(double tolerance) => new(target, mode, valves, [.. states.Select((state, i) =>
        {
            var window = StateWindow.Of(state, mode, target with { Tolerance = tolerance });
            return window with { Lowest = Math.Max(0, window.Lowest - friction) / ratios[i], Highest = Math.Max(0, window.Highest - friction) / ratios[i] };
        })]);

        var found = With(target.Tolerance);
        if (found.IsOpen)
            return found with { OpeningTolerance = target.Tolerance };
        if (target.Tolerance >= WidestTolerance || !With(WidestTolerance).IsOpen)
            return found;
        var (closed, open) = (target.Tolerance, WidestTolerance);
        for (var i = 0; i < Halvings; i++)
        {
            var middle = (closed + open) / 2;
            (closed, open) = With(middle).IsOpen ? (closed, middle) : (middle, open);
        }

        return found with { OpeningTolerance = open };
    }
}

/// <summary>The coefficients with which a target is kept in one state.</summary>
/// <param name="State">Name of the state of load and damper; null for the vehicle as written.</param>
/// <param name="Lowest">The least coefficient, N·s/m; infinite where no damper reaches the target's lower edge.</param>
/// <param name="Highest">The greatest coefficient, N·s/m; where the upper edge is never passed, that at which the damper locks the suspension.</param>
/// <param name="Locks">Whether it is that.</param>
public sealed record StateWindow(string? State, double Lowest, double Highest, bool Locks)
{
    /// <summary>The window of a layout in one state, in coefficients of the damper as it is there, friction included.</summary>
    internal static StateWindow Of(LayoutInLoad state, ModeName mode, TuningTarget target)
    {
        var highest = state.Map.Coefficient(mode, target.Ratio + target.Tolerance);
        return new(
            state.Load?.Name,
            state.Map.Coefficient(mode, target.Ratio - target.Tolerance) ?? double.PositiveInfinity,
            highest ?? state.Map.LockingCoefficient,
            highest is null);
    }
}
