using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>Says which values the parameters have in each point of a sweep.</summary>
/// <remarks>Immutable and thread-safe: any point can be had at any time, whatever the order.</remarks>
public abstract class SweepDesign
{
    private protected SweepDesign(ImmutableArray<SweepParameter> parameters) => Parameters = parameters;

    /// <summary>The parameters.</summary>
    public ImmutableArray<SweepParameter> Parameters { get; }

    /// <summary>The number of points.</summary>
    public abstract long Count { get; }

    /// <summary>Whether the points are samples of distributions, so that their statistics mean something.</summary>
    public virtual bool IsSampled => false;

    /// <summary>Whether the points drawn at random and independently of each other include this one.</summary>
    /// <param name="index">The point.</param>
    public virtual bool CountsInStatistics(long index) => true;

    /// <summary>Gives the values of a point.</summary>
    /// <param name="index">The point, from 0.</param>
    /// <param name="values">Takes one value per parameter.</param>
    public abstract void Point(long index, Span<double> values);

    /// <summary>The values of a point, one per parameter.</summary>
    /// <param name="index">The point, from 0.</param>
    public double[] ValuesOf(long index)
    {
        var values = new double[Parameters.Length];
        Point(index, values);
        return values;
    }

    private protected void TakeQuantiles(ReadOnlySpan<double> shares, Span<double> values)
    {
        for (var i = 0; i < values.Length; i++)
            values[i] = Parameters[i].Values.Quantile(shares[i]);
    }
}
