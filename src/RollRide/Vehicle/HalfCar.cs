using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>
/// One axle of a vehicle with the body it carries, in the roll plane, without its dampers (see <see cref="DamperLayout"/>).
/// Axes are those of ISO 8855: y to the left, z up, roll positive when the left side rises.
/// </summary>
public sealed record HalfCar
{
    /// <summary>Standard acceleration of free fall, m/s² (ISO 80000-3).</summary>
    public const double StandardGravity = 9.80665;

    /// <summary>The vehicle's name, as the scenario gives it.</summary>
    public required string Name { get; init; }

    /// <summary>How the wheels are joined: a live axle or independent wheels.</summary>
    public required Suspension Suspension { get; init; }

    /// <summary>Distance between the centres of left and right tyre contact (of the pairs, with dual tyres) <c>t</c>, m; greater than 0.</summary>
    public required double Track { get; init => field = Require.Positive(value, "m", nameof(Track)); }

    /// <summary>The body on this axle.</summary>
    public required SprungBody Body { get; init; }

    /// <summary>Height of the roll centre above the road at rest <c>hrc</c>, m. May lie below the road.</summary>
    public required double RollCentreHeight { get; init => field = Require.Finite(value, "m", nameof(RollCentreHeight)); }

    /// <summary>
    /// How far the roll centre follows the body when the ride height changes, <c>σ</c>: 0 it stays on the axle, 1 it moves with the body. Null:
    /// as <see cref="Suspension.RollCentreBodyShare"/> says. With a <see cref="Linkage"/> the roll centre is constructed anew instead.
    /// </summary>
    public double? RollCentreBodyShare { get; init => field = value is { } share ? Require.Between(0, 1, share, "", nameof(RollCentreBodyShare)) : null; }

    /// <summary>What guides the left wheel of an independent suspension; null for a live axle, or where it is not known.</summary>
    public WheelLinkage? Linkage { get; init; }

    /// <summary>The travel that the suspension is laid out for; null where it is not given.</summary>
    public TravelRange? Travel { get; init; }

    /// <summary>The axle with its wheels, or both wheels.</summary>
    public required UnsprungMass Unsprung { get; init; }

    /// <summary>The left spring; the right one is the same, unless <see cref="RightSide"/> says otherwise.</summary>
    public required Spring Spring { get; init; }

    /// <summary>The left bump stop, and the right one unless <see cref="RightSide"/> says otherwise; null for none.</summary>
    public TravelStop? BumpStop { get; init; }

    /// <summary>The left rebound stop, and the right one unless <see cref="RightSide"/> says otherwise; null for none.</summary>
    public TravelStop? ReboundStop { get; init; }

    /// <summary>Spring and stops of the right side where they are not those of the left one mirrored; null where they are. A stop stands on both sides or on none.</summary>
    public SuspensionSide? RightSide { get; init; }

    /// <summary>Anti-roll bar, as a moment over relative roll <c>Ka</c>, N·m/rad; 0 or more.</summary>
    public double AntiRollBar { get; init => field = Require.NotNegative(value, "N·m/rad", nameof(AntiRollBar)); }

    /// <summary>The tyres.</summary>
    public required Tyre Tyre { get; init; }

    /// <summary>The other axle of the vehicle; null where this axle is looked at by itself.</summary>
    public SecondAxle? SecondAxle { get; init; }

    /// <summary>How far the seat stands from this axle towards the second one, m; 0 where there is none.</summary>
    public double SeatTowardsSecondAxle { get; init => field = Require.Finite(value, "m", nameof(SeatTowardsSecondAxle)); }

    /// <summary>Lateral position of the seat at which accelerations are also given, m, positive to the left.</summary>
    public double SeatOffset { get; init => field = Require.Finite(value, "m", nameof(SeatOffset)); }

    /// <summary>Acceleration of free fall, m/s²; greater than 0. Textbook examples use 9.81.</summary>
    public double Gravity { get; init => field = Require.Positive(value, "m/s²", nameof(Gravity)); } = StandardGravity;

