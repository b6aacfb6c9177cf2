using System.CommandLine.Parsing;
using System.Globalization;
using RollRide.Cli;
using RollRide.Cli.Terminals;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Modes;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;
using RollRide.Vehicle;

namespace RollRide.Tests.Docs;

/// <summary>Holds the documents against the program: commands, links, the printed excerpt and the picture.</summary>
public class DocumentationTests
{
    private const string RunPrefix = "dotnet run -c Release --project src/RollRide.Cli -- ";
    private const string ShortPrefix = "rollride ";
    private const string Gap = "…";

    private static readonly string Scenario = Path.Combine(Document.Root, "scenarios", "bump-then-corner.json");

    public static TheoryData<string> DocumentNames => [.. Document.Names];

    [Theory]
    [MemberData(nameof(DocumentNames))]
    public void EveryCommandLineShown_IsAccepted(string name)
    {
        var document = Document.Read(name);
        var commands = document.CommandLines.Where(line => line.StartsWith(RunPrefix, StringComparison.Ordinal) || line.StartsWith(ShortPrefix, StringComparison.Ordinal));
        foreach (var line in commands)
        {
            var arguments = CommandLineParser.SplitCommandLine(line.Replace(RunPrefix, "", StringComparison.Ordinal).Replace(ShortPrefix, "", StringComparison.Ordinal)).ToArray();
            Assert.True(CommandLine.Root().Parse(arguments).Errors.Count == 0, $"{name}: not accepted: {line}");
        }
    }

    [Theory]
    [MemberData(nameof(DocumentNames))]
    public void EveryFileNamedInACommandLine_Exists(string name)
    {
        var document = Document.Read(name);

        // What one command line makes, the next may use.
        var made = document.CommandLines.Select(line => line.Split(' ')).Where(words => words[0] == "cp" || words.Contains("--out")).Select(words => words[^1]).ToHashSet();
        var named = document.CommandLines.SelectMany(line => line.Split(' ')).Where(word =>
            word.StartsWith("scenarios/", StringComparison.Ordinal) || word.StartsWith("src/", StringComparison.Ordinal)
            || word.StartsWith("tests/", StringComparison.Ordinal) || word.EndsWith(".sln", StringComparison.Ordinal));
        Assert.All(named.Except(made), word => Assert.True(Path.Exists(Path.Combine(Document.Root, word)), $"{name} names {word}, which does not exist."));
    }

    [Theory]
    [MemberData(nameof(DocumentNames))]
    public void EveryRelativeLink_LeadsToAFileAndHeading(string name)
    {
        var document = Document.Read(name);
        foreach (var link in document.RelativeLinks)
        {
            var (file, anchor) = link.Split('#') is [var path, var fragment] ? (path, fragment) : (link, null);
            var target = file.Length == 0 ? document.FullPath : Path.Combine(Path.GetDirectoryName(document.FullPath)!, file);
            Assert.True(Path.Exists(target), $"{name} links to {link}, which does not exist.");
            if (anchor is not null)
                Assert.Contains(anchor, Document.Read(target).Anchors);
        }
    }

    [Fact]
    public void Readme_ShowsTheTwoCommandsOfANewUserFirst() =>
        Assert.Equal(
            ["dotnet run -c Release --project src/RollRide.Cli -- compare scenarios/bump-then-corner.json --out results", "dotnet test -c Release RollRide.sln"],
            Document.Read("README.md").CommandLines.Take(2));

    [Fact]
    public void Readme_ListsEveryCommand() =>
        Assert.All(CommandLine.Root().Subcommands, command => Assert.Contains($"| `{command.Name}` |", Document.Read("README.md").Text, StringComparison.Ordinal));

    [Fact] // A new user tries the table from the top: what is merged must have been run before.
    public void Readme_MergesSharesThatItsTableHasRunBefore()
    {
        var lines = Document.Read("README.md").CommandLines.ToArray();
        var merge = Array.FindIndex(lines, line => line.StartsWith("rollride merge ", StringComparison.Ordinal));
        string After(string option) => lines[merge].Split(' ').SkipWhile(word => word != option).ElementAt(1);
        var (scenario, parts, folder) = (lines[merge].Split(' ')[2], int.Parse(After("--parts"), CultureInfo.InvariantCulture), After("--from"));
        Assert.All(Enumerable.Range(1, parts), i => Assert.Contains($"rollride sweep {scenario} --part {i}/{parts} --out {folder}", lines.Take(merge)));
    }

    [Fact]
    public void Theory_DefinesEveryMetric() =>
        Assert.All(
            RollMetric.All.Select(metric => metric.Key).Concat(PhaseMetric.All.Select(metric => metric.Key)),
            key => Assert.Contains($"`{key}`", Document.Read("docs/theory.md").Text, StringComparison.Ordinal));

