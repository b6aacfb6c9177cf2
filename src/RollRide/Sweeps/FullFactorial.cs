using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>Every combination of the parameters' levels; the last parameter changes fastest.</summary>
public sealed class FullFactorial : SweepDesign
{
    /// <summary>Makes the design.</summary>
    /// <param name="parameters">The parameters, each with levels; without any there is one point, the scenario as it stands.</param>
    public FullFactorial(ImmutableArray<SweepParameter> parameters)
        : base(parameters)
    {
        Count = 1;
        foreach (var parameter in parameters)
            Count = checked(Count * parameter.Values.Levels.Length);
    }

    /// <inheritdoc/>
    public override long Count { get; }

    /// <inheritdoc/>
    public override void Point(long index, Span<double> values)
    {
        for (var i = Parameters.Length - 1; i >= 0; i--)
        {
            var levels = Parameters[i].Values.Levels;
            values[i] = levels[(int)(index % levels.Length)];
            index /= levels.Length;
        }
    }
}