    /// <summary>
    /// The combinations of heave and roll that the suspension can reach: those of <see cref="Travel"/>, or without it those that the stops leave
    /// free; null where neither is known.
    /// </summary>
    public TravelEnvelope? Envelope => TravelEnvelope.Of(this);

    /// <summary>What its tyres carry over the travel; null where <see cref="Travel"/> does not ask. Of a vehicle under a load it is that of the design, counted from there.</summary>
    internal StandingTyres? StandingTyres
    {
        get => field ?? (Travel is { Combinations: TravelCombinations.UntilStopsTouchOrTyresLift } ? new StandingTyres(this) : null);
        init;
    }

    /// <summary>Whether its springs hold it level at the design load: neither has been raised or has sagged.</summary>
    public bool IsLevelAtDesign => Spring.PreloadChange == 0 && RightSide is not { Spring.PreloadChange: not 0 };

    /// <summary>Spring and stops of one side.</summary>
    /// <param name="side">The side of the vehicle.</param>
    public SuspensionSide On(Side side) => side == Side.Right && RightSide is { } right ? right : new SuspensionSide(Spring, BumpStop, ReboundStop);

    /// <summary>The vehicle with spring and stops changed on either side; sides that are the same stay so.</summary>
    /// <param name="change">Makes the changed side of one as it is.</param>
    public HalfCar With(Func<SuspensionSide, SuspensionSide> change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return With(change(On(Side.Left)), RightSide is null ? null : change(RightSide));
    }

    /// <summary>The vehicle with other springs and stops.</summary>
    /// <param name="left">The left side.</param>
    /// <param name="right">The right side; null where it is the left one mirrored.</param>
    public HalfCar With(SuspensionSide left, SuspensionSide? right)
    {
        ArgumentNullException.ThrowIfNull(left);
        return this with { Spring = left.Spring, BumpStop = left.BumpStop, ReboundStop = left.ReboundStop, RightSide = right };
    }

    /// <summary>Half the track <c>T = t/2</c>, m.</summary>
    public double HalfTrack => Track / 2;

    /// <summary>Height of the body's centre of gravity above the roll centre <c>h = hcg − hrc</c>, m.</summary>
    public double RollArm => Body.CgHeight - RollCentreHeight;

    /// <summary>Roll inertia of the body about the roll centre <c>Is + ms (h² + yG²)</c>, kg·m².</summary>
    public double BodyRollInertia => Body.RollInertia + (Body.Mass * RollArm * RollArm) + (Body.Mass * Body.CgOffset * Body.CgOffset);

    /// <summary>Inertia of the unsprung roll, kg·m²: that of the <see cref="Suspension"/>.</summary>
    /// <exception cref="InvalidOperationException">A live axle without <see cref="UnsprungMass.AxleRollInertia"/>.</exception>
    public double UnsprungRollInertia => Suspension.RollInertia(this);

    /// <summary>Lateral acceleration's moment on the unsprung roll <c>ms hrc + mu hu</c>, kg·m.</summary>
    public double UnsprungLateralMoment => (Body.Mass * RollCentreHeight) + (Unsprung.Mass * Unsprung.CgHeight);

    /// <summary>Lateral positions of the tyre contacts from left to right, m: two, or four with dual tyres.</summary>
    public IReadOnlyList<double> ContactPositions =>
        Tyre.DualSpacing is { } spacing
            ? [HalfTrack + (spacing / 2), HalfTrack - (spacing / 2), -HalfTrack + (spacing / 2), -HalfTrack - (spacing / 2)]
            : [HalfTrack, -HalfTrack];

    /// <summary>Static load of one tyre <c>F0 = (ms + mu) g / contacts</c>, N.</summary>
    public double StaticTyreLoad => (Body.Mass + Unsprung.Mass) * Gravity / (Tyre.DualSpacing is null ? 2 : 4);
}
