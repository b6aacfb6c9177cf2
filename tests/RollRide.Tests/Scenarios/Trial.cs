using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Scenarios;

/// <summary>A small scenario without a fault, to be changed in one place and read.</summary>
internal static class Trial
{
    /// <summary>The line numbers in the tests are those of this text.</summary>
    public const string LiveAxle =
        """
        {
          "name": "Trial",
          "vehicle": {
            "name": "Trial axle",
            "suspension": "liveAxle",
            "track_mm": 1600,
            "rollCentreHeight_mm": 450,
            "body": {
              "mass_kg": 1000,
              "rollInertia_kg_m2": 400,
              "cgHeight_mm": 800
            },
            "unsprung": {
              "mass_kg": 150,
              "cgHeight_mm": 350,
              "axleRollInertia_kg_m2": 50
            },
            "springs": {
              "rate_N_per_mm": 45,
              "placement": { "motionRatios": { "heave": 1, "roll": 0.65 } }
            },
            "bumpStops": {
              "clearance_mm": 70, "force_N": 5000, "atCompression_mm": 30
            },
            "antiRollBar_N_m_per_deg": 300,
            "tyres": { "stiffness_N_per_mm": 250, "damping_N_s_per_m": 300 }
          },
          "dampers": {
            "soft": {
              "curve": {
                "velocity_m_per_s": [-0.5, -0.1, 0, 0.1, 0.5],
                "force_N": [-1500, -500, 0, 300, 900]
              },
              "closedLength_mm": 300
            },
            "rear soft": { "dyno": "dyno.csv" }
          },
          "layouts": [
            {
              "name": "Out",
              "placement": { "mounts": { "axleEnd_mm": [0, 600, 300], "bodyEnd_mm": [0, 600, 750] } },
              "damper": "soft"
            },
            {
              "name": "In",
              "placement": { "motionRatios": { "heave": 1, "roll": 0.5 } },
              "damper": "rear soft"
            }
          ],
          "manoeuvre": {
            "speed_km_per_h": 72,
            "duration_s": 5,
            "road": {
              "events": [
                { "start_m": 10, "side": "left", "bump": { "length_m": 2, "height_mm": 50 } }
              ]
            },
            "cornering": {
              "lateralAcceleration": {
                "events": [ { "start_s": 2, "amplitude_m_per_s2": 3, "rampStep": { "rampDuration_s": 0.3 } } ]
              }
            }
          }
        }
        """;

    public const string Dyno =
        """
        # a dyno run
        velocity_m_per_s,force_N
        -0.5,-1500
        -0.1,-500
        0,0
        0.1,300
        0.5,900
        """;

    /// <summary>The lateral acceleration of the trial, to be replaced by a steering.</summary>
    public const string Cornering =
        """
        "lateralAcceleration": {
                "events": [ { "start_s": 2, "amplitude_m_per_s2": 3, "rampStep": { "rampDuration_s": 0.3 } } ]
              }
        """;

    public const string Steering =
        """
        "steering": { "singleTrack": { "mass_kg": 2000, "yawInertia_kg_m2": 3500, "cgToFrontAxle_mm": 1400, "cgToRearAxle_mm": 1500,
        "frontCorneringStiffness_kN_per_rad": 95, "rearCorneringStiffness_kN_per_rad": 110, "steeringRatio": 17 },
        "events": [ { "start_s": 2, "amplitude_deg": 30, "rampStep": { "rampDuration_s": 0.3 } } ] }
        """;

    /// <summary>The trial with one text replaced, which must be there once.</summary>
    public static string With(string old, string replacement)
    {
        var first = LiveAxle.IndexOf(old, StringComparison.Ordinal);
        Assert.True(first >= 0, $"The trial has no “{old}”.");
        Assert.Equal(first, LiveAxle.LastIndexOf(old, StringComparison.Ordinal));
        return LiveAxle.Replace(old, replacement, StringComparison.Ordinal);
    }

    public static Scenario Read(string scenario, string? dyno = Dyno, string? otherFile = null, bool isRecorded = true)
    {
        using var folder = new TemporaryFolder();
        return ScenarioReader.Read(Write(folder, scenario, dyno, otherFile), isRecorded);
    }

    public static IReadOnlyList<DataFileFault> FaultsOf(string scenario, string? dyno = Dyno, string? otherFile = null)
    {
        using var folder = new TemporaryFolder();
        var path = Write(folder, scenario, dyno, otherFile);
        var faults = Assert.Throws<DataFileException>(() => ScenarioReader.Read(path)).Faults;
        return [.. faults.Select(fault => fault with { File = Path.GetFileName(fault.File) })];
    }

    public static DataFileFault FaultOf(string scenario, string? dyno = Dyno, string? otherFile = null) =>
        Assert.Single(FaultsOf(scenario, dyno, otherFile));

    /// <summary>The warnings, each from the file's name on.</summary>
    public static IReadOnlyList<string> WarningsOf(string scenario, string? dyno = Dyno, string? otherFile = null)
    {
        using var folder = new TemporaryFolder();
        var path = Write(folder, scenario, dyno, otherFile);
        var start = Path.GetDirectoryName(path)!.Length + 1;
        return [.. ScenarioReader.Read(path).Warnings.Select(warning => warning[start..])];
    }

    private static string Write(TemporaryFolder folder, string scenario, string? dyno, string? otherFile)
    {
        if (dyno is not null)
            folder.Write("dyno.csv", dyno);
        if (otherFile is not null)
            folder.Write("other.csv", otherFile);
        return folder.Write("trial.json", scenario);
    }
}
