using System.Collections.Immutable;
using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Scenarios;

/// <summary>Reads measured road profiles: tables with even steps and one or two tracks.</summary>
public static class MeasuredProfileReader
{
    /// <summary>The column of distances.</summary>
    internal const string Distance = "distance_m";

    /// <summary>The column of the left track.</summary>
    internal const string Left = "left_mm";

    /// <summary>The column of the right track.</summary>
    internal const string Right = "right_mm";

    // Distances are often written with a digit too few: a step may be off by this share, but the error must not gather.
    private const double StepTolerance = 0.02;

    // Beyond this departure from its straight line, m, a road is a hill, or its millimetres were metres; common practice, no source.
    private const double Implausible = 1;

    // Below this departure, m, a road is smoother than any that is paved, or its metres stand in a column of millimetres; common practice, no source.
    private const double Smoothest = 5e-4;

    /// <summary>Reads a profile.</summary>
    /// <param name="file">The file: columns distance_m, and left_mm and right_mm or one of them, then taken for both.</param>
    /// <param name="cancellation">Stops the reading.</param>
    /// <exception cref="DataFileException">The file is not such a table, its steps are not even, or a stretch is missing.</exception>
    public static MeasuredProfile Read(string file, CancellationToken cancellation = default)
    {
        var table = NumericTable.Read(file, [Distance], [Left, Right], cancellation: cancellation);
        TableLimits.Require(table);
        return FromTable(table);
    }

    internal static MeasuredProfile FromTable(NumericTable table)
    {
        if (!table.HasColumn(Left) && !table.HasColumn(Right))
            throw new DataFileException(new DataFileFault(table.Path, 1, null, null, $"the file has neither column {Left} nor {Right}; at least one is needed"));
        if (table.RowCount < 3)
            throw new DataFileException(new DataFileFault(table.Path, null, null, null, "a profile needs three rows or more"));
        table.RequireStrictlyAscending(Distance);
        var step = EvenStep(table);
        double[] Track(string column) => [.. table.Column(column).Select(z => z * Unit.Millimetre.InSi)];
        var profile = new RoadProfile(
            step,
            Track(table.HasColumn(Left) ? Left : Right),
            Track(table.HasColumn(Right) ? Right : Left));

        var departure = profile.LargestDeparture;
        var isOneTrack = !table.HasColumn(Left) || !table.HasColumn(Right);
        var warnings = ImmutableArray.CreateBuilder<string>();
        if (isOneTrack)
            warnings.Add($"{table.Path}: only {(table.HasColumn(Left) ? Left : Right)} is given and taken for both tracks: the road lifts both wheels equally and does not roll the vehicle");
        if (departure > Implausible)
            warnings.Add(FormattableString.Invariant($"{table.Path}: the road departs from a straight line by {departure:G3} m; is it in mm, and is it a road?"));
        if (departure > 0 && departure < Smoothest)
            warnings.Add(FormattableString.Invariant($"{table.Path}: the road departs from a straight line by {Unit.Millimetre.Show(departure):G3} only; were heights in metres written as mm?"));
        return new MeasuredProfile(profile, table.Column(Distance)[0], isOneTrack, warnings.ToImmutable());
    }

    private static double EvenStep(NumericTable table)
    {
        var distance = table.Column(Distance);
        var steps = distance.Skip(1).Zip(distance, (after, before) => after - before).Order().ToArray();
        var usual = steps[steps.Length / 2];
        var step = (distance[^1] - distance[0]) / (distance.Length - 1);
        double Before(int row) => distance[row] - distance[row - 1];
        for (var row = 1; row < distance.Length; row++)
        {
            if (Before(row) > 1.5 * usual)
            {
                throw new DataFileException(table.FaultAt(row, Distance, FormattableString.Invariant(
                    $"the profile has a gap: {Before(row):G4} m after the row before, where {usual:G4} m is usual; split the file there")));
            }
        }

        for (var row = 1; row < distance.Length; row++)
        {
            // Each place is also held against the whole grid.
            if (Math.Abs(Before(row) - usual) > StepTolerance * usual || Math.Abs(distance[row] - distance[0] - (row * step)) > 0.5 * step)
            {
                throw new DataFileException(table.FaultAt(row, Distance, FormattableString.Invariant(
                    $"the steps are not even: {Before(row):G6} m here, {usual:G6} m elsewhere; a spectrum and a roughness index need one step")));
            }
        }

        return step;
    }
}
