using System.Text;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Report;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Cli;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Docs;

/// <summary>Keeps docs/gallery.md and its pictures what the program draws of the shipped scenarios; ROLLRIDE_UPDATE_DOCS=1 writes them anew.</summary>
public class GalleryTests
{
    private const int Positions = 5;

    // Half of a slide each way: small files, and still readable.
    private static readonly PlotSize Size = new(800, 450);

    [Fact]
    public void Gallery_shows_every_figure_of_the_report_as_it_is_drawn_now()
    {
        var page = new StringBuilder(
            """
            # Gallery

            Every figure that a report can hold, drawn from the shipped scenarios. The page and its pictures are written by
            `ROLLRIDE_UPDATE_DOCS=1 dotnet test RollRide.sln`, and the same test without that variable compares them. How to read
            each figure stands in the [guide](guide.md#reading-the-figures).


            """);
        var van = Read("bump-then-corner.json");
        var comparison = Comparison.Run(van.Study, cancellation: TestContext.Current.CancellationToken);
        var input = new ReportInput
        {
            Scenario = van,
            Comparison = comparison,
            Positions = PositionSweep.Run(van.Study, van.Study.Layouts[0], Positions, cancellation: TestContext.Current.CancellationToken),
        };
        foreach (var chapter in ChapterList.InOrderOfArgument.Select(chapter => chapter.Write(input, TestContext.Current.CancellationToken)).OfType<Chapter>())
        {
            page.Append($"## {chapter.Title}\n\n");
            foreach (var figure in chapter.Figures.Concat(chapter.Frames is { } frames ? [frames.Frames[frames.Start].Figure] : []))
                Add(page, "van", figure);
        }

        page.Append("## Other axles\n\n");
        Add(page, "bus", MountsFigure.Build(Read("independent-front.json").Study));
        Add(page, "lorry", MountsFigure.Build(Read("dual-tyre.json").Study));
        StoredText.Check(page.ToString().TrimEnd('\n') + "\n", Shipped.PathOf("docs", "gallery.md"));
    }

    private static Scenario Read(string name) => ScenarioReader.Read(Shipped.Scenario(name));

    private static void Add(StringBuilder page, string scenario, Figure figure)
    {
        var name = $"{scenario}-{figure.FileName}";
        var drawn = PngRenderer.Render(figure with { Size = Size });
        var path = Shipped.PathOf("docs", "images", name);
        if (Environment.GetEnvironmentVariable("ROLLRIDE_UPDATE_DOCS") == "1")
            File.WriteAllBytes(path, drawn);
        Assert.True(File.Exists(path) && drawn.AsSpan().SequenceEqual(File.ReadAllBytes(path)), $"{path} is out of date; run the tests once with ROLLRIDE_UPDATE_DOCS=1.");
        page.Append($"{figure.Subtitle}\n\n![{figure.Title.Replace('[', '(').Replace(']', ')')}](images/{name})\n\n");
    }
}
