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
