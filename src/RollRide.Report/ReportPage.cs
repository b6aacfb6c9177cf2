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
    private const int SentencesOfAnswer = 3;

    // Longer, and the question is no longer read in one breath.
    private const int LongestList = 100;

    /// <summary>Writes the page.</summary>
    /// <param name="input">What it is written from; at most <see cref="Theme.LayoutCount"/> layouts.</param>
    /// <param name="argument">The chapters, in the order of the argument.</param>
    /// <param name="cancellation">Stops the writing.</param>
    /// <returns>The page, and the figures in it that are not frames of a slider.</returns>
    public static WrittenReport Write(ReportInput input, IEnumerable<IChapter> argument, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(input);
        ArgumentNullException.ThrowIfNull(argument);
        var chapters = argument
            .Select(chapter => chapter.Write(input))
            .OfType<Chapter>()
            .Select(chapter => chapter with { Figures = [.. chapter.Figures.Select(figure => figure with { Size = input.Size })] })
            .ToArray();
        var pictures = new Dictionary<Figure, Html>(ReferenceEqualityComparer.Instance);
        var drawn = chapters.SelectMany(Drawings).ToArray();
        Parallel.ForEach(drawn, new ParallelOptions { CancellationToken = cancellation }, drawing =>
        {
            var picture = Html.Trusted(SvgRenderer.Render(drawing.Figure, SvgText.Letters, drawing.Prefix));
            lock (pictures)
                pictures.Add(drawing.Figure, picture);
        });
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
            {Opening(input)}
            <div id="controls" hidden></div>
            {Html.Join(chapters.Select((chapter, i) => Section(chapter, i, pictures)))}
            {Closing(input)}
            </main>
            <script>{Html.Trusted(script)}</script>
            </body>
            </html>

            """);
        return new WrittenReport(page.Markup, [.. chapters.SelectMany(chapter => chapter.Figures)]);
    }

    private static IEnumerable<(Figure Figure, string Prefix)> Drawings(Chapter chapter) =>
        chapter.Figures.Select(figure => (figure, Path.GetFileNameWithoutExtension(figure.FileName)))
            .Concat(chapter.Frames?.Frames.Select((frame, i) => (frame.Figure, string.Create(CultureInfo.InvariantCulture, $"frame-{i}"))) ?? []);

    private static Html Opening(ReportInput input)
    {
        var sentences = SeedConclusions.OfComparison(input.Comparison.Result, input.Seeds);
        var rest = sentences.Skip(SentencesOfAnswer).ToArray();
        return Html.Of(
            $"""
            <header>
            <p class="overline">{input.Study.Provenance.Scenario}{(Results.LoadStates.Heading(input.Study) is { Length: > 0 } state ? $" · {state}" : "")}</p>
            <h1>{Question(input.Study)}</h1>
            </header>
            <section class="answer">
            <h2>The answer</h2>
            {Html.Join(sentences.Take(SentencesOfAnswer).Select(sentence => Html.Of($"<p>{sentence}</p>\n")))}
            {(rest.Length > 0 ? List(rest) : default)}
            </section>
            <section>
            <h2>Side by side</h2>
            {ComparisonTable.Write(input)}
            </section>{LoadStateTable.Write(input)}
            """);
    }

    private static string Question(StudyCase study)
    {
        var names = study.Layouts.Select(layout => $"'{layout.Name}'").ToArray();
        if (names.Length == 1)
            return $"{study.Vehicle.Name}: what does {names[0]} do over bumps and in the corner?";
        var places = study.Layouts.DistinctBy(layout => (Math.Round(layout.Fitting.HeaveRatio, 6), Math.Round(layout.Fitting.RollRatio, 6))).Count();
        var dampers = study.Layouts.Select(layout => layout.Damper).Distinct().Count();
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

    private static Html Section(Chapter chapter, int index, Dictionary<Figure, Html> pictures) => Html.Of(
        $"""
        <section id="chapter-{index}">
        <h2>{chapter.Title}</h2>
        {Html.Join(chapter.Text.Select(text => Html.Of($"<p>{text}</p>\n")))}
        {Html.Join(chapter.Figures.Select(figure => Html.Of($"<figure>{pictures[figure]}</figure>\n")))}
        {(chapter.Frames is { } frames ? FramesOf(frames, pictures) : default)}
        {chapter.Table}
        {(chapter.Notes.Length > 0 ? List(chapter.Notes) : default)}
        </section>

        """);

    private static Html FramesOf(FrameSet set, Dictionary<Figure, Html> pictures) => Html.Of(
        $"""
        <div class="frames" data-label="{set.Label}" data-start="{set.Start}">
        {Html.Join(set.Frames.Select((frame, i) => Html.Of($"<figure class=\"frame\" data-value=\"{frame.Value}\"{(i == set.Start ? default : Html.Of($" hidden"))}>{pictures[frame.Figure]}</figure>\n")))}
        </div>
        """);

    private static Html Closing(ReportInput input)
    {
        var states = input.LoadStates.Count == 0 ? [new ComparisonFindings(input.Comparison.Result)] : input.LoadStates;
        var warnings = input.Scenario.Warnings.Concat(
            from state in states
            let load = state.Study.Load is { } known ? $", load state {known.Name}" : ""
            from layout in state.Result.Layouts
            from warning in RunWarnings.Of(state.Study, layout)
            select $"{layout.Name}{load}{input.OnShownRoad}: {warning}").ToArray();
        return Html.Of(
            $"""
            <section>
            <h2>Assumptions</h2>
            {List(Assumptions.Of(input.Study))}
            </section>
            {(warnings.Length > 0 ? Html.Of($"<section class=\"warnings\">\n<h2>Warnings</h2>\n{List(warnings)}\n</section>") : default)}
            <section>
            <h2>Cautions</h2>
            {List(Cautions.All)}
            </section>
            <section>
            <h2>Where the numbers come from</h2>
            {Traceability.Write(input)}
            </section>
            """);
    }

    private static Html List(IEnumerable<string> items) =>
        Html.Of($"<ul>{Html.Join(items.Select(item => Html.Of($"<li>{item}</li>\n")))}</ul>");

    private static string Resource(string name)
    {
        using var stream = typeof(ReportPage).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"The assembly lacks its {name}.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }

    private static string Hash(string script) => Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(script)));
}
