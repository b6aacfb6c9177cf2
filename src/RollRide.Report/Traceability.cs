using System.Globalization;
using RollRide.Findings;
using RollRide.Numerics;

namespace RollRide.Report;

/// <summary>The table that tells from what, by what and how every number was made.</summary>
internal static class Traceability
{
    /// <summary>Writes the table.</summary>
    public static Html Write(ReportInput input)
    {
        var study = input.Study;
        var (source, solver) = (study.Provenance, study.Solver);
        List<(string Name, string Value)> rows =
        [
            ("Scenario", source.Scenario),
            .. source.Author is { } author ? [("Author", author)] : Array.Empty<(string, string)>(),
            .. source.Date is { } date ? [("Date", date)] : Array.Empty<(string, string)>(),
            ("File", source.File),
            ("SHA-256 of the file and all it names", source.Sha256),
            ("Program", $"RollRide {source.Version}"),
            ("Vehicle", study.Vehicle.Name),
            .. study.Load is { } load ? [("Load state of the chapters", load.Name)] : Array.Empty<(string, string)>(),
            ("Solver", Text($"relative tolerance {solver.RelativeTolerance:0.#e+0}, absolute {solver.AbsoluteTolerance:0.#e+0}, steps up to {Unit.Millisecond.Show(solver.MaximumStep):0.###}")),
            ("Length of the run", Text($"{study.Manoeuvre.Duration:0.###} s at {Unit.KilometrePerHour.Show(study.Manoeuvre.Road.Speed):0.#}")),
            ("Random numbers", RandomNumbers(input)),
            ("Damping ratios at", Text($"{study.Analysis.ReferenceVelocity:0.###} m/s damper velocity")),
            ("Method", string.Join(", ", input.Comparison.Layouts.Select(layout => layout.Statistics.Method).Distinct())),
            ("Steps", string.Join("; ", input.Comparison.Layouts.Select(layout => Text($"“{layout.Name}” {layout.Statistics.AcceptedSteps} taken, {layout.Statistics.RejectedSteps} repeated")))),
        ];
        return Html.Of($"<table class=\"trace\"><tbody>\n{Html.Join(rows.Select(row => Html.Of($"<tr><th scope=\"row\">{row.Name}</th><td>{row.Value}</td></tr>\n")))}</tbody></table>");
    }

    private static string RandomNumbers(ReportInput input)
    {
        if (input.Study.Manoeuvre.Road.Unevenness is not { } random)
            return "none";
        var road = Text($"road from seed {random.Seed}");
        return input.Seeds.Count > 0 ? $"{road}; mean and interval from {SeedConclusions.Roads(input.Seeds)}" : road;
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
