using RollRide.Results;
using RollRide.Tests.Cli;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Results;

public class MetricCatalogueTests
{
    [Fact]
    public void Reference_of_the_documentation_is_current()
    {
        using var output = new StringWriter { NewLine = "\n" };
        MetricReference.Write(output);

        StoredText.Check(output.ToString(), Shipped.PathOf("docs", "metrics.md"));
    }
}
