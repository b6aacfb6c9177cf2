using RollRide.Metrics;
using RollRide.Report;

namespace RollRide.Tests.Report;

public class ComparisonTableTests
{
    public static TheoryData<Better, double?[], int[]> Marks => new()
    {
        { Better.Less, [1, 2, 3], [1, 0, -1] },
        { Better.More, [1, 2, 3], [-1, 0, 1] },
        { Better.Neither, [1, 2, 3], [0, 0, 0] },
        { Better.Less, [1, 1.019], [0, 0] }, // far within what counts
        { Better.Less, [1, 1.06], [1, -1] },
        { Better.Less, [0, 0], [0, 0] },
        { Better.Less, [1, 2, null], [1, 0, 0] }, // the layout without a value may be the worst
        { Better.Less, [5, null], [0, 0] },
        { Better.Less, [-2, 1], [1, -1] },
        { Better.Less, [1.04, 1], [0, 0] }, // nobody feels 4 %
        { Better.Less, [1, 1.03, 2, 1.96], [1, 1, -1, -1] }, // what is similar to the best is as good
        { Better.Less, [1, 1.04, 1.08], [1, 0, -1] }, // similar to both is neither
        { Better.Less, [0.004, 0.001], [0, 0] }, // shown as the same number
        { Better.Smaller, [-4, 6, -5], [1, -1, 0] }, // a right turn is as good as a left one
    };

    [Theory]
    [MemberData(nameof(Marks))]
    public void Mark_finds_best_and_worst(Better better, double?[] values, int[] marks) =>
        Assert.Equal(
            marks.Where((_, i) => values[i] is not null),
            values.OfType<double>().Select(value => ComparisonTable.Mark(better, values, value, 2, (one, other) => Math.Max(Math.Abs(one), Math.Abs(other)))));
}
