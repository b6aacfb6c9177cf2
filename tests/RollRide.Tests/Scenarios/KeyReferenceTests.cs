using RollRide.DataFiles;
using RollRide.Scenarios;

namespace RollRide.Tests.Scenarios;

/// <summary>The reference of every key in the documentation is what the reader's own records say.</summary>
public class KeyReferenceTests
{
    private const string Mark = "<!-- generated: every key -->\n";
    private const string UpdateVariable = "ROLLRIDE_UPDATE_DOCS";

    [Fact]
    public void Documentation_lists_every_key_as_the_reader_has_it()
    {
        var path = Shipped.PathOf("docs", "scenario.md");
        var text = File.ReadAllText(path).ReplaceLineEndings("\n");
        var start = text.IndexOf(Mark, StringComparison.Ordinal) + Mark.Length;
        Assert.True(start >= Mark.Length, $"{path} has no line “{Mark.Trim()}”, after which every key is listed.");
        var expected = "\n" + KeyReferenceWriter.Write(typeof(ScenarioFile));
        if (Environment.GetEnvironmentVariable(UpdateVariable) == "1")
        {
            File.WriteAllText(path, text[..start] + expected);
            return;
        }

        Assert.True(expected == text[start..], $"The keys in {path} are not those of the reader. To write them anew, run this test with {UpdateVariable}=1.");
    }
}
