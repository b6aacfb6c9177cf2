using System.CommandLine;
using System.Globalization;
using System.Security.Cryptography;
using RollRide.DataFiles;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Roads;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Says what a road is: class, spectrum, roughness index, likeness of its tracks.</summary>
internal static class RoadCommand
{
    private const double DefaultTrack = 1.5;

    public static Command Create()
    {
        var file = new Argument<string>("file") { Description = "a scenario (.json), or a measured profile (.csv) with distance_m and left_mm, right_mm or both" };
        var length = Numeric("--length", "with a random road: how much of it to look at, m", 10_000, 100, 1_000_000);
        var step = Numeric("--step", "with a scenario: sample spacing, m", 0.125, 0.01, 0.3);
        var track = Numeric("--track", "with a measured profile: distance between the tracks, m", DefaultTrack, 0.2, 5);
        var detrend = new Option<bool>("--detrend") { Description = "take each track's straight gradient off the profile written" };
        var output = ScenarioInput.Out();
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var command = new Command("road",
            """
            Say what a road is: its class by ISO 8608, spectrum, International Roughness Index, and how alike its tracks are. Writes
            road.json, the profile and the spectrum as CSV, and figures.

            Example:
              rollride road scenarios/broken-country-road.json --out road
            """)
        {
            file, length, step, track, detrend, output, noPlots, json,
        };
        figures.AddTo(command);
        command.SetAction((parsed, cancellation) =>
        {
            var path = parsed.GetRequiredValue(file);
            var road = Path.GetExtension(path).Equals(".csv", StringComparison.OrdinalIgnoreCase)
                ? Measured(parsed, path, parsed.GetValue(track))
                : OfScenario(parsed, path, parsed.GetValue(length), parsed.GetValue(step));
            var profile = parsed.GetValue(detrend) ? road.Profile.Detrended() : road.Profile;
            var analysis = Analyse(path, profile);
            void Summarise(TextWriter writer) => RoadSummary.Write(writer, road.Provenance, profile, analysis, road.Track, road.Warnings);
            var folder = StudyFolder.Write(
                parsed.GetValue(output)!,
                [
                    ("road.json", Summarise),
                    ("road-profile.csv", writer => RoadTables.WriteProfile(writer, profile)),
                    ("road-spectrum.csv", writer => RoadTables.WriteSpectrum(writer, analysis, TrackCoherence.Isotropic(road.Track))),
                ],
                folder =>
                {
                    if (!parsed.GetValue(noPlots))
                        figures.AddFiles(parsed, folder, road.Provenance.Scenario, road.Output, Figures(road, profile, analysis), cancellation);
                },
                cancellation);
            if (parsed.GetValue(json))
                Summarise(parsed.InvocationConfiguration.Output);
            else
                Report(parsed.InvocationConfiguration.Output, road, profile, analysis, folder);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    private static Option<double> Numeric(string name, string description, double standard, double lowest, double highest) => new(name)
    {
        Description = description,
        HelpName = "number",
        DefaultValueFactory = _ => standard,
        CustomParser = result => Number.Parse(result, lowest, highest) ?? standard,
    };

    private static RoadOfFile Measured(ParseResult parsed, string path, double track)
    {
        var (profile, warnings) = MeasuredProfileReader.Read(path);
        foreach (var warning in warnings)
            parsed.InvocationConfiguration.Error.WriteLine($"warning: {warning}");
        var checksum = Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(path)));
        return new RoadOfFile(new Provenance("Measured profile", Path.GetFileName(path), checksum, Provenance.ProgramVersion), warnings, profile, track, new OutputFile());
    }

    private static RoadOfFile OfScenario(ParseResult parsed, string path, double length, double step)
    {
        var scenario = ScenarioReader.Read(path);
        foreach (var warning in scenario.Warnings)
            parsed.InvocationConfiguration.Error.WriteLine($"warning: {warning}");
        var study = scenario.Study;
        var road = study.Manoeuvre.Road;
        var run = road.Speed * study.Manoeuvre.Duration;
        var profile = road.Unevenness?.ToProfile(length, step) ?? Sampled(road, run, step);
        var provenance = road.Unevenness is null ? study.Provenance
            : study.Provenance with { Scenario = string.Create(CultureInfo.InvariantCulture, $"{study.Provenance.Scenario}, seed {road.Unevenness.Seed}") };
        return new RoadOfFile(provenance, scenario.Warnings, profile, study.Vehicle.Track, scenario.Output);
    }

    private static RoadProfile Sampled(Road road, double length, double step)
    {
        var distances = Enumerable.Range(0, (int)(length / step) + 1).Select(i => i * step).ToArray();
        return new RoadProfile(step, [.. distances.Select(road.Left.Value)], [.. distances.Select(road.Right.Value)]);
    }

    private static RoadAnalysis Analyse(string path, RoadProfile profile)
    {
        try
        {
            return RoadAnalysis.Of(profile);
        }
        catch (ArgumentException e)
        {
            throw new DataFileException(new DataFileFault(path, null, null, null, e.Message.Split(" (Parameter", StringSplitOptions.None)[0]));
        }
    }

    private static IReadOnlyList<Figure> Figures(RoadOfFile road, RoadProfile profile, RoadAnalysis analysis)
    {
        var footer = $"{road.Provenance.Scenario} · {road.Provenance.File} · RollRide {Provenance.ProgramVersion}\n{Cautions.OneLine}";
        return [RoadFigures.Profile(profile, analysis, footer), RoadFigures.Spectrum(analysis, footer), RoadFigures.Coherence(analysis, road.Track, footer)];
    }

    private static void Report(TextWriter output, RoadOfFile road, RoadProfile profile, RoadAnalysis analysis, WrittenFolder folder)
    {
        output.WriteLine($"{road.Provenance.Scenario} — {road.Provenance.File}");
        output.WriteLine();
        var table = new TextTable("Road", "value", "unit");
        void Row(string label, double value, string format, string unit) => table.Add(label, value.ToString(format, CultureInfo.InvariantCulture), unit);
        Row("Length", profile.Length, "F0", "m");
        Row("Sample spacing", profile.Step * 1e3, "F1", "mm");
        Row("Longest wavelength resolved", 1 / analysis.Bands[0].Low, "F0", "m");
        table.Add("Class (ISO 8608)", analysis.Class.ToString());
        Row("Gd(n0), slope of 2", analysis.ClassDensity * 1e6, "G4", "1e-6 m³");
        Row("Gd(n0), straight line", analysis.ReferenceDensity * 1e6, "G4", "1e-6 m³");
        Row("Waviness of the line", analysis.Waviness, "F2", "");
        Row("Departure from the line, RMS", analysis.FitDeviationDb, "F1", "dB");
        table.AddGap();
        Row("Roughness index (IRI), left", analysis.LeftIndex, "F2", "m/km");
        Row("Roughness index (IRI), right", analysis.RightIndex, "F2", "m/km");
        Row("Roughness index, mean of both", analysis.MeanIndex, "F2", "m/km");
        Row("Roughness index of the mean profile", analysis.MeanProfileIndex, "F2", "m/km");
        table.AddGap();
        var isotropic = TrackCoherence.Isotropic(road.Track);
        foreach (var wavelength in (double[])[50, 20, 10, 5, 2])
        {
            var band = analysis.Bands.Select((b, i) => (b, i)).Where(pair => pair.b.Low <= 1 / wavelength && 1 / wavelength < pair.b.High).ToArray();
            if (band.Length == 1)
                table.Add($"Coherence γ at {wavelength.ToString(CultureInfo.InvariantCulture)} m (isotropic)", string.Create(CultureInfo.InvariantCulture, $"{analysis.Coherence[band[0].i]:F2} ({isotropic.Gamma(band[0].b.Centre):F2})"));
        }

        table.Write(output);
        output.WriteLine();
        foreach (var sentence in RoadConclusions.Of(analysis))
            output.WriteLine(sentence);
        output.WriteLine();
        output.WriteLine($"Written to {folder.Path}: {string.Join(", ", folder.Files)}");
    }

    private sealed record RoadOfFile(Provenance Provenance, IReadOnlyList<string> Warnings, RoadProfile Profile, double Track, OutputFile Output);
}