    [Fact]
    public async Task Readme_ShowsWhatCompareWrites()
    {
        using var folder = new TemporaryFolder();
        using var output = new StringWriter { NewLine = "\n" };
        Assert.Equal(ExitCode.Done, await CommandLine.RunAsync(["compare", Scenario, "--no-plots", "--out", folder["results"]], output, TextWriter.Null));
        var lines = output.ToString().Split('\n');

        var excerpt = Assert.Single(Document.Read("README.md").Blocks("text"));
        var (next, afterGap) = (0, true);
        foreach (var shown in excerpt)
        {
            if (shown == Gap)
            {
                afterGap = true;
                continue;
            }

            // After a gap a line stands anywhere further down; otherwise it follows the one before.
            var found = Array.IndexOf(lines, shown, next);
            Assert.True(found >= 0, $"compare does not write, or not in this order: {shown}");
            Assert.True(afterGap || found == next, $"compare writes other lines before: {shown}");
            (next, afterGap) = (found + 1, false);
        }
    }

    [Fact]
    public async Task Readme_ShowsWhatCheckSaysOfAWrongUnit()
    {
        using var folder = new TemporaryFolder();
        using var error = new StringWriter { NewLine = "\n" };
        var text = await File.ReadAllTextAsync(Scenario, TestContext.Current.CancellationToken);
        var path = folder.Write("my-axle.json", text.Replace("\"track_mm\"", "\"track_m\"", StringComparison.Ordinal));
        Assert.Equal(ExitCode.BadInput, await CommandLine.RunAsync(["check", path], TextWriter.Null, error));

        var said = error.ToString().Replace(path, "scenarios/my-axle.json", StringComparison.Ordinal).TrimEnd('\n').Split('\n');
        Assert.Equal(said, Assert.Single(Document.Read("README.md").Blocks("console")));
    }

    [Fact]
    public void Theory_HandCalculation_HoldsForTheShippedScenario()
    {
        var study = ScenarioReader.Read(Scenario).Study;
        var van = study.Vehicle;
        var ay = study.Manoeuvre.Cornering.FinalLateralAcceleration;
        var rate = Assert.IsType<LinearSpring>(van.Spring.Characteristic).Rate;
        var weight = van.Body.Mass * HalfCar.StandardGravity;

        // The two linear equations of the document, by Cramer's rule.
        var springs = (2 * rate * Math.Pow(van.Spring.Fitting.RollRatio * van.HalfTrack, 2)) + van.AntiRollBar;
        var tyres = 2 * van.Tyre.Stiffness * van.HalfTrack * van.HalfTrack;
        var lean = weight * van.RollArm;
        var body = van.Body.Mass * van.RollArm * ay;
        var whole = ((van.Body.Mass * van.Body.CgHeight) + (van.Unsprung.Mass * van.Unsprung.CgHeight)) * ay;
        var roll = ((body * tyres) + (springs * whole)) / (((springs - lean) * tyres) - (springs * lean));

        var text = Document.Read("docs/theory.md").Text;
        Assert.Contains($"= {Grouped(springs)} N·m/rad", text, StringComparison.Ordinal);
        Assert.Contains($"`Kt = {Grouped(tyres)} N·m/rad`", text, StringComparison.Ordinal);
        Assert.Contains(FormattableString.Invariant($"`φs = {roll:F4} rad = {roll * 180 / Math.PI:F2} deg`"), text, StringComparison.Ordinal);

        // The document's roll is linear: sin φ departs from φ by φ²/6, 5e-4 here, on the gravity term, itself a tenth of the stiffness.
        Assert.Equal(roll, StaticEquilibrium.Find(new AssembledHalfCar(van, study.Layouts[0]), ay).BodyRoll, 1e-4 * roll);
    }

    [Fact]
    public void Theory_LinearEstimateOfDamping_HoldsForTheShippedScenario()
    {
        var study = ScenarioReader.Read(Scenario).Study;
        var (van, layout) = (study.Vehicle, study.Layouts[0]);
        var rate = Assert.IsType<LinearSpring>(van.Spring.Characteristic).Rate;
        var c = layout.Damper.EquivalentCoefficient(study.Analysis.ReferenceVelocity);
        var heaveStiffness = 2 * rate * Math.Pow(van.Spring.Fitting.HeaveRatio, 2);
        var rollStiffness = (2 * rate * Math.Pow(van.Spring.Fitting.RollRatio * van.HalfTrack, 2)) + van.AntiRollBar
            - (van.Body.Mass * HalfCar.StandardGravity * van.RollArm);
        var heave = c * Math.Pow(layout.Fitting.HeaveRatio, 2) / Math.Sqrt(heaveStiffness * van.Body.Mass);
        var roll = c * Math.Pow(layout.Fitting.RollRatio * van.HalfTrack, 2) / Math.Sqrt(rollStiffness * van.BodyRollInertia);
        var modes = ModeFollower.Solve(LinearHalfCar.AtRest(new AssembledHalfCar(van, layout)), c);

        var text = Document.Read("docs/theory.md").Text.ReplaceLineEndings(" ");
        Assert.Contains(
            FormattableString.Invariant($"({c:F0} N·s/m at {study.Analysis.ReferenceVelocity} m/s) the estimate gives {heave:F2} in heave and {roll:F2} in roll; the eigenvalues, which all results use, give {modes.Heave.DampingRatio:F2} and {modes.Roll.DampingRatio:F2}."),
            text,
            StringComparison.Ordinal);
    }

    private static string Grouped(double value) => value.ToString("N0", CultureInfo.InvariantCulture).Replace(',', ' ');
}
