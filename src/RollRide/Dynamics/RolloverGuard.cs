using RollRide.Numerics;

namespace RollRide.Dynamics;

/// <summary>Ends runs in which the vehicle rolls over: past a quarter turn the vehicle lies on its side and the roll-plane model no longer holds.</summary>
/// <param name="equations">The equations being integrated.</param>
/// <param name="onward">A further observer of the steps; null for none.</param>
/// <typeparam name="T">The lanes.</typeparam>
internal sealed class RolloverGuard<T>(HalfCarEquations<T> equations, ILaneObserver<T>? onward) : ILaneObserver<T>
    where T : struct, ILanes<T>
{
    private readonly IntegrationException?[] _failures = new IntegrationException?[T.Count];

    /// <inheritdoc/>
    public void AtSegmentStart(int lanes) => onward?.AtSegmentStart(lanes);

    /// <inheritdoc/>
    public void AtTrialEnd() => onward?.AtTrialEnd();

    /// <inheritdoc/>
    public int Observe(DormandPrince54<T> steps, int accepted)
    {
        var over = Over(steps, HalfCarState.BodyRoll, "body", accepted);
        over |= Over(steps, HalfCarState.UnsprungRoll, "axle", accepted & ~over);
        if (equations.StartOfSecond is { } second)
        {
            over |= Over(steps, second + HalfCarState.BodyRoll, "body at the other axle", accepted & ~over);
            over |= Over(steps, second + HalfCarState.UnsprungRoll, "other axle", accepted & ~over);
        }

        return over | (onward?.Observe(steps, accepted & ~over) ?? 0);
    }

    /// <inheritdoc/>
    public Exception? TakeFailure(int lane)
    {
        Exception? failure = _failures[lane] ?? onward!.TakeFailure(lane);
        _failures[lane] = null;
        return failure;
    }

    private int Over(DormandPrince54<T> steps, int roll, string what, int accepted)
    {
        var over = T.Greater(T.Abs(steps.State[roll]), T.All(Math.PI / 2)) & accepted;
        foreach (var lane in new LaneSet(over))
        {
            var (start, end) = (LaneMath.Get(steps.StepStart, lane), LaneMath.Get(steps.Time, lane));
            _failures[lane] = new IntegrationException(
                FormattableString.Invariant($"At {end:F3} s the {what} leans by more than 90 deg: the vehicle has rolled over, and the run ends there. Less lateral acceleration or a smoother road, a lower centre of gravity or more roll stiffness keeps it on its wheels."),
                end,
                equations.StateName(roll),
                end - start);
        }

        return over;
    }
}
