using CsCheck;
using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public sealed class NumericTableTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    private NumericTable Read(string text) =>
        NumericTable.Read(_folder.Write("dyno.csv", text), ["velocity_m_per_s", "force_N"], ["temperature_degC"]);

    private DataFileFault[] FaultsOf(string text) => [.. Assert.Throws<DataFileException>(() => Read(text)).Faults];

    private DataFileFault FaultOf(string text) => Assert.Single(FaultsOf(text));

    [Fact]
    public void Read_takes_columns_by_name_in_any_order()
    {
        var table = Read("force_N,velocity_m_per_s\n-800,-0.5\n1e2,+0.25\n");
        Assert.Equal([-0.5, 0.25], table.Column("velocity_m_per_s"));
        Assert.Equal([-800, 100], table.Column("force_N"));
        Assert.Equal(2, table.RowCount);
        Assert.Equal(_folder["dyno.csv"], table.Path);
        Assert.False(table.HasColumn("temperature_degC"));
        Assert.Throws<ArgumentException>(() => table.Column("temperature_degC"));
    }

    [Fact]
    public void Read_counts_comments_and_empty_lines_in_the_lines_of_rows()
    {
        var table = Read("# made up\n\nvelocity_m_per_s,force_N\n# first\n0,0\n\n0.1,50\n");
        Assert.Equal([5, 7], [table.LineOf(0), table.LineOf(1)]);
    }

    [Theory]
    [InlineData("velocity_m_per_s,force_N\r\n0,0\r\n0.1,50\r\n")]
    [InlineData("\uFEFFvelocity_m_per_s,force_N\n0,0\n0.1,50")]
    [InlineData("velocity_m_per_s , force_N\n 0 ,\t0\n\"0.1\", 50\n")]
    public void Read_takes_other_line_ends_byte_order_mark_and_blanks(string text)
    {
        var table = Read(text);
        Assert.Equal([0, 0.1], table.Column("velocity_m_per_s"));
        Assert.Equal([0, 50], table.Column("force_N"));
        Assert.Equal(3, table.LineOf(1));
    }

    [Fact]
    public void Read_unknown_column_offers_the_nearest_and_names_the_known()
    {
        var fault = FaultOf("velocity_m_per_s,force_N,temprature_degC\n0,0,20\n");
        Assert.Equal((1, "temprature_degC"), (fault.Line, fault.Key));
        Assert.Contains("did you mean temperature_degC?", fault.Reason, StringComparison.Ordinal);
        Assert.Contains("velocity_m_per_s, force_N, temperature_degC", fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_wrong_unit_says_that_the_unit_is_in_the_name()
    {
        var faults = FaultsOf("# x\nvelocity_mm_per_s,force_N\n0,0\n");
        Assert.Equal(["velocity_mm_per_s", "velocity_m_per_s"], faults.Select(fault => fault.Key));
        Assert.All(faults, fault => Assert.Equal(2, fault.Line));
        Assert.Contains("the unit is in the key: did you mean velocity_m_per_s?", faults[0].Reason, StringComparison.Ordinal);
        Assert.Contains("missing", faults[1].Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("velocity_m_per_s,Force_N\n0,0\n", "Force_N", "did you mean force_N?")]
    [InlineData("velocity_m_per_s,force_N,\n0,0,\n", "", "has no name")]
    [InlineData("velocity_m_per_s;force_N\n0;0\n", "velocity_m_per_s;force_N", "separated by commas")]
    [InlineData("velocity_m_per_s,force_N,force_N\n0,0,0\n", "force_N", "twice")]
    [InlineData("velocity_m_per_s\n0\n", "force_N", "missing")]
    public void Read_refuses_a_header_at_fault(string text, string column, string reason)
    {
        var fault = FaultsOf(text).First(f => f.Key == column);
        Assert.Equal(1, fault.Line);
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0.1,", "force_N", "", "decimal point")]
    [InlineData(",5", "velocity_m_per_s", "", "decimal point")]
    [InlineData("\"0,1\",5", "velocity_m_per_s", "0,1", "decimal point")]
    [InlineData("0.1,\"1,200\"", "force_N", "1,200", "no thousands separators")]
    [InlineData("0.1,5 N", "force_N", "5 N", "a number is expected")]
    [InlineData("0.1,0x10", "force_N", "0x10", "a number is expected")]
    [InlineData("0.1,NaN", "force_N", "NaN", "finite")]
    [InlineData("-Infinity,5", "velocity_m_per_s", "-Infinity", "finite")]
    [InlineData("0.1,1e999", "force_N", "1e999", "finite")]
    [InlineData("0.1,5,6", null, null, "3 fields where the header has 2")]
    [InlineData("0,1,5", null, null, "numbers take a decimal point")]
    [InlineData("0.1", null, null, "1 field where the header has 2")]
    [InlineData("0.1,\"5", null, null, "double quote")]
    [InlineData("0.1,\"5\"6", null, null, "double quote")]
    public void Read_refuses_a_row_at_fault_with_its_line(string row, string? column, string? value, string reason)
    {
        var fault = FaultOf($"velocity_m_per_s,force_N\n# comment\n0,0\n{row}\n1,2\n");
        Assert.Equal((4, column, value), (fault.Line, fault.Key, fault.Value));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_reports_every_fault_of_the_row() =>
        Assert.Equal(["velocity_m_per_s", "force_N"], FaultsOf("velocity_m_per_s,force_N\nx,y\n").Select(fault => fault.Key));

    [Theory]
    [InlineData("", null, "empty")]
    [InlineData("# only a comment\n", null, "empty")]
    [InlineData("# comment\nvelocity_m_per_s,force_N\n", 2, "no row")]
    public void Read_refuses_a_file_without_rows(string text, int? line, string reason)
    {
        var fault = FaultOf(text);
        Assert.Equal(line, fault.Line);
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_missing_file_and_folder_are_named()
    {
        var missing = Assert.Throws<DataFileException>(() => NumericTable.Read(_folder["none.csv"], ["time_s"]));
        Assert.Equal($"{_folder["none.csv"]}: the file does not exist", missing.Message);
        var folder = Assert.Throws<DataFileException>(() => NumericTable.Read(_folder["."], ["time_s"]));
        Assert.Contains("this is a folder", folder.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("0,0\n0.1,5\n0.1,6\n", 6, "0.1", "repeats the value of line 5")]
    [InlineData("0,0\n0.1,5\n0.05,6\n-1,0\n", 6, "0.05", "is below the value of line 5 (0.1)")]
    public void RequireStrictlyAscending_points_at_the_first_line_out_of_order(string rows, int line, string value, string reason)
    {
        var table = Read("# a\n# b\nvelocity_m_per_s,force_N\n" + rows);
        var fault = Assert.Single(Assert.Throws<DataFileException>(() => table.RequireStrictlyAscending("velocity_m_per_s")).Faults);
        Assert.Equal((line, "velocity_m_per_s", value), (fault.Line, fault.Key, fault.Value));
        Assert.Contains(reason, fault.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void RequireStrictlyAscending_accepts_ascending_numbers() =>
        Read("velocity_m_per_s,force_N\n-1,0\n0,0\n1e-9,0\n").RequireStrictlyAscending("velocity_m_per_s");

    [Fact]
    public void Read_damaged_file_throws_nothing_but_DataFileException()
    {
        const string Valid = "# made up\nvelocity_m_per_s,force_N\n-0.5,-800\n0,0\n\"0.5\",300\n";
        Damage.Of(Valid).SampleSame(
            2000,
            bytes =>
            {
                File.WriteAllBytes(_folder["damaged.csv"], bytes);
                try
                {
                    NumericTable.Read(_folder["damaged.csv"], ["velocity_m_per_s", "force_N"]);
                }
                catch (DataFileException e)
                {
                    Assert.NotEmpty(e.Faults);
                }
            });
    }
}
