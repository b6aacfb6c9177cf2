using RollRide.Dynamics;

namespace RollRide.Metrics;

/// <summary>
/// The largest value that either side's channel reaches, each times a factor: the sides' largest with 1, the size of their least with −1. Each
/// side is looked at by itself, since the larger of the two has a kink wherever they cross.
/// </summary>
internal struct LargerPeak(Channel left, double factor)
{
    private Peak<Scaled> _left = new(new(left, factor));
    private Peak<Scaled> _right = new(new(left + 1, factor));

    /// <summary>The largest value so far.</summary>
    public readonly double Value => _left.Value;

    /// <summary>Adds a step.</summary>
    public void Add(StepSamples step)
    {
        // Each side only has to exceed the larger one so far.
        _left.Add(step);
        _right.Merge(_left);
        _right.Add(step);
        _left.Merge(_right);
    }

    /// <summary>Takes the later of two spans of time into account.</summary>
    public void Merge(in LargerPeak later) => Take(later.Value);

    /// <summary>Takes a value that was reached into account.</summary>
    public void Take(double value)
    {
        // No figure asks when.
        _left.Take(double.NaN, value);
        _right.Take(double.NaN, value);
    }
}
