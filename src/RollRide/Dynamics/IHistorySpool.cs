namespace RollRide.Dynamics;

/// <summary>Where the samples of a long run wait outside the memory. Appended to by one thread; read by several, once all is there.</summary>
public interface IHistorySpool
{
    /// <summary>Adds values at the end.</summary>
    /// <param name="values">The values.</param>
    void Append(ReadOnlySpan<double> values);

    /// <summary>Reads values.</summary>
    /// <param name="first">Place of the first, counted in values from the beginning.</param>
    /// <param name="values">Takes them; all of them have been appended.</param>
    void Read(long first, Span<double> values);
}
