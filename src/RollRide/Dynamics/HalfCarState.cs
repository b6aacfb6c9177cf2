namespace RollRide.Dynamics;

/// <summary>Where each state of the half-car stands in the state vector.</summary>
/// <remarks>
/// Displacements are counted from static equilibrium on a flat road. With a top mount two more states follow: the strokes of
/// the left and the right damper; with friction of the springs its deflection on the left and on the right follow those.
/// </remarks>
public static class HalfCarState
{
    /// <summary>Body heave <c>zs</c>, m.</summary>
    public const int BodyHeave = 0;

    /// <summary>Body roll <c>φs</c>, rad.</summary>
    public const int BodyRoll = 1;

    /// <summary>Unsprung heave <c>zu</c>, m.</summary>
    public const int UnsprungHeave = 2;

    /// <summary>Unsprung roll <c>φu</c>, rad.</summary>
    public const int UnsprungRoll = 3;

    /// <summary>Number of degrees of freedom; the rate of coordinate <c>i</c> is state <c>Rates + i</c>.</summary>
    public const int Rates = 4;

    /// <summary>Number of states without top mounts.</summary>
    public const int Count = 8;

    /// <summary>Stroke of the left damper where it sits in a top mount, m; the right one follows.</summary>
    public const int LeftStroke = 8;

    /// <summary>Number of states with top mounts.</summary>
    public const int CountWithStrokes = 10;

    /// <summary>Number of states with all that may be added.</summary>
    public const int Most = 12;

    private const int Friction = 10;

    private static readonly string[] Names =
    [
        "body heave [m]", "body roll [rad]", "unsprung heave [m]", "unsprung roll [rad]",
        "body heave velocity [m/s]", "body roll velocity [rad/s]", "unsprung heave velocity [m/s]", "unsprung roll velocity [rad/s]",
        "left damper stroke [m]", "right damper stroke [m]", "left spring friction's deflection [m]", "right spring friction's deflection [m]",
    ];

    /// <summary>The name of a state with its unit, for messages.</summary>
    /// <param name="index">Index in the state vector.</param>
    /// <param name="hasStrokes">Whether the strokes of dampers in top mounts are among the states.</param>
    public static string Name(int index, bool hasStrokes = true) => Names[hasStrokes || index < LeftStroke ? index : index - LeftStroke + Friction];

    /// <summary>Where the deflection of the left spring's friction stands, m; the right one follows.</summary>
    /// <param name="hasStrokes">Whether the strokes of dampers in top mounts are among the states.</param>
    public static int LeftFriction(bool hasStrokes) => hasStrokes ? Friction : LeftStroke;
}
