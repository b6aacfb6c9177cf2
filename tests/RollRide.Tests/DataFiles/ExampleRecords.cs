using System.ComponentModel;
using System.Text;
using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

/// <summary>Where something sits across the vehicle.</summary>
public enum ExampleSide
{
    /// <summary>The left.</summary>
    LeftHand,

    /// <summary>The right.</summary>
    RightHand,
}

[Description("An example of a whole file.")]
public sealed record ExampleFileDto
{
    [Key("title", "What the file is about.")]
    public required string Title { get; init; }

    [Key("body", "The body.")]
    public required ExampleBody Body { get; init; }

    [Key("layouts", "Layouts to compare."), MinCount(1), MaxCount(3)]
    public required IReadOnlyList<ExampleLayout> Layouts { get; init; }

    [Key("stops", "Stops by name.")]
    public IReadOnlyDictionary<string, ExampleSpring>? Stops { get; init; }

    [Key("solver", "Settings of the solver.")]
    public ExampleSolver Solver { get; init; } = new();
}

public sealed record ExampleBody
{
    [Key("mass_kg", "Mass of the body."), Above(0)]
    public required double Mass { get; init; }

    [Key("track_mm", "Distance between the wheels."), Between(500, 3000)]
    public required double TrackMm { get; init; }

    [Key("offset_mm", "Offset of the centre of gravity, left positive."), Above(-1000), Below(1000)]
    public double OffsetMm { get; init; }
}

public sealed record ExampleLayout
{
    [Key("name", "Name of the layout.")]
    public required string Name { get; init; }

    [Key("side", "Side of the damper.")]
    public ExampleSide Side { get; init; } = ExampleSide.RightHand;

    [Key("spring", "The spring | in either form.")]
    public ExampleSpring? Spring { get; init; }
}

[Description("A spring.")]
[ExactlyOneOf("rate_N_per_mm", "points")]
[AtMostOneOf("free_length_mm", "preload_N")]
public sealed record ExampleSpring
{
    [Key("rate_N_per_mm", "Rate."), AtLeast(0)]
    public double? Rate { get; init; }

    [Key("points", "Pairs of deflection and force."), MinCount(2)]
    public IReadOnlyList<IReadOnlyList<double>>? Points { get; init; }

    [Key("free_length_mm", "Free length."), Above(0)]
    public double? FreeLengthMm { get; init; }

    [Key("preload_N", "Preload.")]
    public double? Preload { get; init; }
}

public sealed record ExampleSolver
{
    [Key("steps", "Most steps."), AtLeast(1), AtMost(1000)]
    public int Steps { get; init; } = 100;

    [Key("dense", "Whether to keep every step.")]
    public bool Dense { get; init; }

    [Key("tolerance", "Relative tolerance."), Above(0), AtMost(0.1)]
    public double Tolerance { get; init; } = 1e-6;
}

internal static class Example
{
    public const string Valid =
        """
        // An example.
        {
          "title": "Example",
          "body": {
            "mass_kg": 900, /* sprung */
            "track_mm": 1600,
          },
          "layouts": [
            { "name": "outboard", "side": "leftHand" },
            {
              "name": "inboard",
              "spring": { "points": [[0, 0], [10, 250.5]], "preload_N": -5 }
            }
          ],
          "stops": {
            "front left": { "rate_N_per_mm": 80 }
          },
          "solver": { "steps": 200 }
        }
        """;

    /// <summary>The valid file with one piece of text replaced.</summary>
    public static string With(string old, string replacement)
    {
        Assert.Contains(old, Valid, StringComparison.Ordinal);
        return Valid.Replace(old, replacement, StringComparison.Ordinal);
    }

    public static BoundDocument<ExampleFileDto> Bind(string text) =>
        BoundDocument.Parse<ExampleFileDto>(Encoding.UTF8.GetBytes(text), "example.json");

    public static DataFileFault[] FaultsOf(string text) => [.. Assert.Throws<DataFileException>(() => Bind(text)).Faults];

    public static DataFileFault FaultOf(string text) => Assert.Single(FaultsOf(text));
}
