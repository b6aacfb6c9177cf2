using System.Collections.Immutable;

namespace RollRide.Sweeps;

/// <summary>The scenario as it stands, then each level of each parameter with all others as they stand.</summary>
public sealed class OneAtATime(ImmutableArray<SweepParameter> parameters) : SweepDesign(parameters)
{
    /// <inheritdoc/>
    public override long Count => 1 + Parameters.Sum(parameter => (long)parameter.Values.OneAtATimeLevels.Length);

    /// <inheritdoc/>
    public override void Point(long index, Span<double> values)
    {
        for (var i = 0; i < values.Length; i++)
            values[i] = Parameters[i].BaseValue;
        var at = index - 1;
        for (var i = 0; i < values.Length && at >= 0; i++)
        {
            var levels = Parameters[i].Values.OneAtATimeLevels;
            if (at < levels.Length)
                values[i] = levels[(int)at];
            at -= levels.Length;
        }
    }
}
