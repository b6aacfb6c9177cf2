using RollRide.Metrics;
using System.Globalization;
using RollRide.Results;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Results;

public class MetricsTableTests
{
    [Fact]
    public void Table_reads_back_as_the_same_numbers()
    {
        var result = ShortScenario.Pair().Run();
        using var output = new StringWriter();
        MetricsTable.Write(output, result);

        var lines = output.ToString().TrimEnd('\n').Split('\n').Select(line => line.Split(',')).ToArray();
        var header = lines[0];

        Assert.Equal(header.Length, header.Distinct().Count());
        Assert.All(lines, line => Assert.Equal(header.Length, line.Length));
        Assert.Equal(
            ["Outer run", "Outer bump", "Outer corner", "Inner run", "Inner bump", "Inner corner"],
            lines.Skip(1).Select(line => $"{line[0]} {line[1]}"));
        foreach (var line in lines.Skip(1))
        {
            double? Field(string column) => line[Array.IndexOf(header, column)] is { Length: > 0 } text ? double.Parse(text, CultureInfo.InvariantCulture) : null;
            var layout = result.Layouts.Single(layout => layout.Name == line[0]);
            var phase = layout.Metrics.Phases.Append(layout.Metrics.Whole).Single(phase => phase.Name == line[1]);
            Assert.Equal(layout.Car.Layout.Fitting.RollRatio, Field("rollRatio"));
            Assert.Equal((phase.Start, phase.End), (Field("start_s"), Field("end_s")));
            Assert.All(PhaseMetric.All, metric => Assert.Equal(metric.Shown(phase), Field(metric.Key)));
            // The response to the cornering is a figure of the run.
            Assert.All(RollMetric.All, metric =>
                Assert.Equal(line[1] == "run" ? metric.Shown(layout.Metrics.RollResponse!) : null, Field(metric.Key)));
        }
    }
}
