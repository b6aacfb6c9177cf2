namespace RollRide.Modes;

/// <summary>The body does not swing about rest: gravity's moment on the leaning body is stronger than the roll stiffness.</summary>
public sealed class UnstableBodyException : Exception
{
    /// <summary>Makes the exception.</summary>
    public UnstableBodyException()
        : base("The body is unstable in roll: its weight above the roll centre (ms g h) outdoes the roll stiffness of springs, bar and tyres. Natural modes exist only about a stable position.")
    {
    }
}
