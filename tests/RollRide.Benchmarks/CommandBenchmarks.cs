using System.Diagnostics;
using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Engines;

namespace RollRide.Benchmarks;

/// <summary>Whole commands of the built program, each in a process of its own, from its start to its end.</summary>
/// <remarks>
/// <code>dotnet run -c Release --project tests/RollRide.Benchmarks -- --filter "*Command*"</code>
/// The times are wall clock: run it on a machine that does nothing else.
/// </remarks>
[SimpleJob(RunStrategy.Monitoring, warmupCount: 2, iterationCount: 20)]
[MinColumn]
public class CommandBenchmarks
{
    private static readonly string Root = FindRoot();

    private readonly string _program = Program;
    private readonly string _scenario = ShippedScenario;
    private readonly string _results = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());

    internal static string Program => Path.Combine(Root, "src", "RollRide.Cli", "bin", "Release", "net10.0", "RollRide.Cli.dll");

    internal static string ShippedScenario => Path.Combine(Root, "scenarios", "bump-then-corner.json");

    /// <summary>The start of the program alone.</summary>
    [Benchmark(Baseline = true)]
    public void Version() => Run(_program, "--version");

    /// <summary>Reads and checks a scenario.</summary>
    [Benchmark]
    public void Check() => Run(_program, "check", _scenario);

    /// <summary>One layout, without figures. Wanted: less than 0.3 s.</summary>
    [Benchmark]
    public void SimulateWithoutPlots() => Run(_program, "simulate", _scenario, "--no-plots", "--out", _results);

    /// <summary>Three layouts with all figures. Wanted: less than 2 s.</summary>
    [Benchmark]
    public void CompareWithFigures() => Run(_program, "compare", _scenario, "--out", _results);

    /// <summary>Twelve variants of three layouts, from the scenario file to the table and its figures.</summary>
    [Benchmark]
    public void Sweep() => Run(_program, "sweep", _scenario, "--vary", "vehicle.springs.rate_N_per_mm=lin:50:72:12", "--overwrite", "--out", _results + "-sweep");

    /// <summary>Removes what the commands wrote.</summary>
    [GlobalCleanup]
    public void RemoveResults()
    {
        foreach (var folder in (string[])[_results, _results + "-sweep"])
        {
            if (Directory.Exists(folder))
                Directory.Delete(folder, recursive: true);
        }
    }

    internal static void Run(string program, params IEnumerable<string> arguments)
    {
        using var process = Process.Start(new ProcessStartInfo("dotnet", [program, .. arguments]) { RedirectStandardOutput = true })!;
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"'{string.Join(' ', arguments)}' ended with exit code {process.ExitCode}.");
    }

    // The benchmarks run from a folder below this project's output.
    private static string FindRoot()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (!File.Exists(Path.Combine(folder.FullName, "RollRide.sln")))
            folder = folder.Parent ?? throw new InvalidOperationException("The benchmarks must run inside the project's folder.");
        return folder.FullName;
    }
}
