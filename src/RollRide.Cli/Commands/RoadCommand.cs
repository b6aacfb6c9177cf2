using System.CommandLine;
using System.Globalization;
using System.Security.Cryptography;
using RollRide.DataFiles;
using RollRide.Findings;
using RollRide.Plots;
using RollRide.Plots.Figures;
using RollRide.Results;
using RollRide.Roads;
using RollRide.Scenarios;
using RollRide.Studies;
using static System.FormattableString;

namespace RollRide.Cli.Commands;

/// <summary>Says what a road is: class, spectrum, roughness index, likeness of its tracks.</summary>
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
            var profile = parsed.GetValue(detrend) ? road.Profile.Detrended() : road.Profile;
            var analysis = Analyse(path, profile);
            var isotropic = analysis.Spectrum is null ? null : Isotropic(road, analysis.Spectrum);
            var tables = new List<(string Name, Action<TextWriter> Write)> { ("road-profile.csv", writer => RoadTables.WriteProfile(writer, profile)) };
            if (analysis.Spectrum is { } spectrum)
                tables.Add(("road-spectrum.csv", writer => RoadTables.WriteSpectrum(writer, spectrum, isotropic)));
            var folder = StudyFolder.Write(
                parsed.GetValue(output)!,
                ("road.json", writer => RoadSummary.Write(writer, road.Provenance, profile, analysis, road.Track, road.Remarks, road.Warnings)),
                tables,
                folder =>
                {
                    if (!parsed.GetValue(noPlots))
                        figures.AddFiles(parsed, folder, road.Provenance.Scenario, road.Output, Figures(road, profile, analysis, isotropic), cancellation);
                },
                cancellation);
            if (parsed.GetValue(json))
                parsed.InvocationConfiguration.Output.Write(folder.Summary);
            else
                Report(parsed.InvocationConfiguration.Output, road, profile, analysis, isotropic, folder);
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
        foreach (var warning in measured.Warnings)
            parsed.InvocationConfiguration.Error.WriteLine($"warning: {warning}");
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
        var scenario = ScenarioReader.Read(path, cancellation: cancellation);
        foreach (var warning in scenario.Warnings)
            parsed.InvocationConfiguration.Error.WriteLine($"warning: {warning}");
        var study = scenario.Study;
        var samples = (study.Manoeuvre.Road.Unevenness is null ? study.Manoeuvre.Road.Speed * study.Manoeuvre.Duration : length) / step;
        if (samples > MostSamples)
        {
            throw new DataFileException(new DataFileFault(path, null, "--step", null, Invariant(
                $"this makes {samples:F0} samples a track; at most {MostSamples} are accepted, which take some 1 GB of memory: choose a wider --step or a shorter road")));
        }

        var road = study.Manoeuvre.Road;
        var random = road.Unevenness;
        return new RoadOfFile
        {
            Provenance = random is null ? study.Provenance : study.Provenance with { Scenario = Invariant($"{study.Provenance.Scenario}, seed {random.Seed}") },
            Warnings = scenario.Warnings,
            Profile = random is null ? Sampled(road, road.Speed * study.Manoeuvre.Duration, step, cancellation) : (random with { ContactLength = 0 }).ToProfile(length, step, cancellation),
            Track = study.Vehicle.Track,
            Output = scenario.Output,
            IsRandom = random is not null,
            Waviness = random?.Spectrum.Waviness,
            Remarks = random is null ? [] : [.. RandomRemarks(random, road.HasEvents)],
        };
    }

    /// <summary>What is left out of the statistics of a random road, so that they are those of the road and of nothing else.</summary>
    private static IEnumerable<string> RandomRemarks(RandomRoad random, bool hasEvents)
    {
        if (random.ContactLength > 0)
            yield return Invariant($"The road itself, not averaged over the tyre's contact of {random.ContactLength * 1e3:0.#} mm as the vehicle meets it.");
        if (hasEvents)
            yield return "The random road alone: the scenario's obstacles and measured profile are left out.";
    }

    /// <summary>The road sampled finely, and from there at the spacing asked for: what that cannot show is left out and does not show as longer waves.</summary>
    private static RoadProfile Sampled(Road road, double length, double step, CancellationToken cancellation)
    {
        const double Finest = 0.01;
        var finer = step / Math.Ceiling(step / Finest * (1 - 1e-9));
        var (left, right) = (new double[(int)(length / finer) + 1], new double[(int)(length / finer) + 1]);
        for (var i = 0; i < left.Length; i++)
        {
            cancellation.ThrowIfCancellationRequested();
            (left[i], right[i]) = (road.Left.Value(i * finer), road.Right.Value(i * finer));
        }

        var profile = new RoadProfile(finer, left, right);
        return finer < step ? profile.Resampled(step, cancellation) : profile;
    }

    /// <summary>The coherence of a surface that is alike in every direction and as wavy as this road; null where one track was measured.</summary>
    private static TrackCoherence? Isotropic(RoadOfFile road, MeasuredSpectrum spectrum) => (road.Track, road.Waviness ?? spectrum.Waviness) switch
    {
        (null, _) => null,
        (double track, > 0 and var waviness) => TrackCoherence.Isotropic(track, waviness),

        // As the waviness falls to nothing the surface becomes white, and no two places have anything to do with each other.
        _ => TrackCoherence.Constant(0),
    };

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

    private static List<Figure> Figures(RoadOfFile road, RoadProfile profile, RoadAnalysis analysis, TrackCoherence? isotropic)
    {
        var footer = $"{road.Provenance.Scenario} · {road.Provenance.File} · RollRide {Provenance.ProgramVersion}\n{Cautions.OneLine}";
        var figures = new List<Figure> { RoadFigures.Profile(profile, analysis, footer) };
        if (analysis.Spectrum is { } spectrum)
            figures.Add(RoadFigures.Spectrum(spectrum, footer));
        if (analysis.Spectrum is { } compared && isotropic is not null)
            figures.Add(RoadFigures.Coherence(compared, isotropic, footer));
        return figures;
    }

    private static void Report(TextWriter output, RoadOfFile road, RoadProfile profile, RoadAnalysis analysis, TrackCoherence? isotropic, WrittenFolder folder)
    {
        output.WriteLine($"{road.Provenance.Scenario} — {road.Provenance.File}");
        output.WriteLine();
        var table = new TextTable("Road", "value", "unit");
        void Row(string label, double value, string format, string unit) => table.Add(label, value.ToString(format, CultureInfo.InvariantCulture), unit);
        Row("Length", profile.Length, "F0", "m");
        Row("Sample spacing", profile.Step * 1e3, "F1", "mm");
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
        if (analysis.Spectrum is { } compared && isotropic is not null)
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

        /// <summary>What was left out, in words.</summary>
        public IReadOnlyList<string> Remarks { get; init; } = [];
    }
}
