using System.Globalization;
using CsvHelper;
using RollRide.DataFiles;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Tests.Scenarios;

/// <summary>
/// Every scenario that was shipped once, as it was then (a folder for each state of the project), is still read and means the same: the figures
/// beside them are what a version of that time made of it.
/// </summary>
public sealed class EarlierScenariosTests
{
    /// <summary>Files whose meaning had to change: the key that is refused now.</summary>
    private static readonly Dictionary<string, string> Refused = new() { ["sweep-load-states.json"] = "sweep.loadStates" };

    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "TestData", "EarlierScenarios");

    public static TheoryData<string> All => [.. Directory.EnumerateFiles(Folder, "*.json", SearchOption.AllDirectories).Select(path => Path.GetRelativePath(Folder, path)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(All))]
    public void Scenario_of_an_earlier_state_means_what_it_meant(string name)
    {
        string path = Path.Combine(Folder, name);
        if (Refused.TryGetValue(Path.GetFileName(path), out var refused))
        {
            var fault = Assert.Single(Assert.Throws<DataFileException>(() => ScenarioReader.Read(path)).Faults);
            Assert.Contains(refused, fault.ToString(), StringComparison.Ordinal);
            Assert.Contains("the key loadStates", fault.ToString(), StringComparison.Ordinal);
            return;
        }

        var result = Comparison.Run(ScenarioReader.Read(path).Study, cancellation: TestContext.Current.CancellationToken);
        var meant = Meant(name);
        Assert.Equal(meant.Select(row => row["layout"]), result.Layouts.Select(layout => layout.Name));
        foreach (var (row, layout) in meant.Zip(result.Layouts))
        {
            // Placed dampers stand in tenths of a millimetre now, in whole ones then; the integrator's steps are others.
            Same(layout.Car.Layout.Fitting.HeaveRatio, "heaveRatio", 3e-4);
            Same(layout.Car.Layout.Fitting.RollRatio, "rollRatio", 3e-4);
            Same(layout.Metrics.RollResponse is null ? null : Shown(RollMetric.All.Single(metric => metric.Key == "rollAngleSteady_deg")), "rollAngleSteady_deg", 3e-4);
            Same(layout.ReferenceModes[ModeName.Heave].DampingRatio, "heaveDampingRatio", 3e-4);
            Same(layout.ReferenceModes[ModeName.Roll].DampingRatio, "rollDampingRatio", 3e-4);
            Same(layout.ReferenceModes[ModeName.Heave].NaturalFrequency, "heaveFrequency_Hz", 3e-4);
            Same(layout.ReferenceModes[ModeName.Tramp].NaturalFrequency, "trampFrequency_Hz", 3e-4);
            foreach (var key in (string[])["bodyAccelerationRms_m_per_s2", "rollAccelerationRms_rad_per_s2", "damperEnergy_J"])
                Same(InRun(key), key, 5e-4);

            // The extreme of a random road in one instant.
            Same(InRun("tyreLoadMinimum_N"), "tyreLoadMinimum_N", 4e-3);

            double? InRun(string key) => PhaseMetric.All.Single(metric => metric.Key == key).Shown(layout.Metrics.Whole);
            double? Shown(RollMetric metric) => metric.Shown(layout.Metrics);
            void Same(double? found, string column, double tolerance)
            {
                double? expected = row[column] is { Length: > 0 } text ? double.Parse(text, CultureInfo.InvariantCulture) : null;
                Assert.Equal(expected is null, found is null);
                if (expected is { } then)
                    Assert.True(Math.Abs(found!.Value - then) <= tolerance * Math.Abs(then), $"{name}, {layout.Name}: {column} was {then}, is {found}");
            }
        }
    }

    private static Dictionary<string, string>[] Meant(string name)
    {
        using var reader = new StreamReader(Path.Combine(Folder, "what-they-meant.csv"));
        reader.ReadLine(); // where the table comes from
        using var table = CsvReader.Create(reader, new CsvReaderOptions { HasHeader = false, FormatProvider = CultureInfo.InvariantCulture });
        table.Read();
        string[] columns = [.. Enumerable.Range(0, table.FieldCount).Select(table.GetString)];
        var rows = new List<Dictionary<string, string>>();
        while (table.Read())
            rows.Add(columns.Index().ToDictionary(column => column.Item, column => table.GetString(column.Index)));
        return [.. rows.Where(row => Path.Combine(row["state"], row["file"]) == name)];
    }
}
