using System.Collections.Immutable;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Plots;
using RollRide.Studies;

namespace RollRide.Report;

/// <summary>The page that decides: the decision, the table that it rests on, two figures, and in a line each the vehicle, the test and the cautions.</summary>
internal static class FirstPage
{
    // A longer decision, or one with warnings of wheel lift below it, takes smaller letters; a still longer one and such warnings take lower figures, so that all stays on one page.
    private const int LongestLarge = 280, LongestRoomy = 420;

    private const int Height = 640, RoomyHeight = 720;

    /// <summary>The two figures, side by side across a page, as high as the text leaves room for.</summary>
    /// <param name="input">What the report is written from.</param>
    public static ImmutableArray<FigurePlace> Places(ReportInput input)
    {
        var height = VerdictWords.Headline(input.Verdict) is { Length: > LongestRoomy } || WheelLifts(input).Any() ? Height : RoomyHeight;
        return [new("half", 1414, height), new("half", 1010, height)];
    }

    /// <summary>Writes the page.</summary>
    /// <param name="input">What the report is written from.</param>
    /// <param name="test">What was driven, in words.</param>
    /// <param name="question">What the scenario asks.</param>
    /// <param name="warnings">How many warnings there are.</param>
    /// <param name="figures">Its figures, drawn.</param>
    public static Html Write(ReportInput input, string test, string question, int warnings, IEnumerable<Html> figures)
    {
        var source = input.Study.Provenance;
        var overline = string.Join(" · ", new[] { source.Scenario, Loads(input), source.Author, source.Date }.Where(part => !string.IsNullOrEmpty(part)));
        var headline = VerdictWords.Headline(input.Verdict);
        string[] lifts = [.. WheelLifts(input)];
        return Html.Of(
            $"""
            <section class="{(lifts.Length > 0 ? "first full" : "first")}">
            <header>
            <p class="overline">{overline}</p>
            <h1>{question}</h1>
            </header>
            {(headline is null ? default : Html.Of($"<p class=\"{(headline.Length > LongestLarge || lifts.Length > 0 ? "decision long" : "decision")}\">{PlotText.WithUnits(headline)}</p>\n<p class=\"basis\">{PlotText.WithUnits(VerdictWords.Basis(input.Verdict, input.Studies.Tuning?.Found, input.Robust?.Found))}</p>"))}
            {Html.Join(lifts.Select(sentence => Html.Of($"<p class=\"lift\">{sentence}</p>\n")))}
            {VerdictTable.Write(input.Verdict, input.Styles)}
            <div class="figures">{Html.Join(figures)}</div>
            <dl>
            <dt>Vehicle</dt><dd>{Vehicle(input)}</dd>
            <dt>Test</dt><dd>{Sentence(test)}{RandomRoad(input)}</dd>
            <dt>Cautions</dt><dd>{Unchecked(input.Study)}{(warnings > 0 ? FormattableString.Invariant($"{warnings} warning{(warnings > 1 ? "s stand" : " stands")} under “Warnings”. ") : "")}{(input.Study.Manoeuvre.Road.Unevenness is not null && input.Seeds.Count == 0 ? "One seed of the random road: another road of its class gives other numbers (--seeds 8 shows how much). " : "")}{Cautions.OneLine}</dd>
            </dl>
            </section>
            """);
    }

    /// <summary>What a decision about places would rest on and this one does not.</summary>
    private static string Unchecked(StudyCase study) => (study.Placement, study.Vehicle.Envelope) switch
    {
        (null, null) => "Whether the dampers fit, and whether their strokes suffice, was not checked. ",
        (null, _) => "Whether the dampers fit was not checked. ",
        _ => "",
    };

    /// <summary>The random road, so that the test can be repeated, and what of it the ride's figures leave out.</summary>
    private static string RandomRoad(ReportInput input)
    {
        var manoeuvre = input.Study.Manoeuvre;
        if (manoeuvre.Road.Unevenness is not { } unevenness)
            return "";
        var roads = input.Seeds.Count > 0 ? SeedConclusions.Roads(input.Seeds) : FormattableString.Invariant($"seed {unevenness.Seed}");
        return $" Random road: {RoadWords.Unevenness(unevenness.Spectrum)}, {roads}{(RoadWords.OfObstacles(manoeuvre.Road) is { } obstacles ? $", with {obstacles}" : "")}. {RideWords.LeftOut(manoeuvre)}";
    }

    /// <summary>Which load states decide, and which of them the curves show.</summary>
    private static string Loads(ReportInput input) => input.Verdict.States.Count == 1
        ? Results.LoadStates.Heading(input.Study)
        : FormattableString.Invariant($"decided over {input.Verdict.States.Count} load states; curves over time in “{input.Study.Load!.Name}”");

    private static IEnumerable<string> WheelLifts(ReportInput input) =>
        from state in input.Verdict.States
        from sentence in SeedConclusions.OnWheelLift(state)
        select state.Study.Load is { } load && input.Verdict.States.Count > 1 ? $"Load state “{load.Name}”: {sentence}" : sentence;

    private static string Vehicle(ReportInput input)
    {
        var vehicle = input.Study.Vehicle;
        var masses = input.Verdict.States.Select(state => state.Study.Load is { } load ? FormattableString.Invariant($"{load.Name} {load.Of(vehicle.Body).Mass:F0} kg") : FormattableString.Invariant($"{vehicle.Body.Mass:F0} kg"));
        return FormattableString.Invariant($"{vehicle.Name}: {vehicle.Suspension.Name}, track {Unit.Millimetre.Show(vehicle.Track):F0}, sprung mass {string.Join(", ", masses)}.");
    }

    private static string Sentence(string text) => $"{char.ToUpperInvariant(text[0])}{text[1..]}.";
}
