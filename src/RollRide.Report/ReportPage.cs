using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using RollRide.Findings;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>Writes the report: one file that needs no other, no network and, to be read, no script.</summary>
public static class ReportPage
{
    // Longer, and the question is no longer read in one breath.
    private const int LongestList = 100;

    // The title of a figure stands below that of its chapter.
    private const double TitleSize = 15;

    /// <summary>Writes the page.</summary>
    /// <param name="input">What it is written from; at most <see cref="LayoutStyles.Count"/> layouts.</param>
    /// <param name="firstPage">Two figures and the test in words, for the first page.</param>
    /// <param name="argument">The chapters, in the order of the argument.</param>
    /// <param name="cancellation">Stops the writing.</param>
    /// <returns>The page, and the figures in it that are not frames of a slider.</returns>
    public static WrittenReport Write(ReportInput input, IChapter firstPage, IEnumerable<IChapter> argument, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(firstPage);
        ArgumentNullException.ThrowIfNull(argument);
        var (_, test, first) = firstPage.Write(input) ?? throw new ArgumentException("The first page has nothing to say.", nameof(firstPage));
        var chapters = argument
            .Select(chapter => chapter.Write(input))
            .OfType<Chapter>()
            .Select(chapter => chapter with { Figures = [.. chapter.Figures.Where(figure => first.All(shown => shown.FileName != figure.FileName))] })
            .ToArray();
        var places = FirstPage.Places(input);
        var pictures = new Dictionary<Figure, Html>(ReferenceEqualityComparer.Instance);
        (Figure Figure, string Prefix, FigurePlace Place)[] drawn = [.. first.Select((figure, i) => (figure, Prefix(figure), places[i])), .. chapters.SelectMany(Drawings)];
        Parallel.ForEach(drawn, new ParallelOptions { CancellationToken = cancellation }, drawing =>
        {
            var picture = drawing.Place.Picture(drawing.Figure with { TitleSize = TitleSize }, drawing.Prefix);
            lock (pictures)
                pictures.Add(drawing.Figure, picture);
        });
        var warnings = Warnings(input);
        var script = Resource("report.js");
        var page = Html.Of(
            $"""
            <!DOCTYPE html>
            <html lang="en">
            <head>
            <meta charset="utf-8">
            <meta name="viewport" content="width=device-width, initial-scale=1">
            <meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; font-src data:; img-src data:; script-src 'sha256-{Html.Trusted(Hash(script))}'">
            <meta name="generator" content="RollRide {input.Study.Provenance.Version}">
            <title>{input.Study.Provenance.Scenario}</title>
            <style>
            {Html.Trusted(WebFont.Rules)}{Html.Trusted(Resource("report.css"))}</style>
            </head>
            <body>
            <main>
            {FirstPage.Write(input, test[0], Question(input.Study), warnings.Length, first.Select(figure => pictures[figure]))}
            <div id="controls" hidden></div>
            {Findings(input)}
            {Html.Join(chapters.Select((chapter, i) => Section(chapter, i, OneOfSeveralLoads(input), pictures)))}
            {Closing(input, warnings)}
            </main>
            <script>{Html.Trusted(script)}</script>
            </body>
            </html>

            """);
        return new WrittenReport(page.Markup, [.. first.Concat(chapters.SelectMany(chapter => chapter.Figures)).Select(figure => figure with { Size = input.Size })]);
    }

    private static IEnumerable<(Figure Figure, string Prefix, FigurePlace Place)> Drawings(Chapter chapter) =>
        FigurePlace.Of(chapter.Figures).Select(placed => (placed.Figure, Prefix(placed.Figure), placed.Place))
            .Concat(chapter.Frames?.Frames.Select((frame, i) => (frame.Figure, string.Create(CultureInfo.InvariantCulture, $"frame-{i}"), FigurePlace.Whole)) ?? []);

    private static string Prefix(Figure figure) => Path.GetFileNameWithoutExtension(figure.FileName);

    private static Html Findings(ReportInput input) => Html.Of(
        $"""
        <section>
        <h2>What the runs show{(OneOfSeveralLoads(input) is { } load ? Html.Of($" <small>in load state “{load}”</small>") : default)}</h2>
        {List(SeedConclusions.OfComparison(input.Comparison.Result, input.Seeds).Except(VehicleConclusions.Of(input.Comparison.Result)))}
        {ComparisonTable.Write(input)}
        </section>{LoadStateTable.Write(input)}
        """);

