using RollRide.DataFiles;
using RollRide.Dynamics;

namespace RollRide.Results;

/// <summary>Writes the time history of one layout as CSV: a row a sample, the unit in each column's name.</summary>
public static class HistoryTable
{
    // More digits than the solver's tolerance leaves meaning in, and a third of the size of full precision.
    private const int SignificantDigits = 9;

    /// <summary>Writes the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="history">The channels over time.</param>
    public static void Write(TextWriter output, TimeHistory history)
    {
        ArgumentNullException.ThrowIfNull(history);
        var channels = ChannelTable.Recorded;
        using var table = new CsvTableWriter(output, channels.Select(channel => channel.Column).Prepend("time_s"), SignificantDigits);
        var row = new double[channels.Length + 1];
        for (var sample = 0; sample < history.Count; sample++)
        {
            row[0] = history.Time(sample);
            for (var c = 0; c < channels.Length; c++)
                row[c + 1] = history[channels[c].Channel][sample] * channels[c].Scale;
            table.WriteRow(row);
        }
    }
}
