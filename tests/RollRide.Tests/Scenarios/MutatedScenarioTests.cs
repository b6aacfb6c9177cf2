using CsCheck;
using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Scenarios;

/// <summary>Whatever is changed in a scenario, it is read or refused in words, never with another exception.</summary>
public class MutatedScenarioTests
{
    [Theory]
    [InlineData("bump-then-corner.json")]
    [InlineData("independent-front.json")]
    [InlineData("dual-tyre.json")]
    public void Read_changed_scenario_throws_nothing_but_DataFileException(string name)
    {
        using var folder = CopyOfScenarios();
        var (read, refused) = (0, 0);
        ScenarioMutations.Of(File.ReadAllText(Shipped.Scenario(name))).SampleSame(
            200,
            tree =>
            {
                if (IsRead(folder.Write("changed.json", tree.ToJsonString())))
                    read++;
                else
                    refused++;
            });

        // Both came up often enough for the check to mean something.
        Assert.InRange(read, 20, 200);
        Assert.InRange(refused, 20, 200);
    }

    [Fact]
    public void Read_scenario_cut_anywhere_is_refused()
    {
        using var folder = CopyOfScenarios();
        var text = File.ReadAllText(Shipped.Scenario("bump-then-corner.json"));
        Gen.Int[0, text.TrimEnd().Length - 1].SampleSame(200, length => Assert.False(IsRead(folder.Write("cut.json", text[..length]))));
    }

    [Fact]
    public void Read_damaged_dyno_file_throws_nothing_but_DataFileException()
    {
        using var folder = CopyOfScenarios();
        var path = folder.Write("scenario.json", File.ReadAllText(Shipped.Scenario("bump-then-corner.json")));
        Damage.Of(File.ReadAllText(Shipped.PathOf("scenarios", "valley-damper-dyno.csv"))).SampleSame(
            150,
            bytes =>
            {
                File.WriteAllBytes(folder["valley-damper-dyno.csv"], bytes);
                IsRead(path);
            });
    }

    private static TemporaryFolder CopyOfScenarios()
    {
        var folder = new TemporaryFolder();
        foreach (var file in Directory.EnumerateFiles(Shipped.PathOf("scenarios"), "*.csv"))
            File.Copy(file, folder[Path.GetFileName(file)]);
        return folder;
    }

    private static bool IsRead(string path)
    {
        try
        {
            ScenarioReader.Read(path);
            return true;
        }
        catch (DataFileException e)
        {
            Assert.All(e.Faults, fault => Assert.False(string.IsNullOrWhiteSpace(fault.Reason)));
            return false;
        }
    }
}
