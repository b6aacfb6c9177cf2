using System.Globalization;
using System.Text.RegularExpressions;

namespace RollRide.Tests.Scenarios;

/// <summary>The friction of a spring from a measured loop.</summary>
public class SpringLoopTests
{
    private static string WithLoop => Trial.With("\"rate_N_per_mm\": 45,", "\"rate_N_per_mm\": 45, \"friction\": { \"loop\": \"other.csv\" },");

    [Theory]
    [InlineData(45)]
    [InlineData(0)] // the spring beside the friction does not matter
    public void Loop_gives_friction_and_build_up(double rate)
    {
        var friction = Trial.Read(WithLoop, otherFile: Loop(400, 4, 30, rate)).Study.Vehicle.Spring.Friction!;

        // Straight lines through 121 points of the branches cut a little off.
        Assert.Equal(400, friction.Force, 0.5);
        Assert.Equal(0.004, friction.BuildUp, 2e-5);
    }

    [Theory]
    [InlineData(45, null)]
    [InlineData(50, null)]
    [InlineData(70, "from tip to tip the loop rises by 83.3 N/mm, of which its friction makes 13.3: that leaves 70 N/mm for the spring, which is given with 45 N/mm")] // 400 N over 30 mm
    [InlineData(20, "that leaves 20 N/mm for the spring, which is given with 45 N/mm")]
    public void Loop_whose_slope_is_not_that_of_the_spring_is_warned_of_with_both(double rate, string? warning)
    {
        var warnings = Trial.Read(WithLoop, otherFile: Loop(400, 4, 30, rate)).Warnings;
        if (warning is null)
            Assert.DoesNotContain(warnings, text => text.Contains("friction.loop", StringComparison.Ordinal));
        else
            Assert.Contains(warning, Assert.Single(warnings, text => text.Contains("friction.loop", StringComparison.Ordinal)), StringComparison.Ordinal);
    }

    [Fact]
    public void Side_with_a_friction_of_0_has_none_of_that_given_for_both()
    {
        var vehicle = Trial.Read(Trial.With("\"rate_N_per_mm\": 45,", "\"rate_N_per_mm\": 45, \"friction\": { \"force_N\": 300, \"buildUp_mm\": 3 }, \"right\": { \"friction\": { \"force_N\": 0 } },")).Study.Vehicle;
        Assert.Equal(300, vehicle.On(RollRide.Mounting.Side.Left).Spring.Friction!.Force);
        Assert.Null(vehicle.On(RollRide.Mounting.Side.Right).Spring.Friction);
    }

