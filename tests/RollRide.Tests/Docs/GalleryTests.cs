using System.Text;
using RollRide.Damping;
using RollRide.Findings;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Report;
using RollRide.Report.Chapters;
using RollRide.Roads;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Sweeps;
using RollRide.Tests.Cli;
using RollRide.Tests.Live;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Docs;

/// <summary>
/// Keeps docs/gallery.md and every picture of the documents what the program draws of the shipped scenarios; ROLLRIDE_UPDATE_DOCS=1
/// writes them anew.
/// </summary>
public class GalleryTests
{
    private const int Positions = 5;

    // Half of a slide each way: small files, and still readable.
    private static readonly PlotSize Size = new(800, 450);

    // The scenario of the main job first; the others bring the chapters that it has nothing for.
    private static readonly (string Prefix, string File)[] Scenarios =
        [("van", "bump-then-corner.json"), ("place", "placement.json"), ("country", "broken-country-road.json"), ("valving", "valving.json"), ("whole", "rescue-van-whole.json")];

    private readonly StringBuilder _page = new();
    private readonly HashSet<string> _drawn = [];

    [Fact]
    public void Gallery_shows_every_figure_of_the_report_as_it_is_drawn_now_and_draws_every_picture_of_the_documents()
    {
        _page.Append(
            """
            # Gallery

            Every figure that a report can hold, and those of the commands `compare`, `mounts`, `modes`, `road` and `damper`, drawn from the shipped scenarios.
            `ROLLRIDE_UPDATE_DOCS=1 dotnet test tests/RollRide.Tests --filter GalleryTests` writes this page and every picture that any of
            these documents shows; the same test without that variable compares them. How to read each figure stands in the
            [guide](guide.md#reading-the-figures).


            """);
        var inputs = Scenarios.Select(scenario => (scenario.Prefix, Input: new Lazy<ReportInput>(() => InputOf(scenario.File)))).ToArray();
        foreach (var chapter in ChapterList.InOrderOfArgument)
        {
            var (prefix, written) = inputs.Select(input => (input.Prefix, Chapter: chapter.Write(input.Input.Value)))
                .First(pair => pair.Chapter is not null);
            _page.Append($"## {written!.Title}\n\n");
            foreach (var figure in written.Figures.Concat(written.Frames is { } frames ? [frames.Frames[frames.Start].Figure] : []))
                Add(prefix, figure);
        }

        _page.Append("## Damping ratios in one picture: the command `compare`\n\n");
        Add("van", DampingRatioFigure.Build(inputs[0].Input.Value.Comparison.Result));

        _page.Append("## Motion ratios over the travel: the command `mounts`\n\n");
        Add("van", MountsFigures.All(MountsStudy.Run(inputs[0].Input.Value.Study))[0]);

        _page.Append("## Frequency response: the command `modes`\n\n");
        var modes = inputs[0].Input.Value.Studies.Modes;
        foreach (var figure in (Figure[])[ResponseFigures.ToRoad(modes), ResponseFigures.TravelToRoad(modes), ResponseFigures.ToLateralAcceleration(modes)])
            Add("van", figure);

        _page.Append("## A random road: the command `road`\n\n");
        var study = Read("broken-country-road.json").Study;
        var profile = study.Manoeuvre.Road.Unevenness!.ToProfile(3000, 0.05);
        var analysis = RoadAnalysis.Of(profile);
        var footer = $"{study.Provenance.Scenario} · {study.Provenance.File} · RollRide {Provenance.ProgramVersion}\n{Cautions.OneLine}";
        foreach (var figure in (Figure[])[RoadFigures.Profile(profile, analysis, footer, study.Manoeuvre.Road), RoadFigures.Spectrum(analysis.Spectrum!, footer), RoadFigures.Coherence(analysis.Spectrum!, study.Manoeuvre.Road.Unevenness!.Coherence, footer)])
            Add("country", figure);

        _page.Append("## A dynamometer's record: the command `damper`\n\n");
        var reduction = DynoReader.Read([Shipped.PathOf("scenarios", "damper-loops.csv")], new DynoFileOptions(), DynoMethod.PeakVelocity, excludeOutliers: false);
        foreach (var figure in DamperFigures.All(reduction, ValvingFit.Of(reduction.Curve.Points, rounded: true), "damper-loops.csv"))
            Add("loops", figure);

        _page.Append("## Other axles\n\n");
        Add("bus", MountsFigure.Build(Read("independent-front.json").Study));
        Add("lorry", MountsFigure.Build(Read("dual-tyre.json").Study));
        StoredText.Check(_page.ToString().TrimEnd('\n') + "\n", Shipped.PathOf("docs", "gallery.md"));

        Assert.Equal(_drawn.Order(StringComparer.Ordinal), Directory.EnumerateFiles(Shipped.PathOf("docs", "images")).Select(path => Path.GetFileName(path)!).Where(name => name != LooksTests.Picture).Order(StringComparer.Ordinal));
        foreach (var document in Document.Names.Select(Document.Read))
        {
            Assert.All(document.RelativeLinks.Where(link => link.EndsWith(".png", StringComparison.Ordinal)), link =>
                Assert.Equal(Shipped.PathOf("docs", "images"), Path.GetDirectoryName(Path.GetFullPath(link, Path.GetDirectoryName(document.FullPath)!))));
        }
    }

    private static Scenario Read(string name) => ScenarioReader.Read(Shipped.Scenario(name));

    private static ReportInput InputOf(string file)
    {
        var scenario = Read(file);
        var positions = file == Scenarios[0].File ? PositionSweep.Run(scenario.Study, scenario.Study.Layouts[0], Positions, cancellation: TestContext.Current.CancellationToken) : null;
        var result = Comparison.Record(scenario.Study, cancellation: TestContext.Current.CancellationToken);
        var studies = ReportStudies.Run(scenario.Study, scenario.Tuning, cancellation: TestContext.Current.CancellationToken);
        var verdict = Verdict.Of([new ComparisonFindings(result.Result)], TestContext.Current.CancellationToken);
        return new ReportInput
        {
            Scenario = scenario,
            Comparison = result,
            Verdict = verdict,
            Changes = verdict.AllChanges(TestContext.Current.CancellationToken),
            Studies = studies,
            Robust = studies.Tuning?.Found is { } tuning ? StudyAnswer.Of(() => RobustTuning.Run(tuning, ScatterReader.Read(ScenarioTemplate.Read(Shipped.Scenario(file))), cancellation: TestContext.Current.CancellationToken)) : null,
            Positions = positions,
        };
    }

    private void Add(string scenario, Figure figure)
    {
        var name = $"{scenario}-{figure.FileName}";
        var drawn = PngRenderer.Render(figure with { Size = Size });
        var path = Shipped.PathOf("docs", "images", name);
        if (Environment.GetEnvironmentVariable("ROLLRIDE_UPDATE_DOCS") == "1")
            File.WriteAllBytes(path, drawn);
        Assert.True(File.Exists(path) && drawn.AsSpan().SequenceEqual(File.ReadAllBytes(path)), $"{path} is out of date; run the tests once with ROLLRIDE_UPDATE_DOCS=1.");
        Assert.True(_drawn.Add(name), $"Two figures would be called {name}.");
        _page.Append($"{figure.Subtitle}\n\n![{figure.Title.Replace('[', '(').Replace(']', ')')}](images/{name})\n\n");
    }
}
