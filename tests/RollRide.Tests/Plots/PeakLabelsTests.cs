using CsCheck;
using OxyPlot;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class PeakLabelsTests
{
    private static readonly OxyRect Area = new(0, 0, 600, 300);

    [Fact]
    public void Arrange_peaks_close_together_overlaps_no_value_and_stays_in_the_plot() =>
        // Four values within a square of 40 units: there is always a free place within the reach of the candidates. Every other square
        // stands in a corner of the plot, where there are fewest.
        Gen.Select(Corner(560), Corner(260), Gen.Select(Gen.Double[0, 40], Gen.Double[0, 40]).Array[4]).SampleSame(1000, sample =>
        {
            var (x, y, peaks) = sample;
            var places = PeakLabels.Arrange([.. peaks.Select(peak => ("−4.9 deg", new ScreenPoint(x + peak.Item1, y + peak.Item2)))], [], Area);

            Assert.All(places, place => Assert.True(place.Left >= 0 && place.Right <= 600 && place.Top >= 0 && place.Bottom <= 300));
            for (var a = 0; a < places.Count; a++)
            {
                for (var b = 0; b < a; b++)
                    Assert.True(places[a].Intersect(places[b]).Width <= 0 || places[a].Intersect(places[b]).Height <= 0);
            }
        });

    private static Gen<double> Corner(double last) => Gen.OneOf(Gen.Double[0, last], Gen.Const(0.0), Gen.Const(last));

    [Fact]
    public void Arrange_peak_of_a_curve_puts_the_value_off_the_curve()
    {
        // A downward parabola with its top at (300, 100): above it is free, as screen coordinates grow downwards.
        var curve = Enumerable.Range(0, 601).Select(x => new ScreenPoint(x, 100 + 0.01 * (x - 300) * (x - 300))).ToArray();

        var place = PeakLabels.Arrange([("5 deg", new ScreenPoint(300, 100))], [curve], Area)[0];

        Assert.True(place.Bottom < 100);
        Assert.DoesNotContain(curve, place.Contains);
    }
}
