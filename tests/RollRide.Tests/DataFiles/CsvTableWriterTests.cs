using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class CsvTableWriterTests
{
    private static string Written(string[] columns, Action<CsvTableWriter> write, int? significantDigits = null)
    {
        using var output = new StringWriter();
        using (var table = new CsvTableWriter(output, columns, significantDigits)) write(table);
        return output.ToString();
    }

    [Fact]
    public void WriteRow_writes_numbers_that_read_back_the_same()
    {
        var text = Written(["time_s", "roll_rad"], table =>
        {
            table.WriteRow(0.1, -1.0 / 3);
            table.WriteRow(1e-300, 0);
        });
        Assert.Equal("time_s,roll_rad\n0.1,-0.3333333333333333\n1E-300,0\n", text);
    }

    [Fact]
    public void WriteRow_rounds_to_the_digits_asked_for() =>
        Assert.Equal("a,b\n0.333333333,1234.5\n", Written(["a", "b"], table => table.WriteRow(1.0 / 3, 1234.5), significantDigits: 9));

    [Fact]
    public void WriteRow_puts_texts_first_and_disarms_formulas()
    {
        var text = Written(["layout", "roll_deg"], table =>
        {
            table.WriteRow(["Outboard, soft"], [1.5]);
            table.WriteRow(["=1+1"], [-2]);
        });
        Assert.Equal("layout,roll_deg\n\"Outboard, soft\",1.5\n\"'=1+1\",-2\n", text);
    }

    [Fact]
    public void WriteRow_leaves_what_is_not_defined_empty() =>
        Assert.Equal("a,b\n,2\n1,\n", Written(["a", "b"], table =>
        {
            table.WriteRow(double.NaN, 2);
            table.WriteRow(1, double.NaN);
        }));

    [Fact]
    public void WriteRow_keeps_rows_with_and_without_texts_in_their_order() =>
        Assert.Equal("a,b\n1,2\nx,3\n4,5\ny,6\n", Written(["a", "b"], table =>
        {
            table.WriteRow(1, 2);
            table.WriteRow(["x"], [3]);
            table.WriteRow(4, 5);
            table.WriteRow(["y"], [6]);
        }));

    [Fact]
    public void WriteRow_has_room_for_the_longest_numbers() =>
        Assert.Equal("a,b\n-1.7976931348623157E+308,-2.2250738585072014E-308\n", Written(["a", "b"], table => table.WriteRow(double.MinValue, -2.2250738585072014e-308)));

    [Fact]
    public void WriteRow_refuses_infinity_and_a_wrong_count_and_writes_nothing_of_the_row()
    {
        var text = Written(["a", "b"], table =>
        {
            Assert.Contains("“b”", Assert.Throws<ArgumentException>(() => table.WriteRow(1, double.PositiveInfinity)).Message, StringComparison.Ordinal);
            Assert.Throws<ArgumentException>(() => table.WriteRow(1));
            Assert.Throws<ArgumentException>(() => table.WriteRow(["x", "y"], [1]));
        });
        Assert.Equal("a,b\n", text);
    }

    [Fact]
    public void Constructor_refuses_no_columns_and_impossible_digits()
    {
        using var output = new StringWriter();
        Assert.Throws<ArgumentException>(() => new CsvTableWriter(output, []));
        Assert.Throws<ArgumentOutOfRangeException>(() => new CsvTableWriter(output, ["a"], 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => new CsvTableWriter(output, ["a"], 18));
    }

    [Fact]
    public void A_written_table_reads_back()
    {
        using var folder = new TemporaryFolder();
        var path = folder.Write("history.csv", Written(["time_s", "force_N"], table =>
        {
            for (var i = 0; i < 100; i++) table.WriteRow(i / 7.0, Math.Sin(i) * 1e4);
        }));
        var read = NumericTable.Read(path, ["time_s", "force_N"]);
        Assert.Equal(Enumerable.Range(0, 100).Select(i => i / 7.0), read.Column("time_s"));
        Assert.Equal(Enumerable.Range(0, 100).Select(i => Math.Sin(i) * 1e4), read.Column("force_N"));
    }
}
