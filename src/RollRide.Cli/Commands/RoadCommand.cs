using System.CommandLine;
using System.Globalization;
using System.Security.Cryptography;
using RollRide.Cli.Terminals;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Roads;
using RollRide.Scenarios;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Cli.Commands;

/// <summary>Describes a road: class, spectrum, roughness index, coherence of its tracks.</summary>
internal static class RoadCommand
{
    private const double DefaultTrack = 1.5;

    // The longest road at the standard spacing has fewer.
    private const int MostSamples = 10_000_000;

    public static Command Create()
    {
        var file = new Argument<string>("file") { Description = "a scenario (.json), or a measured profile (.csv) with distance_m and left_mm, right_mm or both" };
        var length = Numeric("--length", "with a random road: how much of it to look at, m", 10_000, 100, 1_000_000);
        var step = Numeric("--step", "with a scenario: sample spacing, m", 0.125, 0.01, 0.3);
        var track = Numeric("--track", "with a measured profile: distance between the tracks, m", DefaultTrack, 0.2, 5);
        var detrend = new Option<bool>("--detrend") { Description = "remove each track's mean gradient from the profile written" };
        var output = ScenarioInput.Out();
        var noPlots = ScenarioInput.NoPlots();
        var figures = new FigureOptions();
        var json = ScenarioInput.Json();
        var command = new Command("road",
            """
            Describe a road: its class by ISO 8608, spectrum, International Roughness Index, and the coherence of its tracks. Writes
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
            var isMeasured = Path.GetExtension(path).Equals(".csv", StringComparison.OrdinalIgnoreCase);
            var road = isMeasured ? Measured(parsed, path, parsed.GetValue(track), cancellation) : OfScenario(parsed, path, parsed.GetValue(length), parsed.GetValue(step), cancellation);
            void NeedsNo(Option option, bool isUseless, string why)
            {
                if (isUseless && parsed.GetResult(option) is { Implicit: false })
                    throw new DataFileException(new DataFileFault(path, null, option.Name, null, why));
            }

            NeedsNo(step, isMeasured, "has no meaning for a measured profile, which has its own spacing");
            NeedsNo(length, !road.IsRandom, "is for a random road; this one has a length of its own");
            NeedsNo(track, !isMeasured, "has no meaning for a scenario, whose vehicle has a track");
            NeedsNo(track, road.Track is null, "has no meaning where one track was measured");
            var found = Analyse(path, parsed.GetValue(detrend) ? road.Profile.Detrended() : road.Profile, road);
            var tables = new List<(string Name, Action<TextWriter> Write)> { ("road-profile.csv", writer => RoadTables.WriteProfile(writer, found.Profile)) };
            if (found.Analysis.Spectrum is { } spectrum)
                tables.Add(("road-spectrum.csv", writer => RoadTables.WriteSpectrum(writer, spectrum, found.Isotropic)));
            var folder = StudyFolder.Write(
                parsed.GetValue(output)!,
                ("road.json", writer => RoadSummary.Write(writer, road.Provenance, found, road.Remarks, road.Warnings)),
                tables,
                folder =>
                {
                    if (!parsed.GetValue(noPlots))
                        figures.AddFiles(parsed, folder, road.Provenance.Scenario, road.Output, Figures(road, found), cancellation);
                },
                cancellation);
            if (parsed.GetValue(json))
                parsed.InvocationConfiguration.Output.Write(folder.Summary);
            else
                Report(parsed.InvocationConfiguration.Output, road, found, folder);
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

    private static RoadOfFile Measured(ParseResult parsed, string path, double track, CancellationToken cancellation)
    {
        var measured = MeasuredProfileReader.Read(path, cancellation);
        ScenarioInput.ShowWarnings(parsed, measured.Warnings);
        var checksum = Convert.ToHexStringLower(SHA256.HashData(InputFile.ReadAllBytes(path, cancellation)));
        return new RoadOfFile
        {
            Provenance = new Provenance("Measured profile", Path.GetFileName(path), checksum, Provenance.ProgramVersion),
            Warnings = measured.Warnings,
            Profile = measured.Profile,
            Track = measured.IsOneTrack ? null : track,
            Output = new OutputFile(),
        };
    }

    private static RoadOfFile OfScenario(ParseResult parsed, string path, double length, double step, CancellationToken cancellation)
    {
        var scenario = ScenarioInput.WithWarningsShown(parsed, ScenarioReader.Read(path, cancellation: cancellation));
        var study = scenario.Study;
        var samples = RoadStudy.LengthOf(study.Manoeuvre, length) / step;
        if (samples > MostSamples)
        {
            throw new DataFileException(new DataFileFault(path, null, "--step", null, Invariant(
                $"this makes {samples:F0} samples a track; at most {MostSamples} are accepted, which take some 1 GB of memory: choose a wider --step or a shorter road")));
        }

        var random = study.Manoeuvre.Road.Unevenness;
        return new RoadOfFile
        {
            Provenance = random is null ? study.Provenance : study.Provenance with { Scenario = Invariant($"{study.Provenance.Scenario}, seed {random.Seed}") },
            Warnings = scenario.Warnings,
            Profile = RoadStudy.ProfileOf(study.Manoeuvre, length, step, cancellation),
            Track = study.Vehicle.Track,
            Output = scenario.Output,
            IsRandom = random is not null,
            Waviness = random?.Spectrum.Waviness,
            Road = study.Manoeuvre.Road,
            Remarks = [.. RoadConclusions.LeftOut(study.Manoeuvre.Road)],
        };
    }

    private static RoadStudy Analyse(string path, RoadProfile profile, RoadOfFile road)
    {
        try
        {
            return RoadStudy.Of(profile, road.Track, road.Waviness);
        }
        catch (ArgumentException e)
        {
            throw new DataFileException(new DataFileFault(path, null, null, null, e.Message.Split(" (Parameter", StringSplitOptions.None)[0]));
        }
    }

    private static List<Figure> Figures(RoadOfFile road, RoadStudy found)
    {
        var footer = $"{road.Provenance.Scenario} · {road.Provenance.File} · RollRide {Provenance.ProgramVersion}\n{Cautions.OneLine}";
        var figures = new List<Figure> { RoadFigures.Profile(found.Profile, found.Analysis, footer, road.Road) };
        if (found.Analysis.Spectrum is { } spectrum)
            figures.Add(RoadFigures.Spectrum(spectrum, footer));
        if (found is { Analysis.Spectrum: { } compared, Isotropic: { } isotropic })
            figures.Add(RoadFigures.Coherence(compared, isotropic, footer));
        return figures;
    }

    private static void Report(TextWriter output, RoadOfFile road, RoadStudy found, WrittenFolder folder)
    {
        var (profile, analysis) = (found.Profile, found.Analysis);
        output.WriteLine($"{road.Provenance.Scenario} — {road.Provenance.File}");
        output.WriteLine();
        var table = new TextTable("Road", "value", "unit");
        void Row(string label, double value, string format, string unit) => table.Add(label, value.ToString(format, CultureInfo.InvariantCulture), unit);
        Row("Length", profile.Length, "F0", "m");
        Row("Sample spacing", Unit.Millimetre.Of(profile.Step), "F1", "mm");
        if (analysis.Spectrum is { } spectrum)
        {
            Row("Longest wavelength resolved", spectrum.LongestWavelength, "F0", "m");
            table.Add("Class (ISO 8608)", spectrum.Class.ToString());
            Row("Gd(n0), slope of 2", spectrum.ClassDensity * 1e6, "G4", "1e-6 m³");
            Row("Gd(n0), straight line", spectrum.ReferenceDensity * 1e6, "G4", "1e-6 m³");
            Row("Waviness of the line", spectrum.Waviness, "F2", "");
            Row("Departure from the line, RMS", spectrum.FitDeviationDb, "F1", "dB");
        }
        else
        {
            table.Add("Class (ISO 8608)", "–");
        }

        table.AddGap();
        Row("Roughness index (IRI), left", analysis.LeftIndex, "F2", "m/km");
        Row("Roughness index (IRI), right", analysis.RightIndex, "F2", "m/km");
        Row("Roughness index, mean of both", analysis.MeanIndex, "F2", "m/km");
        Row("Roughness index of the mean profile", analysis.MeanProfileIndex, "F2", "m/km");
        if (found is { Analysis.Spectrum: { } compared, Isotropic: { } isotropic })
            AddCoherence(table, compared, isotropic);
        table.Write(output);
        output.WriteLine();
        foreach (var sentence in RoadConclusions.Of(analysis).Concat(road.Remarks))
            output.WriteLine(sentence);
        output.WriteLine();
        output.WriteLine($"Written to {folder.Path}: {string.Join(", ", folder.Files)}");
    }

    private static void AddCoherence(TextTable table, MeasuredSpectrum spectrum, TrackCoherence isotropic)
    {
        table.AddGap();
        foreach (var wavelength in (double[])[50, 20, 10, 5, 2])
        {
            var band = spectrum.Bands.Select((b, i) => (b, i)).Where(pair => pair.b.Low <= 1 / wavelength && 1 / wavelength < pair.b.High).ToArray();
            if (band.Length == 1)
                table.Add(Invariant($"Coherence γ at {wavelength} m (isotropic)"), Invariant($"{spectrum.Coherence[band[0].i]:F2} ({isotropic.Gamma(band[0].b.Centre):F2})"));
        }
    }

    /// <summary>A road to be looked at, and where it comes from.</summary>
    private sealed record RoadOfFile
    {
        public required Provenance Provenance { get; init; }

        public required IReadOnlyList<string> Warnings { get; init; }

        public required RoadProfile Profile { get; init; }

        /// <summary>Distance between the tracks, m; null where one track was measured.</summary>
        public required double? Track { get; init; }

        public required OutputFile Output { get; init; }

        public bool IsRandom { get; init; }

        /// <summary>The waviness that the road was made with; null where it is to be found.</summary>
        public double? Waviness { get; init; }

        /// <summary>The scenario's road, with its obstacles; null for a measured profile.</summary>
        public Road? Road { get; init; }

        /// <summary>What was left out, in words.</summary>
        public IReadOnlyList<string> Remarks { get; init; } = [];
    }
}
