namespace RollRide.Plots;

/// <summary>Moves labels in a column apart until none overlaps, each as little as possible.</summary>
/// <remarks>
/// Minimises the sum of squared moves under the condition that neighbours keep their distance. With the distances subtracted this is
/// isotonic regression, solved exactly by pooling adjacent violators (Ayer et al., Annals of Mathematical Statistics 26, 1955, from
/// memory); limiting the pooled values to the column then gives the optimum within it.
/// </remarks>
internal static class LabelSpreader
{
    /// <summary>Centres of the labels, in the order given.</summary>
    /// <param name="wanted">Where each label would stand alone.</param>
    /// <param name="heights">Their heights.</param>
    /// <param name="low">Lower end of the column.</param>
    /// <param name="high">Upper end of the column. When the labels are higher than the column, they are centred on it.</param>
    public static double[] Spread(ReadOnlySpan<double> wanted, ReadOnlySpan<double> heights, double low, double high)
    {
        var count = wanted.Length;
        var order = new int[count];
        var keys = wanted.ToArray();
        for (var i = 0; i < count; i++)
            order[i] = i;
        // Labels that want the same place keep the order they came in.
        Array.Sort(order, (a, b) => keys[a] != keys[b] ? keys[a].CompareTo(keys[b]) : a.CompareTo(b));

        // distance[k]: from the first label's centre to the k-th one's when they touch.
        var distance = new double[count];
        for (var k = 1; k < count; k++)
            distance[k] = distance[k - 1] + (heights[order[k - 1]] + heights[order[k]]) / 2;

        var pools = new List<(double Sum, int Count)>(count);
        for (var k = 0; k < count; k++)
        {
            pools.Add((keys[order[k]] - distance[k], 1));
            while (pools.Count > 1 && Mean(pools[^2]) > Mean(pools[^1]))
            {
                var (sum, members) = pools[^1];
                pools.RemoveAt(pools.Count - 1);
                pools[^1] = (pools[^1].Sum + sum, pools[^1].Count + members);
            }
        }

        var centres = new double[count];
        if (count == 0)
            return centres;
        var first = low + heights[order[0]] / 2;
        var last = high - heights[order[^1]] / 2 - distance[^1];
        if (last < first)
            first = last = (first + last) / 2;
        var next = 0;
        foreach (var pool in pools)
        {
            var place = Math.Clamp(Mean(pool), first, last);
            for (var member = 0; member < pool.Count; member++, next++)
                centres[order[next]] = place + distance[next];
        }
        return centres;
    }

    private static double Mean((double Sum, int Count) pool) => pool.Sum / pool.Count;
}
