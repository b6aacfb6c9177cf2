using System.Globalization;
using System.Text;
using RollRide.DataFiles;

namespace RollRide.Scenarios;

/// <summary>The file of a curve with other forces: its comments, its columns and every number that has not changed stay as they were written.</summary>
internal static class ChangedCurveText
{
    // The page is told numbers rounded to this.
    private const double SameVelocity = 1e-6;
    private const double SameForce = 1e-3;

    /// <summary>Writes the file in memory.</summary>
    /// <param name="name">Its name, without a folder.</param>
    /// <param name="path">The path that it will have, for faults.</param>
    /// <param name="old">The curve before.</param>
    /// <param name="utf8">The file that holds it.</param>
    /// <param name="points">The same velocities, m/s, with other forces, N, by ascending velocity.</param>
    /// <returns>Null where a point has no place in the file.</returns>
    /// <exception cref="DataFileException">A force is beyond what such a file may hold.</exception>
    public static AddedCurve? Of(string name, string path, CurveFileTable old, byte[] utf8, IReadOnlyList<(double Velocity, double Force)> points)
    {
        if (points.Count != old.Points.Length)
            return null;
        var lines = Encoding.UTF8.GetString(utf8).Split('\n');
        var written = new Dictionary<(string Column, int Row), double>();
        foreach (var (point, (velocity, force)) in old.Points.Zip(points))
        {
            if (Math.Abs(velocity - point.Velocity) > SameVelocity)
                return null;
            if (Math.Abs(force - point.Force) < SameForce)
                continue;

            // A sheet may write the forces of a direction with the other sign, and a point may stand in several rows.
            var (velocities, forces) = (old.Table.Column(point.VelocityColumn), old.Table.Column(point.ForceColumn));
            var sign = Math.Sign(forces[point.Row]) * Math.Sign(point.Force);
            if (sign == 0)
                return null;
            for (var row = 0; row < velocities.Length; row++)
            {
                if (velocities[row] != velocities[point.Row])
                    continue;
                var line = old.Table.LineOf(row) - 1;
                if (line >= lines.Length || WithNumber(lines[line], old.Declared, point.ForceColumn, sign * force) is not { } changed)
                    return null;
                lines[line] = changed;
                written[(point.ForceColumn, row)] = sign * force;
            }
        }

        return new AddedCurve(name, Encoding.UTF8.GetBytes(string.Join('\n', lines)), old.With(old.Table.With(path, written)));
    }

    /// <summary>A line with another number in a column, the spaces around it kept; null where it has no such field.</summary>
    private static string? WithNumber(string line, DynoDeclarations declared, string column, double number)
    {
        var separator = declared.Separator ?? ',';
        var (fields, place) = (line.Split(separator), Array.IndexOf(declared.Header.Text.Split(separator, StringSplitOptions.TrimEntries), column));
        if (place < 0 || place >= fields.Length || line.Contains('"'))
            return null;
        var (field, before) = (fields[place], fields[place].Trim());
        var text = number.ToString(CultureInfo.InvariantCulture);
        fields[place] = field.Replace(before, declared.DecimalComma == true ? text.Replace('.', ',') : text, StringComparison.Ordinal);
        return string.Join(separator, fields);
    }
}
