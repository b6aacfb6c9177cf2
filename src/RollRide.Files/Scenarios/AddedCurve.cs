using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>A damper's curve that is to become a file beside the scenario, in the form that a scenario reads as <c>dyno</c>.</summary>
internal sealed class AddedCurve
{
    private const string Velocity = "velocity_m_per_s", Force = "force_N";

    /// <summary>Writes the file in memory.</summary>
    /// <param name="name">Its name, without a folder.</param>
    /// <param name="path">The path that it will have, for faults.</param>
    /// <param name="points">Velocity, m/s, and force, N, positive in compression; at least one, all finite.</param>
    /// <exception cref="DataFileException">A number is beyond what such a file may hold, or two points contradict each other.</exception>
    public AddedCurve(string name, string path, IReadOnlyList<(double Velocity, double Force)> points)
    {
        Name = name;
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        using (var table = new CsvTableWriter(text, [Velocity, Force]))
        {
            foreach (var (velocity, force) in points)
                table.WriteRow(velocity, force);
        }

        Utf8 = Encoding.UTF8.GetBytes(text.ToString());
        var columns = new Dictionary<string, ImmutableArray<double>> { [Velocity] = [.. points.Select(point => point.Velocity)], [Force] = [.. points.Select(point => point.Force)] };
        const int FirstLine = 2; // below the header
        Table = CurveFileTable.OfRuns(new NumericTable(path, columns.ToFrozenDictionary(), [.. Enumerable.Range(FirstLine, points.Count)]));
    }

    /// <summary>Takes a file in memory as it is.</summary>
    /// <param name="name">Its name, without a folder.</param>
    /// <param name="utf8">What it holds.</param>
    /// <param name="table">The same as it is read.</param>
    public AddedCurve(string name, byte[] utf8, CurveFileTable table) => (Name, Utf8, Table) = (name, utf8, table);

    /// <summary>Its name, without a folder.</summary>
    public string Name { get; }

    /// <summary>What it holds.</summary>
    public byte[] Utf8 { get; }

    /// <summary>The same as it is read.</summary>
    public CurveFileTable Table { get; }
}
