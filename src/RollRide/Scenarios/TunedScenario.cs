using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>Writes a scenario anew with a tuned damper in each layout.</summary>
public static class TunedScenario
{
    /// <summary>Writes the scenario.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="scenario">The scenario that was tuned.</param>
    /// <param name="curves">For each layout tuned its name and the CSV file of its curve, beside the scenario that is written.</param>
    /// <remarks>
    /// Friction, gas, lengths and mounts of the dampers stay; of their curves only the tuned ones are left. A measured road or record is
    /// expected beside the new file, see <see cref="MeasuredFiles"/>.
    /// </remarks>
    public static void Write(TextWriter output, ScenarioFile scenario, IReadOnlyList<(string Layout, string CurveFile)> curves)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(scenario);
        ArgumentNullException.ThrowIfNull(curves);
        var layouts = curves.Select(curve => scenario.Layouts.Single(layout => layout.Name == curve.Layout)).ToList();
        var tuned = scenario with
        {
            Name = $"{scenario.Name}, tuned",
            Dampers = layouts.Zip(curves).ToDictionary(
                pair => NameOf(pair.First),
                pair => scenario.Dampers[pair.First.Damper] with { Curve = null, Dyno = pair.Second.CurveFile, ForceScale = 1, Interpolation = Damping.CurveInterpolation.Linear }),
            Manoeuvre = Beside(scenario.Manoeuvre),
            Layouts = [.. layouts.Select(layout => layout with { Damper = NameOf(layout) })],
        };
        output.Write(JsonText.Of(RecordJson.Of(tuned)));
    }

    /// <summary>The measured road and records that a scenario names, which the new one needs beside it.</summary>
    /// <param name="scenario">The scenario.</param>
    public static IReadOnlyList<string> MeasuredFiles(ScenarioFile scenario)
    {
        ArgumentNullException.ThrowIfNull(scenario);
        var cornering = scenario.Manoeuvre.Cornering;
        return [.. new[] { scenario.Manoeuvre.Road.Profile, cornering?.LateralAcceleration?.File, cornering?.Steering?.File }.OfType<string>()];
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
