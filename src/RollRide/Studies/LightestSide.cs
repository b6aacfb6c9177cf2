using RollRide.Metrics;

namespace RollRide.Studies;

/// <summary>The least load of a side in a layout's runs, where it nearly leaves the road.</summary>
/// <param name="Load">Name of the load state; null for the vehicle as written.</param>
/// <param name="Phase">The phase in which it happens; null where none is named.</param>
/// <param name="TyreLoad">The load, N.</param>
/// <param name="Share">The load as a share of that at rest.</param>
/// <param name="BestOfOthers">The same of the other layout that can be used and keeps most, N; null where there is no other.</param>
public sealed record LightestSide(string? Load, string? Phase, double TyreLoad, double Share, double? BestOfOthers = null)
{
    // Of the load at rest: with less a side has hardly any grip, and a somewhat rougher road takes the rest; common practice, no source.
    private const double Close = 0.1;

    /// <summary>Finds it.</summary>
    /// <param name="states">What was found in each load state.</param>
    /// <param name="layout">The layout's place.</param>
    /// <param name="usable">The layouts that can be used.</param>
    /// <returns>Null where every side keeps enough of its load, where one leaves the road, which is told as such, and on a single random road, whose extremes are chance.</returns>
    internal static LightestSide? Of(IReadOnlyList<ComparisonFindings> states, int layout, IEnumerable<LayoutVerdict> usable)
    {
        LightestSide? Least(int of) => states.Where(state => !state.IsOfOneRandomRoad).SelectMany(state => state.Runs(of).Select(run => In(state, of, run))).MinBy(side => side.Share);
        return Least(layout) is { TyreLoad: > 0, Share: < Close } least
            ? least with { BestOfOthers = usable.Where(other => other.Index != layout).Max(other => Least(other.Index)?.TyreLoad) }
            : null;
    }

    private static LightestSide In(ComparisonFindings state, int layout, RunMetrics run)
    {
        var load = run.Whole.TyreLoadMinimum;
        return new LightestSide(
            state.Study.Load?.Name, run.Phases.FirstOrDefault(phase => phase.TyreLoadMinimum == load)?.Name, load, load / Noticeable.SideLoad(state.Result.Layouts[layout].Car.Vehicle));
    }
}
