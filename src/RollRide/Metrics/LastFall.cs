using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace RollRide.Metrics;

/// <summary>The last instant at which a quantity fell through zero for good.</summary>
internal struct LastFall<TQuantity>(TQuantity quantity)
    where TQuantity : struct, IQuantity
{
    private bool _started;
    private bool _isAbove;

    /// <summary>The instant, s; null while the quantity is above zero.</summary>
    public double? Time { get; private set; }

    /// <summary>Adds a step.</summary>
    public void Add(StepSamples step)
    {
        var values = quantity.Of(step.Nodes);
        var above = Vector512.GreaterThan(values, Vector512<double>.Zero).ExtractMostSignificantBits() & step.Rule.Mask;
        if (!_started || above != (_isAbove ? step.Rule.Mask : 0))
            Look(step, values);
    }

    [MethodImpl(MethodImplOptions.NoInlining)]
    private void Look(StepSamples step, Vector512<double> values)
    {
        var before = values[0];
        if (!_started)
        {
            _started = true;
            _isAbove = before > 0;
            Time = _isAbove ? null : step.Start;
        }

        for (var node = 1; node < step.Rule.Count; node++)
        {
            var after = values[node];
            if (after > 0)
            {
                _isAbove = true;
                Time = null;
            }
            else if (_isAbove)
            {
                _isAbove = false;
                Time = before <= 0 ? step.Time(node - 1) : after == 0 ? step.Time(node) : step.Crossing(quantity, step.Time(node - 1), step.Time(node));
            }

            before = after;
        }
    }
}
