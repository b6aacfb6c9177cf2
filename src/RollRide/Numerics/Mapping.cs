namespace RollRide.Numerics;

/// <summary>Makes arrays from other values.</summary>
/// <remarks>
/// As <c>Select(…).ToArray()</c> does. The framework's generic methods over numbers are compiled anew each time the program starts, ten and
/// more for one such line; those of the project are in its machine code. It counts where every command passes.
/// </remarks>
internal static class Mapping
{
    /// <summary>One result per value, in the same order.</summary>
    /// <param name="values">The values.</param>
    /// <param name="result">Gives the result of a value.</param>
    public static TResult[] Map<T, TResult>(this ReadOnlySpan<T> values, Func<T, TResult> result)
    {
        var results = new TResult[values.Length];
        for (var i = 0; i < results.Length; i++)
            results[i] = result(values[i]);
        return results;
    }
}
