using System.Collections.Immutable;
using RollRide.Metrics;
using RollRide.Modes;

namespace RollRide.Studies;

/// <summary>What becomes of one target with a layout in one load state.</summary>
/// <param name="Target">The target.</param>
/// <param name="Load">Name of the load state; null for the vehicle as written.</param>
/// <param name="Limit">The damping ratio that it asks for.</param>
/// <param name="Ratio">The damping ratio that there is.</param>
/// <param name="Margin">By how much it is met, as a damping ratio; below 0 where it is missed.</param>
public sealed record TargetMargin(DampingTarget Target, string? Load, double Limit, double Ratio, double Margin)
{
    /// <summary>Whether it is judged on the whole vehicle, or else on the axle alone.</summary>
    public bool IsOnVehicle { get; init; }

    /// <summary>Whether it is met.</summary>
    public bool IsMet => Margin >= 0;

    /// <summary>The margin as a share of what is asked for.</summary>
    public double Share => Margin / Limit;
}

/// <summary>Why a layout cannot be used.</summary>
public enum ObstacleKind
{
    /// <summary>It does not fit its place.</summary>
    InTheWay,

    /// <summary>Its damper runs out of stroke in the run.</summary>
    OutOfStroke,

    /// <summary>A wheel lifts in the corner.</summary>
    WheelLift,

    /// <summary>The corner leaves no stable position.</summary>
    NoStablePosition,

    /// <summary>It meets the targets only past a gap of its setting window, on a narrow balance of modes.</summary>
    PastGap,

    /// <summary>A change makes the run leave the travel that the vehicle gives, farther than without it.</summary>
    BeyondTravel,

    /// <summary>With a change the manoeuvre cannot be driven.</summary>
    NotDriven,
}

/// <summary>A reason why a layout cannot be used, in one load state.</summary>
/// <param name="Kind">The reason.</param>
/// <param name="Load">Name of the load state; null for the vehicle as written.</param>
/// <param name="Place">What is in its way; null unless it does not fit.</param>
public sealed record Obstacle(ObstacleKind Kind, string? Load, DrawnPlace? Place = null);

/// <summary>A target that is met, and missed by dampers within their tolerance.</summary>
/// <param name="Target">The target with the damper that misses it most.</param>
/// <param name="Tolerance">The tolerance.</param>
/// <param name="IsHarder">Whether the harder damper misses it, or else the softer one.</param>
public sealed record ScatterMiss(TargetMargin Target, DamperTolerance Tolerance, bool IsHarder);

