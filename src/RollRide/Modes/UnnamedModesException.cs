namespace RollRide.Modes;

/// <summary>The modes have no names: some of them do not swing even with hardly any damping in the dampers.</summary>
public sealed class UnnamedModesException : Exception
{
    /// <summary>Makes the exception.</summary>
    public UnnamedModesException()
        : base("With tyres as strongly damped as these the axle does not swing, and its modes cannot be told apart.")
    {
    }
}
