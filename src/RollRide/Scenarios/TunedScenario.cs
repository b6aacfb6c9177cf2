using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>Writes a scenario anew with a tuned damper in each layout.</summary>
public sealed class TunedScenario
{
    private readonly ScenarioFile _scenario;

    /// <summary>Reads what stays.</summary>
    /// <param name="path">The file of the scenario that was tuned.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">The file is not a scenario any more.</exception>
    public TunedScenario(string path, CancellationToken cancellation = default) => _scenario = BoundDocument.Read<ScenarioFile>(path, cancellation).Value;

    /// <summary>Writes the scenario.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="curves">For each layout tuned its name and the CSV file of its curve, beside the scenario that is written.</param>
    /// <remarks>
    /// Friction, gas, lengths and mounts of the dampers stay; of their curves only the tuned ones are left. A measured road or record is
    /// expected beside the new file, see <see cref="MeasuredFiles"/>.
    /// </remarks>
    public void Write(TextWriter output, IReadOnlyList<(string Layout, string CurveFile)> curves)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(curves);
        var layouts = curves.Select(curve => _scenario.Layouts.Single(layout => layout.Name == curve.Layout)).ToList();
        var tuned = _scenario with
        {
            Name = $"{_scenario.Name}, tuned",
            Dampers = layouts.Zip(curves).ToDictionary(
                pair => NameOf(pair.First),
                pair => _scenario.Dampers[pair.First.Damper] with { Curve = null, Dyno = pair.Second.CurveFile, ForceScale = 1, Interpolation = Damping.CurveInterpolation.Linear }),
            Manoeuvre = Beside(_scenario.Manoeuvre),
            Layouts = [.. layouts.Select(layout => layout with { Damper = NameOf(layout) })],
        };
        output.Write(JsonText.Of(RecordJson.Of(tuned)));
    }

    /// <summary>The measured road and records that the scenario names, which the new one needs beside it.</summary>
    public IReadOnlyList<string> MeasuredFiles()
    {
        var (road, cornering) = (_scenario.Manoeuvre.Road, _scenario.Manoeuvre.Cornering);
        return [.. new[] { road.Profile, cornering?.LateralAcceleration?.File, cornering?.Steering?.File }.OfType<string>()];
    }

    private static ManoeuvreFile Beside(ManoeuvreFile manoeuvre)
    {
        var cornering = manoeuvre.Cornering;
        return manoeuvre with
        {
            Road = manoeuvre.Road with { Profile = Path.GetFileName(manoeuvre.Road.Profile) },
            Cornering = cornering is null ? null : cornering with
            {
                LateralAcceleration = cornering.LateralAcceleration is { } given ? given with { File = Path.GetFileName(given.File) } : null,
                Steering = cornering.Steering is { } steering ? steering with { File = Path.GetFileName(steering.File) } : null,
            },
        };
    }

    private static string NameOf(LayoutFile layout) => $"{layout.Damper}, tuned for {layout.Name}";
}
