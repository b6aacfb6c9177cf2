using CsCheck;
using RollRide.Plots;

namespace RollRide.Tests.Plots;

public class LabelSpreaderTests
{
    private const int Cases = 100;
    private const double Rounding = 1e-9; // positions are of order 1e3, sums of a dozen of them

    private static readonly Gen<(double Wanted, double Height)[]> Labels =
        Gen.Select(Gen.Double[-50, 450], Gen.Double[8, 30]).Array[1, 12];

    [Fact]
    public void Spread_any_labels_keeps_their_order_and_never_lets_them_overlap() =>
        Labels.SampleSame(Cases, labels =>
        {
            var centres = Spread(labels, 0, 400);
            for (var a = 0; a < labels.Length; a++)
            {
                for (var b = 0; b < labels.Length; b++)
                {
                    if (labels[a].Wanted < labels[b].Wanted)
                        Assert.True(centres[b] - centres[a] >= (labels[a].Height + labels[b].Height) / 2 - Rounding);
                }
            }
        });

    [Fact]
    public void Spread_labels_that_fit_the_column_leaves_all_inside_it() =>
        Labels.SampleSame(Cases, labels =>
        {
            var room = labels.Sum(label => label.Height);
            var centres = Spread(labels, 10, 10 + 1.01 * room);
            Assert.All(labels.Zip(centres), pair =>
            {
                Assert.True(pair.Second - pair.First.Height / 2 >= 10 - Rounding);
                Assert.True(pair.Second + pair.First.Height / 2 <= 10 + 1.01 * room + Rounding);
            });
        });

    [Fact]
    public void Spread_labels_that_do_not_fit_centres_them_on_the_column()
    {
        var centres = Spread([(5, 20), (5, 20), (5, 20)], 0, 30);

        Assert.Equal([-5, 15, 35], centres);
    }

    [Fact]
    public void Spread_labels_far_apart_moves_none() =>
        Assert.Equal([300, 20, 150], Spread([(300, 14), (20, 14), (150, 14)], 0, 400));

    [Fact]
    public void Spread_two_labels_at_one_place_moves_both_by_half_a_height() =>
        Assert.Equal([93, 107], Spread([(100, 14), (100, 14)], 0, 400));

    [Fact]
    public void Spread_moves_no_more_than_the_best_of_many_tried_arrangements() =>
        // Optimality: no admissible arrangement, here the result with all gaps and its place changed at random, has a smaller sum of squares.
        Gen.Select(Labels, Gen.Double[-5, 5], Gen.Double[0, 5].Array[12]).SampleSame(Cases, sample =>
        {
            var (labels, shift, gaps) = sample;
            var centres = Spread(labels, -10000, 10000);
            var order = Enumerable.Range(0, labels.Length).OrderBy(i => centres[i]).ToArray();
            var other = (double[])centres.Clone();
            var added = shift;
            for (var k = 0; k < order.Length; k++)
            {
                added += k == 0 ? 0 : gaps[k];
                other[order[k]] += added;
            }
            Assert.True(Moves(labels, centres) <= Moves(labels, other) + Rounding * 1e3);
        });

    private static double[] Spread((double Wanted, double Height)[] labels, double low, double high) =>
        LabelSpreader.Spread([.. labels.Select(label => label.Wanted)], [.. labels.Select(label => label.Height)], low, high);

    private static double Moves((double Wanted, double Height)[] labels, double[] centres) =>
        labels.Zip(centres).Sum(pair => Math.Pow(pair.Second - pair.First.Wanted, 2));
}
