using RollRide.DataFiles;

namespace RollRide.Tests;

/// <summary>Tables of check values; each says in its first line where it comes from.</summary>
internal static class TestTable
{
    public static NumericTable Read(string name, params string[] columns) =>
        NumericTable.Read(Path.Combine(AppContext.BaseDirectory, "TestData", name), columns);
}
