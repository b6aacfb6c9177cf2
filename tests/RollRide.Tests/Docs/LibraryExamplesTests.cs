using RollRide.Cornering;
using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Mounting;
using RollRide.Roads;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Scenarios;
using RollRide.Vehicle;

namespace RollRide.Tests.Docs;

/// <summary>The C# that docs/library.md shows: it compiles here, stands there to the letter, and prints what stands below it there.</summary>
public sealed class LibraryExamplesTests
{
    private static readonly string[] Source = File.ReadAllLines(Shipped.PathOf("tests", "RollRide.Tests", "Docs", "LibraryExamplesTests.cs"));

    [Fact]
    public void Damper_coefficient_is_varied_on_a_scenario()
    {
        var Console = new Printed();

        // example 1
        var study = ScenarioReader.Read("scenarios/bump-then-corner.json").Study;
        foreach (var coefficient in new[] { 2000, 4000, 6000 }) // N·s/m
        {
            var damper = new Damper("linear", ForceVelocityCurve.Linear(coefficient));
            var result = Comparison.RunLayout(study, study.Layouts[0] with { Damper = damper });
            Console.WriteLine($"{coefficient}: overshoot {result.Metrics.RollResponse!.Overshoot:P0}, roll damping ratio {result.ReferenceModes.Roll.DampingRatio:F2}");
        }

        // end
        Assert.Equal(string.Join(Environment.NewLine, Shown(1, 10)), string.Join(Environment.NewLine, Console.Lines));
    }

    [Fact]
    public void Vehicle_is_run_without_a_scenario()
    {
        var Console = new Printed();

        // example 2
        var body = new SprungBody { Mass = 1350, RollInertia = 520, CgHeight = 0.95 };
        var axle = new UnsprungMass { Mass = 185, CgHeight = 0.365, AxleRollInertia = 58 };
        var spring = new Spring(new LinearSpring(62e3), new FixedRatioFitting(1, 0.62, 0.83));
        var vehicle = new HalfCar { Name = "Van", Suspension = new LiveAxleSuspension(), Track = 1.66, RollCentreHeight = 0.5, Body = body, Unsprung = axle, Spring = spring, Tyre = new Tyre { Stiffness = 290e3 } };
        var outboard = new DamperLayout { Name = "Outboard", Fitting = new FixedRatioFitting(1, 0.77, 0.83), Damper = new Damper("linear", ForceVelocityCurve.Linear(4000)) };
        var corner = new Manoeuvre { Road = Road.Flat(15), Cornering = new GivenLateralAcceleration(CorneringEvents.Ramp(1, 0.4, 4)), Duration = 6 };
        Console.WriteLine($"overshoot {new MeasuredRun(new AssembledHalfCar(vehicle, outboard), corner).Make().Metrics.RollResponse!.Overshoot:P0}");

        // end
        Assert.Equal(string.Join(Environment.NewLine, Shown(2, 12)), string.Join(Environment.NewLine, Console.Lines));
    }

    /// <summary>What docs/library.md says that an example prints, having checked that it shows the example as it stands here.</summary>
    private static IEnumerable<string> Shown(int example, int mostLines)
    {
        string[] block = Document.Read("docs/library.md").Blocks("csharp").ElementAt(example - 1);
        string[] usings = [.. block.TakeWhile(line => line.StartsWith("using ", StringComparison.Ordinal))];
        Assert.All(usings, line => Assert.Contains(line, Source));
        string[] printed = [.. block.SkipWhile(line => !line.StartsWith("// ", StringComparison.Ordinal))];
        string[] code = [.. block[usings.Length..^printed.Length].Where(line => line.Length > 0)];
        Assert.Equal(Source.SkipWhile(line => !line.EndsWith($"// example {example}", StringComparison.Ordinal)).Skip(1).TakeWhile(line => !line.EndsWith("// end", StringComparison.Ordinal))
            .Where(line => line.Length > 0).Select(line => line[8..]), code);
        Assert.InRange(code.Length + (example == 1 ? usings.Length : 0), 1, mostLines);
        return printed.Select(line => line[3..]);
    }

    /// <summary>Stands for the console.</summary>
    private sealed class Printed
    {
        public List<string> Lines { get; } = [];

        public void WriteLine(string line) => Lines.Add(line);
    }

    /// <summary>Reads as the example does, which is run in the project's folder.</summary>
    private static class ScenarioReader
    {
        public static Scenario Read(string path) => RollRide.Scenarios.ScenarioReader.Read(Shipped.PathOf(path));
    }
}
