using RollRide.Metrics;
using RollRide.Results;
using RollRide.Tests.Cli;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Results;

public class MetricCatalogueTests
{
    // The unit as it stands in a key, and as it stands in a table.
    private static readonly Dictionary<string, string> Units = new()
    {
        ["deg"] = "deg",
        ["deg_per_g"] = "deg/g",
        ["percent"] = "%",
        ["s"] = "s",
        ["mm"] = "mm",
        ["N"] = "N",
        ["J"] = "J",
        ["m_per_s"] = "m/s",
        ["m_per_s2"] = "m/s²",
        ["rad_per_s2"] = "rad/s²",
        ["m_per_s1_75"] = "m/s^1.75",
    };

    [Fact]
    public void Keys_are_unique()
    {
        string[] keys = [.. RollMetric.All.Select(metric => metric.Key), .. PhaseMetric.All.Select(metric => metric.Key)];

        Assert.Equal(keys.Length, keys.Distinct().Count());
    }

    [Fact]
    public void Each_key_ends_in_the_unit_shown_in_tables()
    {
        foreach (var (key, unit) in RollMetric.All.Select(m => (m.Key, m.Unit)).Concat(PhaseMetric.All.Select(m => (m.Key, m.Unit))))
        {
            var underscore = key.IndexOf('_', StringComparison.Ordinal);
            Assert.Equal(underscore < 0 ? "" : Units[key[(underscore + 1)..]], unit.Symbol);
        }
    }

    [Fact]
    public void Reference_of_the_documentation_is_current()
    {
        using var output = new StringWriter { NewLine = "\n" };
        MetricReference.Write(output);

        StoredText.Check(output.ToString(), Shipped.PathOf("docs", "metrics.md"));
    }
}