/// <summary>What is held for and against one layout.</summary>
public sealed record LayoutVerdict
{
    /// <summary>Its place among the layouts.</summary>
    public required int Index { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Whether it can be built; otherwise it is shown for comparison only.</summary>
    public required bool IsCandidate { get; init; }

    /// <summary>Every target in every load state, those judged on the whole vehicle after those of the axle; empty where the case asks for none.</summary>
    public required ImmutableArray<TargetMargin> Targets { get; init; }

    /// <summary>Why it cannot be used; empty where nothing is against it.</summary>
    public required ImmutableArray<Obstacle> Obstacles { get; init; }

    /// <summary>Whether its place was checked: there is packaging, and the layout has mounts.</summary>
    public required bool IsPlaceChecked { get; init; }

    /// <summary>Whether the roll target is judged on the whole vehicle too: not where the axle is computed alone, or the body's ends roll nearly by themselves.</summary>
    public bool IsJudgedOnVehicle => Targets.Any(target => target.IsOnVehicle);

    /// <summary>The target that the tolerance of the dampers can lose; null where every target holds throughout it, or one is missed already.</summary>
    public ScatterMiss? LostByScatter { get; init; }

    /// <summary>Whether it can be built and nothing is against it.</summary>
    public bool CanBeUsed => IsCandidate && Obstacles.IsEmpty;

    /// <summary>Whether it meets every target in every load state.</summary>
    public bool MeetsTargets => Targets.All(target => target.IsMet);

    /// <summary>The target nearest to being missed, or missed most; null where there are none.</summary>
    public TargetMargin? Closest => Targets.MinBy(target => target.Share);

    /// <summary>Each target that is missed, in the load state in which it is missed most.</summary>
    public IEnumerable<TargetMargin> Missed =>
        Targets.Where(target => !target.IsMet).GroupBy(target => (target.Target, target.IsOnVehicle)).Select(target => target.MinBy(margin => margin.Share)!);

    /// <summary>Judges a layout.</summary>
    /// <param name="states">What was found in each load state.</param>
    /// <param name="index">The layout's place.</param>
    /// <param name="cancellation">Stops the check of its place.</param>
    internal static LayoutVerdict Of(IReadOnlyList<ComparisonFindings> states, int index, CancellationToken cancellation)
    {
        var written = states[0].Study.Layouts[index];
        DrawnPlace?[] places = [.. states.Select(state => PlaceCheck.Of(state.Study, written, cancellation))];
        var layouts = states.Select(state => (Load: state.Study.Load?.Name, Result: state.Result.Layouts[index])).ToArray();
        JudgedWindow[] windows =
        [
            .. from state in layouts where state.Result.Window is not null select new JudgedWindow(state.Load, state.Result.Window!, IsOnVehicle: false),
            .. layouts.All(state => state.Result.OnVehicle is { Window: not null, Modes.RollsInParts: false })
                ? layouts.Select(state => new JudgedWindow(state.Load, state.Result.OnVehicle!.Window!, IsOnVehicle: true)) : [],
        ];
        var tolerance = states[0].Study.Targets is { } asked ? DamperTolerance.Of(states[0].Study, written, asked.Velocity) : default;
        return new LayoutVerdict
        {
            Index = index,
            Name = written.Name,
            IsCandidate = written.IsCandidate,
            Targets = [.. windows.SelectMany(window => window.Margins())],
            LostByScatter = LostBy(tolerance, windows),
            Obstacles = [.. states.SelectMany((state, i) => ObstaclesOf(state, index, places[i]))],
            IsPlaceChecked = places.Any(place => place is not null),
        };
    }

    /// <summary>The target that dampers at either end of their tolerance miss most; null where they miss none, or the damper as drawn does already.</summary>
    private static ScatterMiss? LostBy(DamperTolerance tolerance, JudgedWindow[] windows)
    {
        if (windows.Length == 0 || !windows.All(window => window.Margins().All(target => target.IsMet)))
            return null;
        IEnumerable<ScatterMiss> At(bool isHarder) => windows.SelectMany(window =>
            window.MarginsAt(isHarder ? 1 + tolerance.Share : Math.Max(0, 1 - tolerance.Share)).Select(target => new ScatterMiss(target, tolerance, isHarder)));
        var worst = At(isHarder: false).Concat(At(isHarder: true)).MinBy(miss => miss.Target.Share)!;
        return worst.Target.IsMet ? null : worst;
    }

    /// <summary>What the run of a layout holds against it.</summary>
    /// <param name="state">What was found in a load state.</param>
    /// <param name="index">The layout's place.</param>
    /// <param name="place">Its place; null where it was not checked.</param>
    internal static IEnumerable<Obstacle> ObstaclesOf(ComparisonFindings state, int index, DrawnPlace? place)
    {
        var (layout, load) = (state.Result.Layouts[index], state.Study.Load?.Name);
        RunMetrics[] runs = [.. state.Runs(index)];
        if (place is { Fits: false })
            yield return new Obstacle(ObstacleKind.InTheWay, load, place);
        if (RunsOutOfStroke(layout.Metrics, layout.Mirrored) || (state.Seeds.Count > 0 && state.Seeds[index].Runs.Any(run => RunsOutOfStroke(run.Metrics, run.Mirrored?.Metrics))))
            yield return new Obstacle(ObstacleKind.OutOfStroke, load);
        if (runs.Any(run => run.LiftsWhileCornering || run.RollResponse is { LiftsWheel: true }))
            yield return new Obstacle(ObstacleKind.WheelLift, load);
        if (layout.Metrics.RollResponse is { SteadyAngle: null })
            yield return new Obstacle(ObstacleKind.NoStablePosition, load);
        if (layout.Window is { Standing: WindowStanding.TooHard, Window.HasLaterInterval: true } window && new JudgedWindow(load, window, IsOnVehicle: false).Margins().All(target => target.IsMet))
            yield return new Obstacle(ObstacleKind.PastGap, load);

        bool RunsOutOfStroke(RunMetrics driven, RunMetrics? mirrored) => StrokeOverrun.Of(layout.Car.Layout, driven.Whole).Any()
            || (mirrored is not null && StrokeOverrun.Of(layout.Car.Layout.Mirrored(), mirrored.Whole).Any());
    }

    /// <summary>A window in one load state, and which targets are judged by its modes: on the axle alone all of them, on the whole vehicle that of roll.</summary>
    private sealed record JudgedWindow(string? Load, WindowVerdict Window, bool IsOnVehicle)
    {
        public IEnumerable<TargetMargin> Margins() => Of(Window.Modes);

        public IEnumerable<TargetMargin> MarginsAt(double scale) => Of(Window.ModesAt(scale));

        private IEnumerable<TargetMargin> Of(ModeSet modes)
        {
            var (targets, load, isOnVehicle) = (Window.Targets, Load, IsOnVehicle);
            return (isOnVehicle ? [DampingTarget.RollMinimum] : targets.All).Select(target =>
                new TargetMargin(target, load, targets.Limit(target)!.Value, modes[DampingTargets.ModeOf(target)].DampingRatio, targets.Margin(target, modes)) { IsOnVehicle = isOnVehicle });
        }
    }
}
