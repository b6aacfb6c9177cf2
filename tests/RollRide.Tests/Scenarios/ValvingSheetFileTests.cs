using RollRide.Damping;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Scenarios;

/// <summary>The workshop's valving sheet and curves in any order, as files that a scenario names.</summary>
public class ValvingSheetFileTests
{
    // The curve of Trial.Dyno, as a workshop would write it.
    private const string Sheet = "speed_m_per_s,compression_N,rebound_N\n0.1,300,500\n0.5,900,1500\n";

    private static Damper Read(string dyno) => Trial.Read(Trial.LiveAxle, dyno).Study.Layouts[1].Damper;

    private static void AssertIsTheDyno(Damper damper) => Assert.Equal(Read(Trial.Dyno).Curve.Points, damper.Curve.Points);

    [Theory]
    [InlineData(Sheet)]
    [InlineData("speed_m_per_s,compression_N,rebound_N\n0.5,900,1500\n0,0,0\n0.1,300,500\n")]
    [InlineData("# positive: compression\nrebound_N,compression_N,speed_m_per_s\n-500,300,0.1\n-1500,900,0.5\n")]
    [InlineData("# positive: rebound\nspeed_mm_per_s,compression_N,rebound_N\n100,-300,500\n500,-900,1500\n")]
    [InlineData("# separator: semicolon\n# decimal: comma\nspeed_m_per_s;compression_N;rebound_N\n0,1;300;500\n0,5;900;1500\n")]
    public void Read_sheet_of_either_sign_convention_is_the_same_curve(string sheet) => AssertIsTheDyno(Read(sheet));

    [Fact]
    public void Read_unsorted_dyno_file_is_sorted_and_a_repeated_row_counts_once() =>
        AssertIsTheDyno(Read("velocity_m_per_s,force_N\n0.5,900\n-0.1,-500\n0,0\n0.1,300\n-0.5,-1500\n0.1,300\n"));

    [Fact]
    public void Read_tolerance_of_a_sheet_is_that_of_the_damper() =>
        Assert.Equal(0.08, Read("speed_m_per_s,compression_N,rebound_N,tolerance_percent\n0.1,300,500,8\n0.5,900,1500,8\n").ForceTolerance!.At(0.3), 1e-15); // one rounding

    [Theory]
    [InlineData("0.5,900,1500", "0.5,900,-1500", 3, "rebound_N", "-1500", "both directions are written as positive numbers, unless a line '# positive: compression'")]
    [InlineData("speed_m_per_s", "# positive: rebound\nspeed_m_per_s", 3, "compression_N", "300", "makes forces of this column negative")]
    [InlineData("0.5,900,1500", "0.1,900,500", 3, "compression_N", "900", "line 2 gives 300 N at the same velocity")]
    [InlineData("0.5,900,1500", "-0.5,900,1500", 3, "speed_m_per_s", "-0.5", "a speed has no sign here")]
    [InlineData("0.1,300,500", "0,300,0", 2, "compression_N", "300", "at speed 0 both forces are 0")]
    [InlineData("0.1,300,500\n", "", 2, "speed_m_per_s", "0.5", "the only row; at least 2 are needed")]
    [InlineData("rebound_N", "rebound", 1, "rebound", null, "unknown column")]
    public void Read_bad_sheet_is_refused_at_its_line(string old, string replacement, int line, string key, string? value, string reason)
    {
        var fault = Trial.FaultsOf(Trial.LiveAxle, Sheet.Replace(old, replacement, StringComparison.Ordinal))[0];
        Assert.Equal(("dyno.csv", line, key, value), (fault.File, fault.Line, fault.Key, fault.Value));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_sheet_that_gives_its_speeds_twice_is_refused_at_its_header()
    {
        var fault = Trial.FaultsOf(Trial.LiveAxle, "# positive: compression\nspeed_m_per_s,speed_mm_per_s,compression_N,rebound_N\n0.1,100,300,-500\n0.5,500,900,-1500\n")[0];
        Assert.Equal(("dyno.csv", 2, "speed_mm_per_s", null), (fault.File, fault.Line, fault.Key, fault.Value));
        Assert.Contains("“speed_m_per_s” gives the same quantity; leave one of them out", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_tolerances_of_each_speed_are_kept_and_written_back()
    {
        var damper = Read("speed_m_per_s,compression_N,rebound_N,tolerance_percent\n0.5,900,1500,8\n0.1,300,500,15\n");
        var tolerance = damper.ForceTolerance!;
        Assert.Equal(0.15, tolerance.At(0.1), 1e-15);
        Assert.Equal(0.08, tolerance.At(0.5), 1e-15);
        Assert.Equal(0.115, tolerance.At(0.3), 1e-12); // half way
        Assert.Equal((0.15, 0.08), (Math.Round(tolerance.At(0.02), 12), Math.Round(tolerance.At(1), 12)));
        using var text = new StringWriter();
        new WorkshopSheet("rear", damper.Curve, tolerance).Write(text);
        var again = Read(text.ToString()).ForceTolerance!;
        foreach (var speed in (double[])[0.05, 0.1, 0.26, 0.5, 1])
            Assert.Equal(tolerance.At(speed), again.At(speed), 1e-8); // eight digits
    }

    [Theory]
    [InlineData("0.1,300,500,15\n0.1,300,500,8\n0.5,900,1500,8\n", 3, "line 2 has 15 %")]
    [InlineData("0.1,300,500,0\n0.5,900,1500,8\n", 2, "from 0.1 to 50")]
    public void Read_tolerances_that_contradict_each_other_or_leave_nothing_are_refused(string rows, int line, string reason)
    {
        var fault = Trial.FaultsOf(Trial.LiveAxle, $"speed_m_per_s,compression_N,rebound_N,tolerance_percent\n{rows}")[0];
        Assert.Equal((line, "tolerance_percent"), (fault.Line, fault.Key));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Fact] // A knee between two test speeds must survive: the rows are the usual test speeds and the curve's own.
    public void Sheet_written_and_read_back_is_the_same_damper_in_scenario_and_damper_command()
    {
        var valving = new Valving(new ValveCharacteristic(4000, 0.08, 900), new ValveCharacteristic(9000, 0.11, 1500));
        var written = new WorkshopSheet("rear", valving.ToCurve(0.8, 1.2), new ForceTolerance(0.075));
        using var text = new StringWriter();
        written.Write(text);
        using var folder = new TemporaryFolder();

        var read = Read(text.ToString());
        var reduced = DynoReader.Read([folder.Write("sheet.csv", text.ToString())], cancellation: TestContext.Current.CancellationToken);

        Assert.Equal(0.075, read.ForceTolerance!.At(0.26), 1e-15); // one rounding
        foreach (var velocity in (double[])[-1.5, -1.2, -0.5, -0.11, -0.1, -0.02, 0, 0.03, 0.079, 0.08, 0.081, 0.4, 1.1])
        {
            // Eight digits are written of speed and force.
            Assert.Equal(valving.Force(velocity), read.Curve.Force(velocity), 2e-4);
            Assert.Equal(valving.Force(velocity), reduced.Curve.Force(velocity), 2e-4);
        }
    }

    [Fact]
    public void Damper_command_reads_a_sheet_without_taking_rest_for_a_gas_force()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("sheet.csv", "speed_m_per_s,compression_N,rebound_N\n0,0,0\n0.1,300,500\n0.3,600,1000\n0.5,900,1500\n");
        Assert.Null(DynoReader.Read([path], cancellation: TestContext.Current.CancellationToken).GasForce);
    }
}
