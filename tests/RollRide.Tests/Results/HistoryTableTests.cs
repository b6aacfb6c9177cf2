using System.Globalization;
using RollRide.Dynamics;
using RollRide.Results;
using RollRide.Tests.Studies;

namespace RollRide.Tests.Results;

public class HistoryTableTests
{
    [Fact]
    public void Table_has_a_row_a_millisecond_and_every_channel_in_its_unit()
    {
        var history = ShortScenario.Pair().Record().Layouts[0].History;
        using var output = new StringWriter();
        HistoryTable.Write(output, history);

        var lines = output.ToString().TrimEnd('\n').Split('\n').Select(line => line.Split(',')).ToArray();

        Assert.Equal(["time_s", .. ChannelTable.Recorded.Select(channel => channel.Column)], lines[0]);
        Assert.Equal(2001 + 1, lines.Length); // 2 s at 1 kHz, both ends, and the header
        for (var k = 0; k < history.Count; k++)
        {
            var row = lines[k + 1];
            Assert.Equal(k / 1000.0, double.Parse(row[0], CultureInfo.InvariantCulture));
            for (var c = 0; c < ChannelTable.Recorded.Length; c++)
            {
                var channel = ChannelTable.Recorded[c];
                var expected = history[channel.Channel][k] * channel.Unit.PerSi;
                // Nine significant digits are written: half a unit in the ninth.
                Assert.Equal(expected, double.Parse(row[c + 1], CultureInfo.InvariantCulture), 5e-9 * Math.Abs(expected));
            }
        }
    }

    [Fact]
    public void Columns_are_those_a_colleague_needs()
    {
        var columns = ChannelTable.Recorded.Select(channel => channel.Column).ToArray();

        Assert.Equal(columns.Length, columns.Distinct().Count());
        string[] needed =
        [
            "roadLeft_mm", "lateralAcceleration_m_per_s2", "bodyHeave_mm", "bodyRoll_deg", "unsprungHeave_mm", "unsprungRoll_deg",
            "bodyAcceleration_m_per_s2", "bodyRollAcceleration_rad_per_s2", "wheelTravelLeft_mm", "damperTravelRight_mm",
            "damperVelocityLeft_m_per_s", "damperForceRight_N", "tyreLoadLeft_N",
        ];
        Assert.Empty(needed.Except(columns));
    }
}
