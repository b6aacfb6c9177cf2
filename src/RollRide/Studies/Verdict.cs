using System.Collections.Immutable;
using RollRide.Metrics;
using RollRide.Modes;

namespace RollRide.Studies;

/// <summary>What a comparison decides: which layout to choose, why, what it costs, and where that holds.</summary>
public sealed record Verdict
{
    /// <summary>What it is drawn from: each load state, or the only one.</summary>
    public required IReadOnlyList<ComparisonFindings> States { get; init; }

    /// <summary>What is held for and against each layout, in the order of the case.</summary>
    public required ImmutableArray<LayoutVerdict> Layouts { get; init; }

    /// <summary>The quantities that decide beside the targets.</summary>
    public required ImmutableArray<DecidingQuantity> Quantities { get; init; }

    /// <summary>What else is compared: a price where it is noticeably worse, a ground for nothing.</summary>
    public ImmutableArray<DecidingQuantity> PricedOnly { get; init; } = [];

    /// <summary>The layout to choose: it can be used and meets every target in every load state. Null where none does, or nothing tells them apart.</summary>
    public LayoutVerdict? Choice { get; init; }

    /// <summary>By what it is better than another layout that would do as well; null where it is alone, or only <see cref="LayoutVerdict.Closest"/> decided.</summary>
    public Advantage? Ground { get; init; }

    /// <summary>In what else it is better than every other layout that can be used, in every load state.</summary>
    public ImmutableArray<DecidingQuantity> Gains { get; init; } = [];

    /// <summary>What would be taken by the same rules if the choice, or else the nearest, were not there; null where it is the only one that can be used.</summary>
    public LayoutVerdict? NextBest { get; init; }

    /// <summary>What the choice, or else the nearest, costs: of all quantities compared those in which <see cref="NextBest"/> is better, each in the load state in which most is lost.</summary>
    public ImmutableArray<Price> Prices { get; init; } = [];

    /// <summary>Where nothing decides, what differs all the same; empty otherwise.</summary>
    public ImmutableArray<Difference> Differences { get; init; } = [];

    /// <summary>Every quantity that the decision rests on or names with its number, in the order in which it does.</summary>
    public IEnumerable<DecidingQuantity> Told => Quantities
        .Concat(Prices.Select(price => price.Quantity)).Concat(Differences.Select(told => told.Quantity)).Concat((Remedy?.Prices ?? []).Select(price => price.Quantity))
        .DistinctBy(quantity => quantity.Name);

    /// <summary>Where no layout meets all targets, the one that can be used and comes nearest; null where none can be used.</summary>
    public LayoutVerdict? Nearest { get; init; }

    /// <summary>The single changes to <see cref="Nearest"/> that were tried, up to the first that works with room for the dampers' whole tolerance; empty where there is no such layout.</summary>
    public ImmutableArray<TriedChange> Changes { get; init; } = [];

    /// <summary>The single change that lets <see cref="Nearest"/> meet all targets, rather with room for the whole tolerance of the dampers than for half of it; null where none does.</summary>
    public TargetRemedy? Remedy => (Changes.FirstOrDefault(change => change.WorksWithRoom) ?? Changes.FirstOrDefault(change => change.Works))?.Found;

    /// <summary>Another setting of the damper that alone lets <see cref="Nearest"/> meet all targets, but leaves its tolerance less room than <see cref="Remedy"/>; null where there is none.</summary>
    public TargetRemedy? SettingWithoutRoom => Changes.FirstOrDefault(change => change is { Kind: null, MeetsTargets: true })?.Found is { } setting && setting != Remedy ? setting : null;

    /// <summary>The layout that the decision is about: the choice, or else the nearest; null where neither is named.</summary>
    public LayoutVerdict? Named => Choice ?? Nearest;

    /// <summary>Where a side comes closest to leaving the road with the choice, or else the nearest; null where every side keeps enough of its load, or lifts.</summary>
    public LightestSide? Lightest { get; init; }

    /// <summary>What else may go wrong with the choice, or else the nearest, that the runs do not show.</summary>
    public ImmutableArray<PlaceRisk> PlaceRisks { get; init; } = [];

    /// <summary>What is asked for; null if the case asks for nothing.</summary>
    public DampingTargets? Targets => States[0].Study.Targets;

    /// <summary>The layouts that can be used.</summary>
    public IEnumerable<LayoutVerdict> Usable => Layouts.Where(layout => layout.CanBeUsed);

