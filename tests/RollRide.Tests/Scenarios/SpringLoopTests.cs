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
