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