    /// <summary>Draws the verdict.</summary>
    /// <param name="states">What was found in each load state, or in the only one; at least one, all of the same layouts.</param>
    /// <param name="cancellation">Stops the search.</param>
    public static Verdict Of(IReadOnlyList<ComparisonFindings> states, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(states);
        var study = states[0].Study;
        var verdict = new Verdict
        {
            States = states,
            Layouts = [.. study.Layouts.Select((_, i) => LayoutVerdict.Of(states, i, cancellation))],
            Quantities = DecidingQuantity.Of(study),
            PricedOnly = DecidingQuantity.PricedOnly(study),
        };
        LayoutVerdict[] usable = [.. verdict.Usable], passing = [.. usable.Where(layout => layout.MeetsTargets)];
        verdict = verdict with { Quantities = [.. verdict.Quantities.Where((quantity, i) => !quantity.IsDetail || verdict.Tells(quantity, verdict.Quantities.Take(i)))] };
        if (passing.Length > 0)
            return verdict.Choosing(passing, usable, cancellation);
        if (usable.Length == 0)
            return verdict;

        var nearest = verdict.Best(usable);
        return verdict.Against(nearest, cancellation) with { Nearest = nearest, Changes = verdict.Remedies(nearest, cancellation).Try(goesOn: false) };
    }

    /// <summary>
    /// What comes of the single changes to each layout, in the order of the case: the same as <see cref="Changes"/>, those after the first that works too. None for a
    /// layout that meets the targets or cannot be built anyway.
    /// </summary>
    /// <param name="cancellation">Stops the search.</param>
    public ImmutableArray<ImmutableArray<TriedChange>> AllChanges(CancellationToken cancellation = default) =>
        [.. Layouts.Select(layout => layout.MeetsTargets || !layout.IsCandidate ? [] : Remedies(layout, cancellation).Try(goesOn: true))];

    private TargetRemedies Remedies(LayoutVerdict layout, CancellationToken cancellation) => new(States, layout, Quantities.Concat(PricedOnly), cancellation);

    /// <summary>Of layouts that can be used, the one to take: of those that meet all targets the one that the quantities decide for, else the nearest.</summary>
    private LayoutVerdict Best(LayoutVerdict[] usable)
    {
        LayoutVerdict[] passing = [.. usable.Where(layout => layout.MeetsTargets)];

        // A layout that another setting of its damper would serve is nearer than one that must be built otherwise.
        return passing.Length > 0
            ? Sift(passing).Left.MaxBy(layout => layout.Closest?.Share)!
            : usable.OrderByDescending(layout => CommonWindow(layout).IsOpen).ThenByDescending(layout => layout.Closest!.Share).First();
    }

    /// <summary>The risk of a layout, and its price against the one that would be taken in its place.</summary>
    private Verdict Against(LayoutVerdict layout, CancellationToken cancellation)
    {
        var judged = this with { Lightest = LightestSide.Of(States, layout.Index, Usable), PlaceRisks = [.. PlaceRisk.Of(States, layout, cancellation)] };
        LayoutVerdict[] others = [.. Usable.Where(other => other != layout)];
        if (others.Length == 0)
            return judged;
        var next = Best(others);
        return judged with
        {
            NextBest = next,
            Prices =
            [
                .. (from quantity in Quantities.Concat(PricedOnly)
                    let loss = WorstLoss(quantity, layout, next)
                    where loss.Share > 0
                    select new Price(quantity, loss.State, next))
                .DistinctBy(price => (price.Quantity.Unit, price.Quantity.In(price.State, layout.Index), price.Quantity.In(price.State, next.Index))), // one that says the same as one before it is left out
            ],
        };
    }

    /// <summary>The settings of a layout's damper that meet all targets in every load state, in coefficients of its first state.</summary>
    private SettingWindow CommonWindow(LayoutVerdict layout)
    {
        WindowVerdict Judged(LayoutResult result) => layout.IsJudgedOnVehicle ? result.Window!.And(result.OnVehicle!.Window!) : result.Window!;
        return SettingWindow.Common([.. States.Select(state => Judged(state.Result.Layouts[layout.Index]).WindowIn(States[0].Result.Layouts[layout.Index].Window!))]);
    }

