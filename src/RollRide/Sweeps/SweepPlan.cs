using System.Collections.Immutable;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Sweeps;

/// <summary>Everything a sweep does, decided before it starts.</summary>
public sealed class SweepPlan
{
    /// <summary>The case as it stands, before anything is varied.</summary>
    public required StudyCase Study { get; init; }

    /// <summary>Makes a variant's case from the values of the parameters, in their order, and its load state, null where none is named. Thread-safe.</summary>
    public required Func<IReadOnlyList<double>, LoadState?, SweptCase> Make { get; init; }

    /// <summary>Which values the parameters take together.</summary>
    public required SweepDesign Design { get; init; }

    /// <summary>The load states, in each of which every point of the design runs; empty for the scenario's own alone.</summary>
    public required ImmutableArray<LoadState> LoadStates { get; init; }

    /// <summary>Places of the layouts in the scenario, in the order in which they are run.</summary>
    public required ImmutableArray<int> Layouts { get; init; }

    /// <summary>The output columns.</summary>
    public required ImmutableArray<SweepMetric> Metrics { get; init; }

    /// <summary>The targets.</summary>
    public required ImmutableArray<SweepTarget> Targets { get; init; }

    /// <summary>The metrics that figures and conclusions show, the most important first; at least one.</summary>
    public required ImmutableArray<SweepMetric> Shown { get; init; }

    /// <summary>How the variants were asked for.</summary>
    public required SweepRequest Request { get; init; }

    /// <summary>The parameters.</summary>
    public ImmutableArray<SweepParameter> Parameters => Design.Parameters;

    /// <summary>The number of load states; 1 where none is named.</summary>
    public int StateCount => Math.Max(1, LoadStates.Length);

    /// <summary>The number of variants.</summary>
    public long VariantCount => checked(Design.Count * StateCount);

    /// <summary>The names of the layouts, in the order in which they are run.</summary>
    public IEnumerable<string> LayoutNames => Layouts.Select(i => Study.Layouts[i].Name);

    /// <summary>The load state of a variant; null where none is named.</summary>
    /// <param name="variant">The variant, from 0: all points in the first load state come first.</param>
    public LoadState? LoadStateOf(long variant) => LoadStates.IsEmpty ? null : LoadStates[(int)(variant / Design.Count)];

    /// <summary>The values of the parameters in a variant.</summary>
    /// <param name="variant">The variant, from 0.</param>
    public double[] ValuesOf(long variant) => Design.ValuesOf(variant % Design.Count);

    /// <summary>What the numbers of a variant make.</summary>
    /// <param name="variant">The variant, from 0.</param>
    public SweptCase CaseOf(long variant) => Make(ValuesOf(variant), LoadStateOf(variant));
}
