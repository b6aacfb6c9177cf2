namespace RollRide.Vehicle;

/// <summary>How the two wheels of the axle are joined.</summary>
public enum SuspensionKind
{
    /// <summary>A rigid axle carries both wheels: in roll, an element inboard moves less than the wheel.</summary>
    LiveAxle,

    /// <summary>Each wheel moves its own elements: heave and roll ratios are the same.</summary>
    Independent,
}
