namespace RollRide.Numerics;

/// <summary>Numbers in order.</summary>
internal static class Ascending
{
    /// <summary>Puts numbers in ascending order and leaves each only once.</summary>
    /// <param name="numbers">The numbers; changed.</param>
    /// <returns>The same list.</returns>
    public static List<double> Once(List<double> numbers)
    {
        numbers.Sort();
        var kept = 0;
        for (var i = 0; i < numbers.Count; i++)
        {
            if (kept == 0 || numbers[i] != numbers[kept - 1])
                numbers[kept++] = numbers[i];
        }

        numbers.RemoveRange(kept, numbers.Count - kept);
        return numbers;
    }
}
