using RollRide.Dynamics;
using RollRide.Packaging;

namespace RollRide.Studies;

/// <summary>What may go wrong with where a layout's dampers and body stand.</summary>
public enum PlaceRiskKind
{
    /// <summary>The dampers fit, but hardly any farther out or in.</summary>
    EndOfRoom,

    /// <summary>A bump stop carries the body at rest.</summary>
    OnBumpStop,

    /// <summary>A rebound stop is compressed at rest.</summary>
    OnReboundStop,

    /// <summary>The damper closes metal to metal within the travel that the vehicle gives.</summary>
    TooLong,

    /// <summary>The damper is pulled to its end within the travel that the vehicle gives.</summary>
    TooShort,

    /// <summary>The damper closes metal to metal beyond that travel, before the stops end it.</summary>
    ClosesBeforeStops,

    /// <summary>The damper is pulled to its end beyond that travel, before the stops end it.</summary>
    PulledBeforeStops,
}

/// <summary>A risk of a layout that its runs do not show.</summary>
/// <param name="Kind">The risk.</param>
/// <param name="Load">Name of the load state; null for the vehicle as written.</param>
/// <param name="Value">Of a place the shift that it does not bear, of a stop its compression at rest, of a stroke what is missing, m.</param>
/// <param name="Contact">What is in the way beside the place; null for the others.</param>
public sealed record PlaceRisk(PlaceRiskKind Kind, string? Load, double Value, Contact? Contact = null)
{
    /// <summary>How far a bracket may sit beside its drawing, m; common practice, no source.</summary>
    public const double BracketTolerance = 0.002;

    /// <summary>Finds the risks of a layout, each in the load state in which it is worst.</summary>
    /// <param name="states">What was found in each load state.</param>
    /// <param name="layout">The layout.</param>
    /// <param name="cancellation">Stops the search.</param>
    internal static IEnumerable<PlaceRisk> Of(IReadOnlyList<ComparisonFindings> states, LayoutVerdict layout, CancellationToken cancellation) => states
        .SelectMany(state => (PlaceRisk[])[.. OfPlace(state, layout, cancellation), .. OfRest(state, layout), .. OfStroke(state, layout)])
        .GroupBy(risk => risk.Kind)
        .Select(risks => risks.MaxBy(risk => risk.Value)!);

    private static IEnumerable<PlaceRisk> OfPlace(ComparisonFindings state, LayoutVerdict layout, CancellationToken cancellation)
    {
        if (layout.IsPlaceChecked && layout.Obstacles.All(obstacle => obstacle.Kind != ObstacleKind.InTheWay)
            && PlaceCheck.InTheWayBeside(state.Study, state.Study.Layouts[layout.Index], BracketTolerance, cancellation) is { } contact)
        {
            yield return new PlaceRisk(PlaceRiskKind.EndOfRoom, state.Study.Load?.Name, BracketTolerance, contact);
        }
    }

    private static IEnumerable<PlaceRisk> OfRest(ComparisonFindings state, LayoutVerdict layout)
    {
        if (state.Study.Settle(state.Study.Layouts[layout.Index])?.Rest is not { } rest)
            yield break;
        foreach (var (kind, stop) in rest.Sides.SelectMany(side => new (PlaceRiskKind, StopAtRest?)[] { (PlaceRiskKind.OnBumpStop, side.Side.BumpStop), (PlaceRiskKind.OnReboundStop, side.Side.ReboundStop) }))
        {
            if (stop is { Compression: > 0 })
                yield return new PlaceRisk(kind, state.Study.Load?.Name, stop.Compression);
        }
    }

    private static IEnumerable<PlaceRisk> OfStroke(ComparisonFindings state, LayoutVerdict layout)
    {
        var written = state.Study.Layouts[layout.Index];
        if (state.Study.Vehicle.Envelope is null || written.Places.All(place => written.On(place.Side) is { CompressionTravel: null, ReboundTravel: null }))
            yield break;
        var study = state.Study with { Layouts = [written] };
        PlaceRisk[] within = [.. Missing(StudyAnswer.Of(() => MountsStudy.Run(study)).Found, PlaceRiskKind.TooLong, PlaceRiskKind.TooShort)];

        // What is missing within the travel is missing beyond it too, and is told once.
        var beyond = Missing(StrokeToStops.Of(study), PlaceRiskKind.ClosesBeforeStops, PlaceRiskKind.PulledBeforeStops).Where(risk =>
            within.All(known => known.Kind != (risk.Kind == PlaceRiskKind.ClosesBeforeStops ? PlaceRiskKind.TooLong : PlaceRiskKind.TooShort)));
        foreach (var risk in within.Concat(beyond))
            yield return risk;
    }

    /// <summary>The strokes that are used up over some travel.</summary>
    private static IEnumerable<PlaceRisk> Missing(MountsResult? mounts, PlaceRiskKind closed, PlaceRiskKind extended) =>
        from damper in mounts?.Layouts ?? []
        from end in new[] { (Kind: closed, Reserve: damper.ClosedReserve), (Kind: extended, Reserve: damper.ExtendedReserve) }
        where end.Reserve < -FitCheck.Tolerance
        select new PlaceRisk(end.Kind, mounts!.Study.Load?.Name, -end.Reserve!.Value);
}
