using System.Text;
using BenchmarkDotNet.Attributes;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Sweeps;

namespace RollRide.Benchmarks;

/// <summary>
/// What a variant of a sweep takes besides its run, on one thread: reading it with its checks, and putting its rows in words. The shipped
/// bump-then-corner scenario, all three layouts, with three numbers drawn. Wanted: less than 80 µs together for each layout.
/// </summary>
/// <remarks><code>dotnet run -c Release --project tests/RollRide.Benchmarks -- --filter "*Variant*"</code></remarks>
[MemoryDiagnoser]
public class VariantBenchmarks
{
    private const int Variants = 16;

    private readonly SweepPlan _plan;
    private readonly SweepTable _table;
    private readonly VariantResult[] _results;

    /// <summary>Runs the variants whose rows are written.</summary>
    public VariantBenchmarks()
    {
        _plan = SweepPlanReader.Read(ScenarioTemplate.Read(CommandBenchmarks.ShippedScenario), Options(Variants));
        _table = new SweepTable(Path.GetTempPath(), _plan, SweepShare.Whole);
        _results = [.. VariantResult.Run(_plan, 0, Variants)];
    }

    /// <summary>Three numbers drawn.</summary>
    internal static SweepOptions Options(int variants) => new()
    {
        Design = SweepDesignKind.LatinHypercube,
        Samples = variants,
        Vary = ["dampers.valley.forceScale=uniform:0.9:1.1", "vehicle.springs.rate_N_per_mm=uniform:58:66", "vehicle.body.mass_kg=uniform:1250:1450"],
    };

    /// <summary>Reads each variant.</summary>
    [Benchmark(OperationsPerInvoke = Variants)]
    public SweptCase? Read()
    {
        SweptCase? last = null;
        for (var variant = 0; variant < Variants; variant++)
            last = _plan.CaseOf(variant);
        return last;
    }

    /// <summary>Puts the rows of each variant in words.</summary>
    [Benchmark(OperationsPerInvoke = Variants)]
    public StringBuilder Write() => _table.RowsOf([.. _results]);
}