    [Fact]
    public void Loop_that_runs_the_wrong_way_round_is_refused_with_its_energy()
    {
        var fault = Trial.FaultOf(WithLoop, otherFile: Loop(-400, 4, 30, 45));
        Assert.Equal("other.csv", fault.File);
        Assert.Contains("the loop runs the wrong way round: it would give out 41.", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Open_loop_is_refused_with_its_ends()
    {
        var rows = Loop(400, 4, 30, 45).Split('\n');
        var fault = Trial.FaultOf(WithLoop, otherFile: string.Join('\n', rows[..100]) + "\n");
        Assert.Equal("deflection_mm", fault.Key);
        Assert.Contains("the loop is open: it begins at -30 mm", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Loop_with_a_loop_in_it_is_refused_at_its_reversal()
    {
        var rows = Loop(400, 4, 30, 45).Split('\n').ToList();
        rows.Insert(20, "-29,0");
        var fault = Trial.FaultOf(WithLoop, otherFile: string.Join('\n', rows));
        Assert.Equal((21, "deflection_mm"), (fault.Line, fault.Key));
        Assert.Contains("one turn with two reversals", fault.Reason, StringComparison.Ordinal);
    }

    // Hystereses of other kinds than the program's friction. Their area is read all the same: it is kept where that friction has such a loop, and named where it has none.
    [Theory]
    [InlineData("elastic sliders", 10, 430, 5.56, false)]
    [InlineData("elastic sliders", 4, 280, 0.64, false)]
    [InlineData("Bouc–Wen, n = 1", 10, 152.782809279, 1.578907186704, true)]
    [InlineData("Bouc–Wen, n = 1", 3, 72.456733806, 0.112123258693, false)]
    [InlineData("Bouc–Wen, n = 2", 10, 152.998492211, 1.691012982, true)]
    [InlineData("Bouc–Wen, n = 2", 3, 79.016508290, 0.087523601, true)]
    [InlineData("Bouc–Wen benchmark", 1, 127.75698099, 0.0491644688, true)]
    [InlineData("Bouc–Wen benchmark", 2, 321.64923590, 0.3666790805, true)]
    [InlineData("Bouc–Wen benchmark", 3, 617.88906876, 1.2225091035, false)]
    public void Loop_of_another_hysteresis_keeps_its_area_or_is_refused_with_it(string kind, double amplitude, double tip, double area, bool isTaken)
    {
        const string Source = Evidence.Derived + "sliders Σ 4 Fs (X − Fs/k), Bouc–Wen loops in closed form or by integration; parameters of the benchmark after M. Schoukens and J. P. Noël, IFAC World Congress 2017 (from memory)";
        var (loop, reached) = Sampled(kind, amplitude);
        Assert.Equal(tip, reached, 1e-5 * tip);
        double found;
        if (isTaken)
        {
            found = Trial.Read(WithLoop, otherFile: loop).Study.Vehicle.Spring.Friction!.LoopEnergy(1e-3 * amplitude);
        }
        else
        {
            var reason = Trial.FaultOf(WithLoop, otherFile: loop).Reason;
            var printed = Regex.Match(reason, "the loop's area of ([0-9.]+) J is");
            Assert.True(printed.Success, reason);
            found = double.Parse(printed.Groups[1].Value, CultureInfo.InvariantCulture);
        }

        // Straight lines between 400 points a branch; a refusal prints four digits.
        Validation.Row(FormattableString.Invariant($"{kind}, amplitude {amplitude:0} mm"), "area of a measured loop as it is read, J", Source, area, found, (isTaken ? 2e-4 : 6e-4) * area);
    }

    /// <summary>A steady loop of parallel elastic sliders, or of a Bouc–Wen element, and the force at its upper tip, N.</summary>
    private static (string Table, double Tip) Sampled(string kind, double amplitude)
    {
        // The next force of each part after a short way, N: sliders exactly, the others by the midpoint rule.
        static Func<double, double, double> Slider(double stiffness, double slip) => (z, way) => Math.Clamp(z + (stiffness * way), -slip, slip);
        static Func<double, double, double> Smooth(Func<double, double, double> slope) => (z, way) => z + (way * slope(z + (0.5 * way * slope(z, way)), way));
        const double share = 0.3, k = 30e3, d = 3e-3;
        static Func<double, double, double> BoucWen(double n) => Smooth((z, way) =>
            (1 - share) * k * (1 - (Math.Pow(Math.Abs(z / ((1 - share) * k * d)), n) * ((0.5 * Math.Sign(way * z)) + 0.5))));
        var (spring, parts) = kind switch
        {
            "elastic sliders" => (0.0, new[] { Slider(40e3, 80), Slider(30e3, 150), Slider(20e3, 240) }),
            "Bouc–Wen, n = 1" => (share * k, [BoucWen(1)]),
            "Bouc–Wen, n = 2" => (share * k, [BoucWen(2)]),
            _ => (5e4, [Smooth((z, way) => 5e4 - (1e3 * ((0.8 * Math.Sign(way) * z) - (1.1 * Math.Abs(z)))))]),
        };
        const int Cycles = 6, Steps = 8000, Written = 20;
        var z = new double[parts.Length];
        var (x, tip, rows) = (0.0, 0.0, new List<string>());
        void Go(double to, int steps, bool isWritten)
        {
            var (from, way) = (x, (to - x) / steps);
            for (var i = 1; i <= steps; i++)
            {
                for (var part = 0; part < z.Length; part++)
                    z[part] = parts[part](z[part], way);
                x = from + (i * way);
                if (isWritten && i % Written == 0)
                    rows.Add(FormattableString.Invariant($"{1e3 * x:R},{(spring * x) + z.Sum():R}"));
            }
        }

        Go(1e-3 * amplitude, Steps / 2, false);
        for (var cycle = 0; cycle < Cycles; cycle++)
        {
            Go(-1e-3 * amplitude, Steps, false);
            Go(1e-3 * amplitude, Steps, false);
        }

        tip = (spring * x) + z.Sum();
        rows.Add(FormattableString.Invariant($"{1e3 * x:R},{tip:R}"));
        Go(-1e-3 * amplitude, Steps, true);
        Go(1e-3 * amplitude, Steps, true);
        return ("deflection_mm,force_N\n" + string.Join('\n', rows) + "\n", tip);
    }

    /// <summary>A steady loop, written down branch by branch.</summary>
    private static string Loop(double force, double buildUp, double amplitude, double rate)
    {
        var tip = force * Math.Tanh(amplitude / buildUp);
        double Branch(double x) => force - ((force + tip) * Math.Exp(-(x + amplitude) / buildUp));
        var up = Enumerable.Range(0, 121).Select(i => amplitude * ((i / 60.0) - 1)).Select(x => (X: x, F: (rate * x) + Branch(x)));
        var down = Enumerable.Range(1, 120).Select(i => amplitude * (1 - (i / 60.0))).Select(x => (X: x, F: (rate * x) - Branch(-x)));
        return "deflection_mm,force_N\n" + string.Concat(up.Concat(down).Select(at => FormattableString.Invariant($"{at.X:R},{at.F:R}\n")));
    }
}
