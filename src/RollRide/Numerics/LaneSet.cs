using System.Numerics;

namespace RollRide.Numerics;

/// <summary>Some of the lanes, one after the other.</summary>
/// <param name="lanes">A bit for each lane.</param>
internal struct LaneSet(int lanes)
{
    private int _rest = lanes;

    /// <summary>The lane it stands at.</summary>
    public int Current { get; private set; }

    /// <summary>For <c>foreach</c>.</summary>
    public readonly LaneSet GetEnumerator() => this;

    /// <summary>Goes to the next lane.</summary>
    public bool MoveNext()
    {
        if (_rest == 0)
            return false;
        Current = BitOperations.TrailingZeroCount(_rest);
        _rest &= _rest - 1;
        return true;
    }
}