    private static string Question(StudyCase study)
    {
        var names = study.Layouts.Select(layout => $"“{layout.Name}”").ToArray();
        if (names.Length == 1)
            return $"{study.Vehicle.Name}: what does {names[0]} do on this test?";
        var places = study.Layouts.DistinctBy(layout => (Math.Round(layout.Fitting.HeaveRatio, 6), Math.Round(layout.Fitting.RollRatio, 6))).Count();
        var dampers = study.Layouts.SelectMany(layout => new[] { layout.Damper, layout.On(Mounting.Side.Right).Damper }).Distinct().Count();
        var asked = (places > 1, dampers > 1) switch
        {
            (true, true) => "where should the dampers sit, and how should they be valved",
            (false, true) => "how should the dampers be valved",
            _ => "where should the dampers sit",
        };
        var listed = $"{string.Join(", ", names.SkipLast(1))} or {names[^1]}";
        return listed.Length <= LongestList
            ? $"{study.Vehicle.Name}: {asked} – {listed}?"
            : string.Create(CultureInfo.InvariantCulture, $"{study.Vehicle.Name}: {asked} – which of {names.Length} layouts?");
    }

    /// <summary>The load state of the curves, where the decision is over several.</summary>
    private static string? OneOfSeveralLoads(ReportInput input) => input.Verdict.States.Count > 1 ? input.Study.Load?.Name : null;

    private static Html Section(Chapter chapter, int index, string? load, Dictionary<Figure, Html> pictures) => Html.Of(
        $"""
        <section id="chapter-{index}">
        <h2>{chapter.Title}{(load is null || chapter.IsOfAllLoads ? default : Html.Of($" <small>in load state “{load}”</small>"))}</h2>
        {Html.Join(chapter.Text.Select(text => Html.Of($"<p>{PlotText.WithUnits(text)}</p>\n")))}
        {(chapter.Figures.IsEmpty ? default : Html.Of($"<div class=\"figures\">{Html.Join(chapter.Figures.Select(figure => pictures[figure]))}</div>"))}
        {(chapter.Frames is { } frames ? FramesOf(frames, pictures) : default)}
        {chapter.Table}
        {(chapter.Notes.Length > 0 ? List(chapter.Notes) : default)}
        </section>

        """);

    private static Html FramesOf(FrameSet set, Dictionary<Figure, Html> pictures) => Html.Of(
        $"""
        <div class="frames" data-label="{set.Label}" data-start="{set.Start}">
        {Html.Join(set.Frames.Select((frame, i) => Html.Of($"<div class=\"frame\" data-value=\"{frame.Value}\"{(i == set.Start ? default : Html.Of($" hidden"))}>{pictures[frame.Figure]}</div>\n")))}
        </div>
        """);

    private static string[] Warnings(ReportInput input) =>
    [
        .. input.Scenario.Warnings,
        .. from state in input.Verdict.States
           let load = state.Study.Load is { } known ? $", load state {known.Name}" : ""
           from layout in state.Result.Layouts
           from warning in RunWarnings.Of(state.Study, layout)
           select $"{layout.Name}{load}{input.OnShownRoad}: {warning}",
    ];

    private static Html Closing(ReportInput input, string[] warnings) => Html.Of(
        $"""
        <section>
        <h2>What to do next</h2>
        {List(NextSteps.Of(input.Verdict, input.Studies.Tuning?.Found))}
        </section>
        {(warnings.Length > 0 ? Html.Of($"<section class=\"warnings\">\n<h2>Warnings</h2>\n{List(warnings)}\n</section>") : default)}
        {InputsTable.Write(input)}
        <div class="pairs">
        <section>
        <h2>Assumptions</h2>
        {List(Assumptions.Of(input.Study))}
        </section>
        <div>
        <section>
        <h2>Cautions</h2>
        {List(Cautions.All)}
        </section>
        <section class="origin">
        <h2>Where the numbers come from</h2>
        {Traceability.Write(input)}
        </section>
        </div>
        </div>
        """);

    private static Html List(IEnumerable<string> items) =>
        Html.Of($"<ul>{Html.Join(items.Select(item => Html.Of($"<li>{PlotText.WithUnits(item)}</li>\n")))}</ul>");

    private static string Resource(string name)
    {
        using var stream = typeof(ReportPage).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The assembly lacks its {name}.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    private static string Hash(string script) => Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(script)));
}
