using System.Collections.Immutable;
using System.Globalization;
using RollRide.DataFiles;
using RollRide.Dynamics;

namespace RollRide.Results;

/// <summary>Writes the time history of one layout as CSV: one row per sample, the unit in each column's name.</summary>
public static class HistoryTable
{
    // More digits than the solver's tolerance leaves meaning in, and a third of the size of full precision.
    private const int SignificantDigits = 9;

    // Rows put in words together, some hundred kilobytes of text.
    private const int RowsTogether = 256;

    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="history">The channels over time.</param>
    public static void Write(TextWriter output, TimeHistory history)
    {
        ArgumentNullException.ThrowIfNull(output);
        ArgumentNullException.ThrowIfNull(history);
        string[] columns = ["time_s", .. ChannelsOf(history).Select(channel => channel.Column)];

        // Numbers take longer to put in words than to compute: while this thread writes some rows, another one puts the next ones in words.
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        for (var first = 0; first < history.Count; first += 2 * RowsTogether)
        {
            var start = first + RowsTogether;
            var next = start < history.Count ? Task.Run(() => WriteRows(text, columns, history, start)) : Task.CompletedTask;
            WriteRows(output, columns, history, first);
            next.GetAwaiter().GetResult();
            output.Write(text.GetStringBuilder());
            text.GetStringBuilder().Clear();
        }
    }

    private static ImmutableArray<ChannelInfo> ChannelsOf(TimeHistory history) => history.IsOfVehicle ? [.. ChannelTable.Recorded, .. ChannelTable.OfVehicle] : ChannelTable.Recorded;

    private static void WriteRows(TextWriter output, string[] columns, TimeHistory history, int first)
    {
        var channels = ChannelsOf(history);
        using var table = new CsvTableWriter(output, columns, SignificantDigits, continues: first > 0);
        var row = new double[columns.Length];
        var samples = new double[channels.Length][];
        var count = Math.Min(history.Count - first, RowsTogether);
        for (var c = 0; c < channels.Length; c++)
            history.Read(channels[c].Channel, first, samples[c] = new double[count]);
        for (var sample = 0; sample < count; sample++)
        {
            row[0] = history.Time(first + sample);
            for (var c = 0; c < channels.Length; c++)
                row[c + 1] = channels[c].Unit.Of(samples[c][sample]);
            table.WriteRow(row);
        }
    }
}
