using RollRide.DataFiles;

namespace RollRide.Tests.DataFiles;

public class DataFileExceptionTests
{
    [Fact]
    public void Message_has_one_line_per_fault()
    {
        var exception = new DataFileException([new("a.json", 1, "k", null, "one"), new("b.csv", null, null, null, "two")]);
        Assert.Equal("a.json:1: k: one\nb.csv: two", exception.Message);
        Assert.Equal(2, exception.Faults.Length);
    }

    [Theory]
    [InlineData(20, 20, "a.json:20: wrong")]
    [InlineData(21, 21, "and 1 more fault")]
    [InlineData(500, 21, "and 480 more faults")]
    public void Message_of_many_faults_shows_the_first_and_counts_the_rest(int count, int lines, string last)
    {
        var exception = new DataFileException(Enumerable.Range(1, count).Select(line => new DataFileFault("a.json", line, null, null, "wrong")));
        Assert.Equal(count, exception.Faults.Length);
        Assert.Equal(lines, exception.Message.Split('\n').Length);
        Assert.Equal(last, exception.Message.Split('\n')[^1]);
    }

    [Fact]
    public void A_file_without_faults_is_not_reported() =>
        Assert.Throws<ArgumentException>(() => new DataFileException([]));

    [Fact]
    public void FaultList_throws_all_faults_by_line_within_each_file()
    {
        var list = new FaultList();
        list.ThrowIfAny();
        list.Add(new("a.json", 9, null, null, "late"));
        list.Add(new("b.csv", 1, null, null, "other"));
        list.Add(new("a.json", 2, null, null, "early"));
        Assert.Equal(3, list.Count);
        var exception = Assert.Throws<DataFileException>(list.ThrowIfAny);
        Assert.Equal(["early", "late", "other"], exception.Faults.Select(fault => fault.Reason));
    }
}
