namespace RollRide.Dynamics.Series;

/// <summary>
/// Where each constant of the equations stands. The first ones hold only until a force law reaches its next kink: the
/// stiffness and damping of the pieces that act now.
/// </summary>
internal static class SeriesConstant
{
    /// <summary>Suspension: force over relative heave, N/m.</summary>
    public const int HeaveStiffness = 0;

    /// <summary>Suspension: force over relative roll, and moment over relative heave, N.</summary>
    public const int CrossStiffness = 1;

    /// <summary>Suspension: moment over relative roll, N·m.</summary>
    public const int RollStiffness = 2;

    /// <summary>Dampers: force over relative heave velocity, N·s/m.</summary>
    public const int HeaveDamping = 3;

    /// <summary>Dampers: force over relative roll velocity, N·s.</summary>
    public const int CrossDamping = 4;

    /// <summary>Dampers: moment over relative roll velocity, N·m·s.</summary>
    public const int RollDamping = 5;

    /// <summary>Force of the pieces extended to zero, less the weight, N.</summary>
    public const int Force = 6;

    /// <summary>Moment of the pieces extended to zero, N·m.</summary>
    public const int Moment = 7;

    /// <summary>Tyres on the ground: force over heave, N/m.</summary>
    public const int TyreHeaveStiffness = 8;

    /// <summary>Tyres on the ground: force over roll, N.</summary>
    public const int TyreCrossStiffness = 9;

    /// <summary>Tyres on the ground: moment over roll, N·m.</summary>
    public const int TyreRollStiffness = 10;

    /// <summary>Force missing of tyres in the air, N.</summary>
    public const int TyreForce = 11;

    /// <summary>Moment of the force missing of tyres in the air, N·m.</summary>
    public const int TyreMoment = 12;

    /// <summary>Number of left tyres on the ground.</summary>
    public const int LeftTyres = 13;

    /// <summary>Number of right tyres on the ground.</summary>
    public const int RightTyres = 14;

    /// <summary>Sum of the positions of left tyres on the ground, m.</summary>
    public const int LeftTyreArm = 15;

    /// <summary>Sum of the positions of right tyres on the ground, m.</summary>
    public const int RightTyreArm = 16;

    /// <summary>First of four: k of the square-law stops that are closed, N/m².</summary>
    public const int SquareStop = 17;

    /// <summary>1/ms, 1/kg.</summary>
    public const int BodyMobility = 21;

    /// <summary>1/(Is + ms h²), 1/(kg·m²).</summary>
    public const int BodyRollMobility = 22;

    /// <summary>−1/mu, 1/kg.</summary>
    public const int UnsprungMobility = 23;

    /// <summary>−1/Iu, 1/(kg·m²).</summary>
    public const int UnsprungRollMobility = 24;

    /// <summary>ms h, kg·m.</summary>
    public const int BodyLateral = 25;

    /// <summary>ms hrc + mu hu, kg·m.</summary>
    public const int UnsprungLateral = 26;

    /// <summary>ms g h, N·m.</summary>
    public const int Gravity = 27;

    /// <summary>ct/kt, s.</summary>
    public const int TyreTime = 28;

    /// <summary>Half the track, m.</summary>
    public const int HalfTrack = 29;

    /// <summary>Heave ratio of the dampers.</summary>
    public const int DamperRatio = 30;

    /// <summary>Roll arm of the left damper, m.</summary>
    public const int DamperArm = 31;

    /// <summary>Heave ratio of the springs.</summary>
    public const int SpringRatio = 32;

    /// <summary>Roll arm of the left spring, m.</summary>
    public const int SpringArm = 33;

    /// <summary>kt, N/m.</summary>
    public const int TyreStiffness = 34;

    /// <summary>Static load of one tyre, N.</summary>
    public const int StaticLoad = 35;

    /// <summary>First of four: closing of a stop over relative heave.</summary>
    public const int StopRatio = 36;

    /// <summary>First of four: closing of a stop over relative roll, m.</summary>
    public const int StopArm = 40;

    /// <summary>First of four: clearance of a stop, m.</summary>
    public const int StopClearance = 44;

    /// <summary>First of four: position of a tyre contact, m.</summary>
    public const int Contact = 48;

    /// <summary>Slope of the piece of the left damper's law that acts, N·s/m, then of the right one's.</summary>
    public const int DamperSlope = 52;

    /// <summary>Force of the left damper's piece extended to zero, N, then of the right one's.</summary>
    public const int DamperOffset = 54;

    /// <summary>Number of constants.</summary>
    public const int Count = 56;
}
