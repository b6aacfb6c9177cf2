namespace RollRide.Dynamics;

/// <summary>A quantity of the result at an instant, in SI units; <see cref="ChannelTable"/> says how each is shown.</summary>
public enum Channel
{
    /// <summary>Body heave, m, upwards.</summary>
    BodyHeave,

    /// <summary>Body roll, rad, positive when the left side rises.</summary>
    BodyRoll,

    /// <summary>Unsprung heave, m.</summary>
    UnsprungHeave,

    /// <summary>Unsprung roll, rad.</summary>
    UnsprungRoll,

    /// <summary>Body heave velocity, m/s.</summary>
    BodyHeaveRate,

    /// <summary>Body roll velocity, rad/s.</summary>
    BodyRollRate,

    /// <summary>Unsprung heave velocity, m/s.</summary>
    UnsprungHeaveRate,

    /// <summary>Unsprung roll velocity, rad/s.</summary>
    UnsprungRollRate,

    /// <summary>Vertical acceleration of the body at its centre of gravity, m/s².</summary>
    BodyAcceleration,

    /// <summary>Roll acceleration of the body, rad/s².</summary>
    BodyRollAcceleration,

    /// <summary>Vertical acceleration of the unsprung mass, m/s².</summary>
    UnsprungAcceleration,

    /// <summary>Roll acceleration of the unsprung mass, rad/s².</summary>
    UnsprungRollAcceleration,

    /// <summary>Vertical acceleration of the body at the seat, m/s².</summary>
    SeatAcceleration,

    /// <summary>Relative heave q, m, positive in compression.</summary>
    SuspensionHeave,

    /// <summary>Travel of the left wheel relative to the body, m, positive in compression.</summary>
    WheelTravelLeft,

    /// <summary>Travel of the right wheel relative to the body, m, positive in compression.</summary>
    WheelTravelRight,

    /// <summary>Stroke of the left damper from ride height, m, positive in compression.</summary>
    DamperTravelLeft,

    /// <summary>Stroke of the right damper from ride height, m.</summary>
    DamperTravelRight,

    /// <summary>Velocity of the left damper, m/s, positive in compression.</summary>
    DamperVelocityLeft,

    /// <summary>Velocity of the right damper, m/s.</summary>
    DamperVelocityRight,

    /// <summary>Force of the left damper without its gas force, N, positive in compression.</summary>
    DamperForceLeft,

    /// <summary>Force of the right damper without its gas force, N.</summary>
    DamperForceRight,

    /// <summary>Absolute pressure of the left damper's gas, Pa, where it is known; else 0.</summary>
    GasPressureLeft,

    /// <summary>The same of the right damper, Pa.</summary>
    GasPressureRight,

    /// <summary>Absolute pressure in the left damper's chamber around the rod, Pa, where gas and piston are known; else 0. Below 0 the oil there would have torn off.</summary>
    RodChamberPressureLeft,

    /// <summary>The same of the right damper, Pa.</summary>
    RodChamberPressureRight,

    /// <summary>Total force of the left spring with its friction, N.</summary>
    SpringForceLeft,

    /// <summary>Total force of the right spring, N.</summary>
    SpringForceRight,

    /// <summary>Friction of the left spring, N, positive where it resists compression.</summary>
    SpringFrictionLeft,

    /// <summary>The same of the right spring, N.</summary>
    SpringFrictionRight,

    /// <summary>Power that the friction of both springs turns into heat, W.</summary>
    SpringFrictionHeat,

    /// <summary>Force of the left bump stop, N; 0 when not touching.</summary>
    BumpStopForceLeft,

    /// <summary>Force of the right bump stop, N.</summary>
    BumpStopForceRight,

    /// <summary>Force of the left rebound stop, N; negative when touching.</summary>
    ReboundStopForceLeft,

    /// <summary>Force of the right rebound stop, N.</summary>
    ReboundStopForceRight,

    /// <summary>Load on the road of all tyres of the left side, N.</summary>
    TyreLoadLeft,

    /// <summary>Load on the road of all tyres of the right side, N.</summary>
    TyreLoadRight,

    /// <summary>Load on the road of the left side less its static load, N.</summary>
    TyreLoadChangeLeft,

    /// <summary>The same of the right side, N.</summary>
    TyreLoadChangeRight,

    /// <summary>Load of the left outer tyre, N; with single tyres the left tyre.</summary>
    TyreLoadLeftOuter,

    /// <summary>Load of the left inner tyre, N; with single tyres the left tyre.</summary>
    TyreLoadLeftInner,

    /// <summary>Load of the right inner tyre, N; with single tyres the right tyre.</summary>
    TyreLoadRightInner,

    /// <summary>Load of the right outer tyre, N; with single tyres the right tyre.</summary>
    TyreLoadRightOuter,

    /// <summary>Largest load of the left side's tyres before the limit at zero, N: negative while the side is in the air.</summary>
    TyreContactLeft,

    /// <summary>The same of the right side, N.</summary>
    TyreContactRight,

    /// <summary>Load of the left outer tyre before the limit at zero, N: negative while it is in the air.</summary>
    TyreContactLeftOuter,

    /// <summary>The same of the left inner tyre, N.</summary>
    TyreContactLeftInner,

    /// <summary>The same of the right inner tyre, N.</summary>
    TyreContactRightInner,

    /// <summary>The same of the right outer tyre, N.</summary>
    TyreContactRightOuter,

    /// <summary>Road elevation under the left wheel, m.</summary>
    RoadLeft,

    /// <summary>Road elevation under the right wheel, m.</summary>
    RoadRight,

    /// <summary>Lateral acceleration, m/s², positive in a left turn.</summary>
    LateralAcceleration,

    /// <summary>Body heave at the second axle, m; this and what follows of it is 0 without one.</summary>
    SecondBodyHeave,

    /// <summary>Body roll at the second axle, rad.</summary>
    SecondBodyRoll,

    /// <summary>Pitch of the body, rad, positive nose down (ISO 8855).</summary>
    Pitch,

    /// <summary>Twist of the frame, rad: body roll at the front axle less that at the rear one.</summary>
    FrameTwist,

    /// <summary>Load on the road of all tyres of the second axle's left side, N.</summary>
    SecondTyreLoadLeft,

    /// <summary>The same of its right side, N.</summary>
    SecondTyreLoadRight,

    /// <summary>What the driver or the record commands: steering-wheel angle, rad, or lateral acceleration, m/s².</summary>
    CorneringCommand,
}
