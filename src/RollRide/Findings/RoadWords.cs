using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Findings;

/// <summary>The obstacles of a road in words: what was driven over, and under which wheel.</summary>
public static class RoadWords
{
    // A rise shorter than a tyre's contact is a step, a longer one a ramp; common practice, no source.
    private const double LongestStep = 0.15;

    private const int MostNamed = 2;

    /// <summary>What a run was driven over: <c>a 60 mm bump under the left wheel</c>.</summary>
    /// <param name="road">The road.</param>
    /// <param name="highest">The greatest height or depth of its profile that the run meets, m.</param>
    /// <returns>Null for a flat road; of a random road no sizes, for its unevenness adds to them.</returns>
    public static string? Of(Road road, double highest)
    {
        ArgumentNullException.ThrowIfNull(road);
        if (road.Unevenness is not null)
            return road.HasEvents ? "a random road with obstacles" : "a random road";
        return road.Left.Pieces.Concat(road.Right.Pieces).Any(piece => piece.Shape is SampledShape)
            ? FormattableString.Invariant($"a given road profile of up to {Unit.Millimetre.Of(Math.Abs(highest)):F0} mm")
            : OfObstacles(road);
    }

    /// <summary>What a road puts under the wheels, as one noun: <c>bump</c>, or <c>obstacles</c> where there are several kinds.</summary>
    /// <param name="road">The road.</param>
    /// <returns>Null for a flat, a random or a measured road.</returns>
    public static string? Noun(Road road)
    {
        ArgumentNullException.ThrowIfNull(road);
        if (road.Unevenness is not null)
            return null;
        string[] kinds = [.. Kinds(road).Select(kind => kind.Key.Kind).Distinct()];
        return kinds.Length switch { 0 => null, 1 => kinds[0], _ => "obstacles" };
    }

    /// <summary>Where the first obstacle of each size that <see cref="Of"/> names lies, m; none where it names only the largest.</summary>
    /// <param name="road">The road.</param>
    public static IEnumerable<(RoadSide Side, double From, double To)> Named(Road road)
    {
        ArgumentNullException.ThrowIfNull(road);
        var kinds = Kinds(road).ToArray();
        return kinds.Length > MostNamed ? [] : kinds.Select(kind => kind.First()).Select(first => (first.Side, first.Obstacle.Start, first.Obstacle.End));
    }

    private static IEnumerable<IGrouping<(string Kind, double Size), (RoadSide Side, Obstacle Obstacle)>> Kinds(Road road) =>
        ObstaclesOf(road.Left).Select(obstacle => (Side: RoadSide.Left, Obstacle: obstacle))
            .Concat(ObstaclesOf(road.Right).Select(obstacle => (Side: RoadSide.Right, Obstacle: obstacle)))
            .GroupBy(at => (at.Obstacle.Kind, at.Obstacle.Size));

    /// <summary>How rough a random road is: the class of ISO 8608 that its density at 0.1 cycle/m falls in, and that density.</summary>
    /// <param name="spectrum">Its spectrum.</param>
    public static string Unevenness(RoughnessSpectrum spectrum)
    {
        ArgumentNullException.ThrowIfNull(spectrum);
        return FormattableString.Invariant($"class {RoadClasses.Of(spectrum.ReferenceDensity)} (ISO 8608; {spectrum.ReferenceDensity * 1e6:0.#}·10⁻⁶ m³ at 0.1 cycle/m)");
    }

    /// <summary>The obstacles alone: <c>a 60 mm bump under the left wheel</c>; null where there are none.</summary>
    /// <param name="road">The road.</param>
    public static string? OfObstacles(Road road)
    {
        ArgumentNullException.ThrowIfNull(road);
        var kinds = Kinds(road).ToArray();
        var all = kinds.SelectMany(kind => kind).ToArray();
        return kinds.Length switch
        {
            0 => null,
            <= MostNamed => string.Join(" and ", kinds.Select(kind => Words(kind.Key.Kind, kind.Key.Size, [.. kind]))),
            _ => FormattableString.Invariant($"{all.Select(at => at.Obstacle.Start).Distinct().Count()} obstacles of up to {all.Max(at => at.Obstacle.Size):0.#} mm"),
        };
    }

    private static string Words(string kind, double size, (RoadSide Side, Obstacle Obstacle)[] found)
    {
        var (left, right) = (found.Where(at => at.Side == RoadSide.Left).ToArray(), found.Where(at => at.Side == RoadSide.Right).ToArray());
        var count = Math.Max(left.Length, right.Length);
        var what = count == 1
            ? FormattableString.Invariant($"{(size is 8 or >= 80 and < 90 ? "an" : "a")} {size:0.#} mm {kind}")
            : FormattableString.Invariant($"{count} {kind}s of {size:0.#} mm");
        return $"{what} under {(left.Length == 0 ? "the right wheel" : right.Length == 0 ? "the left wheel" : left.Zip(right).All(pair => pair.First.Obstacle.Start == pair.Second.Obstacle.Start) ? "both wheels" : "one wheel after the other")}";
    }

    private static IEnumerable<Obstacle> ObstaclesOf(PiecewiseSignal track)
    {
        foreach (var piece in track.Pieces)
        {
            // A pothole and a rise are known by the height that they keep between or after their edges.
            var found = piece.Shape switch
            {
                HaversineShape bump => (bump.Height < 0 ? "dip" : "bump", bump.Height),
                SineShape sine => ("wave train", sine.Amplitude),
                SweptSineShape sine => ("wave train", sine.Amplitude),
                ConstantShape level when double.IsFinite(piece.End) => ("pothole", level.Level),
                ConstantShape level => (track.Pieces.Any(edge => edge.End == piece.Start && edge.End - edge.Start <= LongestStep) ? "step" : "ramp", level.Level),
                _ => (null!, 0.0),
            };
            if (found.Item1 is { } kind)
                yield return new Obstacle(kind, Math.Round(Unit.Millimetre.Of(Math.Abs(found.Item2)), 1), piece.Start, piece.End);
        }
    }

    /// <summary>An obstacle in one track, its size in whole tenths of a millimetre so that two of them count as the same.</summary>
    private sealed record Obstacle(string Kind, double Size, double Start, double End);
}