    private Verdict Choosing(LayoutVerdict[] passing, LayoutVerdict[] usable, CancellationToken cancellation)
    {
        var (left, ground) = Sift(passing);
        if (Targets is null && left.Length > 1)
        {
            return this with
            {
                Differences =
                [
                    .. Quantities.Where(quantity => quantity.IsToldOnly).Concat(PricedOnly).Select(quantity => DifferenceIn(quantity, usable)).OfType<Difference>()
                        .DistinctBy(told => (told.Quantity.Unit, told.Quantity.In(told.State, told.Better.Index), told.Quantity.In(told.State, told.Worse.Index))),
                ],
            };
        }

        var choice = Best(passing);
        LayoutVerdict[] others = [.. usable.Where(layout => layout != choice)];
        return Against(choice, cancellation) with
        {
            Choice = choice,
            Ground = ground,
            Gains = others.Length == 0 ? [] : [.. Quantities.Where(quantity => quantity != ground?.Quantity && Array.TrueForAll(others, other => States.All(state => quantity.Loss(state, other.Index, choice.Index) > 0)))],
        };
    }

    /// <summary>Of layouts that all would do, those that lose nothing to the best one, quantity by quantity, and by what the first of the others fell out.</summary>
    private (LayoutVerdict[] Left, Advantage? Ground) Sift(LayoutVerdict[] passing)
    {
        Advantage? ground = null;
        var left = passing;
        foreach (var quantity in Quantities.Where(quantity => !quantity.IsToldOnly))
        {
            var best = left.MinBy(layout => WorstValue(quantity, layout))!;
            var kept = left.Where(layout => WorstLoss(quantity, layout, best).Share == 0).ToArray();
            if (ground is null && left.Except(kept).FirstOrDefault() is { } beaten)
                ground = new Advantage(quantity, WorstLoss(quantity, beaten, best).State, beaten);
            left = kept;
        }

        return (left, ground);
    }

    /// <summary>The two layouts that a quantity tells apart most, in the load state in which it does; null where it tells none apart.</summary>
    private Difference? DifferenceIn(DecidingQuantity quantity, LayoutVerdict[] usable) =>
        (from worse in usable
         from better in usable
         let loss = WorstLoss(quantity, worse, better)
         where loss.Share > 0
         orderby loss.Share descending
         select new Difference(quantity, loss.State, better, worse)).FirstOrDefault();

    /// <summary>Whether a quantity tells layouts apart that can be used, and otherwise than one before it.</summary>
    private bool Tells(DecidingQuantity quantity, IEnumerable<DecidingQuantity> before) =>
        (from one in Usable from other in Usable from state in States select quantity.Loss(state, one.Index, other.Index)).Any(share => share > 0)
        && !before.Any(known => known.Unit == quantity.Unit && States.All(state => Layouts.All(layout => known.In(state, layout.Index) == quantity.In(state, layout.Index))));

    /// <summary>What a layout gives in the load state in which it is worst, less being better; infinite where that is not defined.</summary>
    private double WorstValue(DecidingQuantity quantity, LayoutVerdict layout) =>
        States.Max(state => (quantity.Better == Better.More ? -quantity.In(state, layout.Index) : quantity.In(state, layout.Index)) ?? double.PositiveInfinity);

    /// <summary>How much a layout loses to another in the load state in which it loses most.</summary>
    private (double Share, ComparisonFindings State, LayoutVerdict Other) WorstLoss(DecidingQuantity quantity, LayoutVerdict layout, LayoutVerdict other) =>
        States.Select(state => (Share: quantity.Loss(state, layout.Index, other.Index), state, other)).MaxBy(loss => loss.Share);
}

/// <summary>By what the chosen layout is better.</summary>
/// <param name="Quantity">The quantity.</param>
/// <param name="State">The load state in which the difference is largest.</param>
/// <param name="Than">The layout that is worse.</param>
public sealed record Advantage(DecidingQuantity Quantity, ComparisonFindings State, LayoutVerdict Than);

/// <summary>A difference that decides nothing.</summary>
/// <param name="Quantity">The quantity.</param>
/// <param name="State">The load state in which the difference is largest.</param>
/// <param name="Better">The layout that is better.</param>
/// <param name="Worse">The layout that is worse.</param>
public sealed record Difference(DecidingQuantity Quantity, ComparisonFindings State, LayoutVerdict Better, LayoutVerdict Worse);

/// <summary>In what the chosen layout is worse.</summary>
/// <param name="Quantity">The quantity.</param>
/// <param name="State">The load state in which most is lost.</param>
/// <param name="Than">The layout that is better in it.</param>
public sealed record Price(DecidingQuantity Quantity, ComparisonFindings State, LayoutVerdict Than);
