using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The metrics of a phase, or of the whole run: all that is said of each, and how it is gathered. A new one is added here and nowhere else.</summary>
/// <remarks>The file is long because it is one table: each metric stands in it once.</remarks>
public sealed record PhaseMetric : MetricDefinition<PhaseMetrics>
{
    private static readonly Gauge RollToLeft = new PeakGauge<Value>(new(Channel.BodyRoll)) { IsTimed = true };
    private static readonly Gauge RollToRight = new PeakGauge<Value>(new(Channel.BodyRoll, -1)) { IsTimed = true };
    private static readonly Gauge LoadSquaresLeft = SquaresOf(new Value(Channel.TyreLoadChangeLeft));
    private static readonly Gauge LoadSquaresRight = SquaresOf(new Value(Channel.TyreLoadChangeRight));
    private static readonly Gauge LeastLoadLeft = new PeakGauge<Value>(new(Channel.TyreLoadLeft, -1));
    private static readonly Gauge LeastLoadRight = new PeakGauge<Value>(new(Channel.TyreLoadRight, -1));
    private static readonly Gauge[] TyreLifts =
    [
        .. ((Channel[])[Channel.TyreContactLeftOuter, Channel.TyreContactLeftInner, Channel.TyreContactRightInner, Channel.TyreContactRightOuter])
            .Select(contact => new SpellGauge<Value>(new(contact, -1)) { Concerns = car => car.Vehicle.Tyre.DualSpacing is not null }),
    ];

    private readonly Func<PhaseTallies, double?> _value;

    private static readonly Gauge[] CompressionVelocities = OfSides(Channel.DamperVelocityLeft, Channel.DamperVelocityRight, 1);
    private static readonly Gauge[] ReboundVelocities = OfSides(Channel.DamperVelocityLeft, Channel.DamperVelocityRight, -1);
    private static readonly Gauge[] CompressionTravels = OfSides(Channel.DamperTravelLeft, Channel.DamperTravelRight, 1);
    private static readonly Gauge[] ReboundTravels = OfSides(Channel.DamperTravelLeft, Channel.DamperTravelRight, -1);

    /// <summary>Roll of the body against the axle, either way.</summary>
    internal static Gauge SuspensionRoll { get; } = new PeakGauge<SuspensionRoll>(default);

    // Before the metrics that read them.
    /// <summary>Times for which all tyres of the left side were in the air.</summary>
    internal static Gauge LiftsLeft { get; } = new SpellGauge<Value>(new(Channel.TyreContactLeft, -1));

    /// <summary>Times for which all tyres of the right side were in the air.</summary>
    internal static Gauge LiftsRight { get; } = new SpellGauge<Value>(new(Channel.TyreContactRight, -1));

    /// <summary>Times for which the oil around the rod of the left damper cavitates.</summary>
    internal static Gauge CavitationsLeft { get; } = new SpellGauge<Value>(new(Channel.RodChamberPressureLeft, -1)) { Concerns = car => car.HasRodChamber };

    /// <summary>The same of the right damper.</summary>
    internal static Gauge CavitationsRight { get; } = new SpellGauge<Value>(new(Channel.RodChamberPressureRight, -1)) { Concerns = car => car.HasRodChamber };

    /// <summary>Pressure missing around the rod of the left damper, and the gas's at that instant.</summary>
    internal static Gauge PressureMissingLeft { get; } = new PeakGauge<Value>(new(Channel.RodChamberPressureLeft, -1)) { Beside = Channel.GasPressureLeft, Concerns = car => car.HasRodChamber };

    /// <summary>The same of the right damper.</summary>
    internal static Gauge PressureMissingRight { get; } = new PeakGauge<Value>(new(Channel.RodChamberPressureRight, -1)) { Beside = Channel.GasPressureRight, Concerns = car => car.HasRodChamber };

    private PhaseMetric(string name, string label, Unit unit, int decimals, Better better, string description, Reading reading)
        : base(name, label, unit, decimals, better, description) => (Gauges, _value) = ([.. reading.Gauges], reading.Value);

    /// <summary>Root mean square of the vertical acceleration of the body at its centre of gravity.</summary>
    public static PhaseMetric BodyAccelerationRms { get; } = new(
        "bodyAccelerationRms", "Body acceleration, RMS", Unit.MetrePerSecondSquared, 3, Better.Less,
        "Root mean square of the vertical acceleration of the body at its centre of gravity.",
        Rms(new Value(Channel.BodyAcceleration)));

    /// <summary>Largest absolute vertical acceleration of the body at its centre of gravity.</summary>
    public static PhaseMetric BodyAccelerationPeak { get; } = new(
        "bodyAccelerationPeak", "Body acceleration, peak", Unit.MetrePerSecondSquared, 2, Better.Less,
        "Largest absolute vertical acceleration of the body at its centre of gravity.",
        Largest(new Size(Channel.BodyAcceleration)));

    /// <summary>Root mean square of the roll acceleration of the body.</summary>
    public static PhaseMetric RollAccelerationRms { get; } = new(
        "rollAccelerationRms", "Roll acceleration, RMS", Unit.RadianPerSecondSquared, 3, Better.Less,
        "Root mean square of the roll acceleration of the body.",
        Rms(new Value(Channel.BodyRollAcceleration)));

    /// <summary>Largest absolute roll acceleration of the body.</summary>
    public static PhaseMetric RollAccelerationPeak { get; } = new(
        "rollAccelerationPeak", "Roll acceleration, peak", Unit.RadianPerSecondSquared, 2, Better.Less,
        "Largest absolute roll acceleration of the body.",
        Largest(new Size(Channel.BodyRollAcceleration)));

    /// <summary>Root mean square of the vertical acceleration at the seat.</summary>
    public static PhaseMetric SeatAccelerationRms { get; } = new(
        "seatAccelerationRms", "Seat acceleration, RMS", Unit.MetrePerSecondSquared, 3, Better.Less,
        "Root mean square of the vertical acceleration at the seat.",
        Rms(new Value(Channel.SeatAcceleration)));

    /// <summary>Largest absolute vertical acceleration at the seat.</summary>
    public static PhaseMetric SeatAccelerationPeak { get; } = new(
        "seatAccelerationPeak", "Seat acceleration, peak", Unit.MetrePerSecondSquared, 2, Better.Less,
        "Largest absolute vertical acceleration at the seat.",
        Largest(new Size(Channel.SeatAcceleration)));

    /// <summary>Vertical vibration at the centre of gravity, frequency-weighted with Wk after ISO 2631-1, root mean square.</summary>
    public static PhaseMetric BodyWeightedRms { get; } = new(
        "bodyWeightedRms", "Body, weighted RMS (Wk)", Unit.MetrePerSecondSquared, 3, Better.Less,
        "Vertical vibration at the centre of gravity, frequency-weighted with Wk after ISO 2631-1, root mean square.",
        new([], t => t.BodyComfort.WeightedRms));

    /// <summary>Vertical vibration at the seat, frequency-weighted with Wk after ISO 2631-1, root mean square.</summary>
    public static PhaseMetric SeatWeightedRms { get; } = new(
        "seatWeightedRms", "Seat, weighted RMS (Wk)", Unit.MetrePerSecondSquared, 3, Better.Less,
        "Vertical vibration at the seat, frequency-weighted with Wk after ISO 2631-1, root mean square.",
        new([], t => t.SeatComfort.WeightedRms));

    /// <summary>Vibration dose value at the seat after ISO 2631-1, which counts shocks more than the root mean square does.</summary>
    public static PhaseMetric SeatVibrationDose { get; } = new(
        "seatVibrationDose", "Seat, vibration dose", Unit.VibrationDose, 2, Better.Less,
        "Vibration dose value at the seat after ISO 2631-1, which counts shocks more than the root mean square does.",
        new([], t => t.SeatComfort.VibrationDoseValue));

    /// <summary>Largest weighted acceleration at the seat over its root mean square. Empty where nothing moves.</summary>
    public static PhaseMetric SeatCrestFactor { get; } = new(
        "seatCrestFactor", "Seat, crest factor", Unit.One, 1, Better.Less,
        "Largest weighted acceleration at the seat over its root mean square. Empty where nothing moves.",
        new([], t => t.SeatComfort.CrestFactor));

    /// <summary>The largest body roll angle either way, with its sign.</summary>
    public static PhaseMetric RollAngleLargest { get; } = new(
        "rollAngleLargest", "Roll angle, largest", Unit.Degree, 2, Better.Smaller,
        "The largest body roll angle either way, with its sign.",
        new([RollToLeft, RollToRight], t => t[RollToLeft].Value >= t[RollToRight].Value ? t[RollToLeft].Value : -t[RollToRight].Value));

    /// <summary>When the largest body roll angle is reached, from the start of the run.</summary>
    public static PhaseMetric RollAngleLargestTime { get; } = new(
        "rollAngleLargestTime", "Time of largest roll angle", Unit.Second, 3, Better.Neither,
        "When the largest body roll angle is reached, from the start of the run.",
        new([RollToLeft, RollToRight], t => t[RollToLeft].Value >= t[RollToRight].Value ? t[RollToLeft].Time : t[RollToRight].Time));

    /// <summary>Largest bump travel of either wheel from ride height.</summary>
    public static PhaseMetric BumpTravelPeak { get; } = new(
        "bumpTravelPeak", "Wheel travel, bump", Unit.Millimetre, 1, Better.Neither,
        "Largest bump travel of either wheel from ride height.",
        LargestOfSides(Channel.WheelTravelLeft, Channel.WheelTravelRight, 1));

    /// <summary>Largest rebound travel of either wheel from ride height, as a positive number.</summary>
    public static PhaseMetric ReboundTravelPeak { get; } = new(
        "reboundTravelPeak", "Wheel travel, rebound", Unit.Millimetre, 1, Better.Neither,
        "Largest rebound travel of either wheel from ride height, as a positive number.",
        LargestOfSides(Channel.WheelTravelLeft, Channel.WheelTravelRight, -1));

    /// <summary>Root mean square of the relative heave: how far the suspension moves about ride height with both wheels together.</summary>
    public static PhaseMetric RelativeHeaveRms { get; } = new(
        "relativeHeaveRms", "Relative heave, RMS", Unit.Millimetre, 2, Better.Neither,
        "Root mean square of the relative heave: how far the suspension moves about ride height with both wheels together.",
        Rms(new Value(Channel.SuspensionHeave)));

    /// <summary>Root mean square of the relative roll: how far the suspension rolls about ride height, one wheel up and the other down.</summary>
    public static PhaseMetric RelativeRollRms { get; } = new(
        "relativeRollRms", "Relative roll, RMS", Unit.Degree, 2, Better.Neither,
        "Root mean square of the relative roll: how far the suspension rolls about ride height, one wheel up and the other down.",
        Rms(default(SuspensionRoll)));

    /// <summary>Times a bump stop began to touch, both sides together; one that touches already at the start does not count.</summary>
    public static PhaseMetric BumpStopContacts { get; } = new(
        "bumpStopContacts", "Bump stop contacts", Unit.One, 0, Better.Less,
        "Times a bump stop began to touch, both sides together; one that touches already at the start does not count.",
        Contacts(Channel.BumpStopForceLeft, Channel.BumpStopForceRight, 1));

    /// <summary>Times a rebound stop began to touch, both sides together; one that touches already at the start does not count.</summary>
    public static PhaseMetric ReboundStopContacts { get; } = new(
        "reboundStopContacts", "Rebound stop contacts", Unit.One, 0, Better.Less,
        "Times a rebound stop began to touch, both sides together; one that touches already at the start does not count.",
        Contacts(Channel.ReboundStopForceLeft, Channel.ReboundStopForceRight, -1));

    /// <summary>Smallest load of either side on the road; of dual tyres both together.</summary>
    public static PhaseMetric TyreLoadMinimum { get; } = new(
        "tyreLoadMinimum", "Tyre load, minimum", Unit.Newton, 0, Better.More,
        "Smallest load of either side on the road; of dual tyres both together.",
        new([LeastLoadLeft, LeastLoadRight], t => -Math.Max(t[LeastLoadLeft].Value, t[LeastLoadRight].Value)));

    /// <summary>Smallest load of the left side on the road; of dual tyres both together.</summary>
    public static PhaseMetric TyreLoadMinimumLeft { get; } = new(
        "tyreLoadMinimumLeft", "Tyre load, minimum, left", Unit.Newton, 0, Better.More,
        "Smallest load of the left side on the road; of dual tyres both together.",
        new([LeastLoadLeft], t => -t[LeastLoadLeft].Value));

    /// <summary>Smallest load of the right side on the road; of dual tyres both together.</summary>
    public static PhaseMetric TyreLoadMinimumRight { get; } = new(
        "tyreLoadMinimumRight", "Tyre load, minimum, right", Unit.Newton, 0, Better.More,
        "Smallest load of the right side on the road; of dual tyres both together.",
        new([LeastLoadRight], t => -t[LeastLoadRight].Value));

    /// <summary>Root mean square of a side's load change over its static load, of the worse side.</summary>
    public static PhaseMetric DynamicLoadCoefficient { get; } = new(
        "dynamicLoadCoefficient", "Tyre load change, RMS over static", Unit.One, 3, Better.Less,
        "Root mean square of a side's load change over its static load, of the worse side.",
        new([LoadSquaresLeft, LoadSquaresRight], t => Math.Max(Math.Sqrt(t[LoadSquaresLeft].Value / t.Duration) / t.StaticSideLoad(Side.Left), Math.Sqrt(t[LoadSquaresRight].Value / t.Duration) / t.StaticSideLoad(Side.Right))));

    /// <summary>Largest load transfer: half the difference of the loads right and left.</summary>
    public static PhaseMetric LoadTransferPeak { get; } = new(
        "loadTransferPeak", "Load transfer, peak", Unit.Newton, 0, Better.Less,
        "Largest load transfer: half the difference of the loads right and left.",
        Largest(default(LoadTransfer)));

    /// <summary>Time for which a side was wholly in the air, the longer of left and right. More than zero while cornering means rollover risk.</summary>
    public static PhaseMetric LiftOffTime { get; } = new(
        "liftOffTime", "Wheel lift, time", Unit.Second, 3, Better.Less,
        "Time for which a side was wholly in the air, the longer of left and right. More than zero while cornering means rollover risk.",
        new([LiftsLeft, LiftsRight], t => Math.Max(Spells.Duration(t[LiftsLeft]), Spells.Duration(t[LiftsRight]))));

    /// <summary>Time for which all tyres of the left side were in the air.</summary>
    public static PhaseMetric LiftOffTimeLeft { get; } = new(
        "liftOffTimeLeft", "Wheel lift, left", Unit.Second, 3, Better.Less,
        "Time for which all tyres of the left side were in the air.",
        new([LiftsLeft], t => Spells.Duration(t[LiftsLeft])));

    /// <summary>Time for which all tyres of the right side were in the air.</summary>
    public static PhaseMetric LiftOffTimeRight { get; } = new(
        "liftOffTimeRight", "Wheel lift, right", Unit.Second, 3, Better.Less,
        "Time for which all tyres of the right side were in the air.",
        new([LiftsRight], t => Spells.Duration(t[LiftsRight])));

    /// <summary>When a side first left the road wholly, from the start of the run. Empty where none did.</summary>
    public static PhaseMetric LiftOffFirstTime { get; } = new(
        "liftOffFirstTime", "Time of first wheel lift", Unit.Second, 3, Better.Neither,
        "When a side first left the road wholly, from the start of the run. Empty where none did.",
        new([LiftsLeft, LiftsRight], t => Spells.Of(t[LiftsLeft]).Concat(Spells.Of(t[LiftsRight])).Select(spell => (double?)spell.Start).Min()));

    /// <summary>Longest time for which any one tyre was in the air: with dual tyres it comes before wheel lift.</summary>
    public static PhaseMetric LiftOffTimeOneTyre { get; } = new(
        "liftOffTimeOneTyre", "Tyre lift, longest of any tyre", Unit.Second, 3, Better.Less,
        "Longest time for which any one tyre was in the air: with dual tyres it comes before wheel lift.",
        new([.. TyreLifts, LiftsLeft, LiftsRight], t => t.TyreLiftOffTimes.Max()));

    /// <summary>Largest velocity of either damper in compression.</summary>
    public static PhaseMetric DamperCompressionVelocityPeak { get; } = new(
        "damperCompressionVelocityPeak", "Damper velocity, compression", Unit.MetrePerSecond, 2, Better.Neither,
        "Largest velocity of either damper in compression.",
        LargestOf(CompressionVelocities));

    /// <summary>Largest velocity of either damper in rebound, as a positive number.</summary>
    public static PhaseMetric DamperReboundVelocityPeak { get; } = new(
        "damperReboundVelocityPeak", "Damper velocity, rebound", Unit.MetrePerSecond, 2, Better.Neither,
        "Largest velocity of either damper in rebound, as a positive number.",
        LargestOf(ReboundVelocities));

    /// <summary>Largest travel of either damper in compression from ride height.</summary>
    public static PhaseMetric DamperTravelCompression { get; } = new(
        "damperTravelCompression", "Damper travel, compression", Unit.Millimetre, 1, Better.Neither,
        "Largest travel of either damper in compression from ride height.",
        LargestOf(CompressionTravels));

    /// <summary>Largest travel of either damper in rebound from ride height, as a positive number.</summary>
    public static PhaseMetric DamperTravelRebound { get; } = new(
        "damperTravelRebound", "Damper travel, rebound", Unit.Millimetre, 1, Better.Neither,
        "Largest travel of either damper in rebound from ride height, as a positive number.",
        LargestOf(ReboundTravels));

    /// <summary>Energy taken up by both dampers.</summary>
    public static PhaseMetric DamperEnergy { get; } = new(
        "damperEnergy", "Damper energy, both", Unit.Joule, 0, Better.Neither,
        "Energy taken up by both dampers.",
        Total(default(DamperPower)));

    /// <summary>Energy that the friction of both springs turns into heat.</summary>
    public static PhaseMetric SpringFrictionEnergy { get; } = new(
        "springFrictionEnergy", "Spring friction energy, both", Unit.Joule, 0, Better.Neither,
        "Energy that the friction of both springs turns into heat; 0 without friction given.",
        Total(new Value(Channel.SpringFrictionHeat), car => car.HasSpringFriction));

    /// <summary>Largest pitch angle of the body, either way. Empty on one axle.</summary>
    public static PhaseMetric PitchPeak { get; } = new(
        "pitchPeak", "Pitch, peak", Unit.Degree, 2, Better.Less,
        "Largest pitch angle of the body, either way. Empty on one axle.",
        OnVehicle(new Size(Channel.Pitch)));

    /// <summary>Largest twist of the frame: difference of the body's roll at both axles, either way. Empty on one axle.</summary>
    public static PhaseMetric FrameTwistPeak { get; } = new(
        "frameTwistPeak", "Frame twist, peak", Unit.Degree, 2, Better.Neither,
        "Largest twist of the frame: difference of the body's roll at both axles, either way. Empty on one axle.",
        OnVehicle(new Size(Channel.FrameTwist)));

    /// <summary>Smallest load of either side of the other axle on the road. Empty on one axle.</summary>
    public static PhaseMetric OtherAxleTyreLoadMinimum { get; } = new(
        "otherAxleTyreLoadMinimum", "Tyre load of the other axle, minimum", Unit.Newton, 0, Better.More,
        "Smallest load of either side of the other axle on the road. Empty on one axle.",
        OnVehicle(Channel.SecondTyreLoadLeft, Channel.SecondTyreLoadRight));

    /// <summary>Mean change of ride height, positive upwards: asymmetric valving pumps the body up or down.</summary>
    public static PhaseMetric RideHeightShift { get; } = new(
        "rideHeightShift", "Ride-height shift, mean", Unit.Millimetre, 2, Better.Smaller,
        "Mean change of ride height, positive upwards: asymmetric valving pumps the body up or down.",
        MeanOf(Channel.SuspensionHeave, -1));

    /// <summary>All of them, in the order of tables.</summary>
    public static ImmutableArray<PhaseMetric> All { get; } = Numbered<PhaseMetric>(
    [
        BodyAccelerationRms, BodyAccelerationPeak, RollAccelerationRms, RollAccelerationPeak, SeatAccelerationRms,
        SeatAccelerationPeak, BodyWeightedRms, SeatWeightedRms, SeatVibrationDose, SeatCrestFactor, RollAngleLargest, RollAngleLargestTime,
        BumpTravelPeak, ReboundTravelPeak, RelativeHeaveRms, RelativeRollRms, BumpStopContacts, ReboundStopContacts, TyreLoadMinimum, TyreLoadMinimumLeft, TyreLoadMinimumRight,
        DynamicLoadCoefficient, LoadTransferPeak, LiftOffTime, LiftOffTimeLeft, LiftOffTimeRight, LiftOffFirstTime, LiftOffTimeOneTyre, DamperCompressionVelocityPeak,
        DamperReboundVelocityPeak, DamperTravelCompression, DamperTravelRebound, DamperEnergy, SpringFrictionEnergy, RideHeightShift, PitchPeak, FrameTwistPeak, OtherAxleTyreLoadMinimum,
    ], (metric, place) => metric.Index = place);

    /// <summary>Every gauge that a metric or a warning needs, each once.</summary>
    internal static ImmutableArray<Gauge> AllGauges { get; } = Numbered(
        All.SelectMany(metric => metric.Gauges).Concat([SuspensionRoll, CavitationsLeft, CavitationsRight, PressureMissingLeft, PressureMissingRight]).Distinct(), (gauge, place) => gauge.Index = place);

    /// <summary>Times for which each tyre was in the air, left to right.</summary>
    internal static Gauge[] LiftsOfTyres(bool hasDuals) => hasDuals ? TyreLifts : [LiftsLeft, LiftsRight];

    /// <summary>The largest movements of each damper, left before right.</summary>
    internal static ImmutableArray<DamperPeaks> PeaksOfDampers(PhaseTallies tallies) =>
    [
        .. Enumerable.Range(0, 2).Select(side =>
        {
            double Of(Gauge[] sides) => Math.Max(0, tallies[sides[side]].Value);
            return new DamperPeaks(Of(CompressionTravels), Of(ReboundTravels), Of(CompressionVelocities), Of(ReboundVelocities));
        }),
    ];

    /// <summary>Its place in <see cref="All"/>.</summary>
    internal int Index { get; private set; }

    /// <summary>The gauges that this metric needs.</summary>
    internal ImmutableArray<Gauge> Gauges { get; }

    /// <inheritdoc/>
    public override double? Of(PhaseMetrics result) => (result ?? throw new ArgumentNullException(nameof(result)))[this];

    /// <summary>Its value from what was gathered, SI.</summary>
    internal double? Of(PhaseTallies tallies) => _value(tallies);

    private static IntegralGauge<Square<TQuantity>> SquaresOf<TQuantity>(TQuantity quantity)
        where TQuantity : struct, IQuantity => new(new(quantity));

    private static Reading Rms<TQuantity>(TQuantity quantity)
        where TQuantity : struct, IQuantity
    {
        var squares = SquaresOf(quantity);
        return new([squares], t => Math.Sqrt(t[squares].Value / t.Duration));
    }

    private static Reading Total<TQuantity>(TQuantity quantity, Func<AssembledHalfCar, bool>? concerns = null)
        where TQuantity : struct, IQuantity
    {
        var total = concerns is null ? new IntegralGauge<TQuantity>(quantity) : new IntegralGauge<TQuantity>(quantity) { Concerns = concerns };
        return new([total], t => t[total].Value);
    }

    private static Reading MeanOf(Channel channel, double factor)
    {
        var total = new IntegralGauge<Value>(new(channel, factor));
        return new([total], t => t[total].Value / t.Duration);
    }

    private static Reading Largest<TQuantity>(TQuantity quantity)
        where TQuantity : struct, IQuantity
    {
        var peak = new PeakGauge<TQuantity>(quantity);
        return new([peak], t => t[peak].Value);
    }

    /// <summary>The larger value of two sides in one direction, 0 if neither goes there.</summary>
    private static Reading LargestOfSides(Channel left, Channel right, double direction) => LargestOf(OfSides(left, right, direction));

    private static Reading LargestOf(Gauge[] sides) => new(sides, t => Math.Max(0, Math.Max(t[sides[0]].Value, t[sides[1]].Value)));

    private static Gauge[] OfSides(Channel left, Channel right, double direction) => [new PeakGauge<Value>(new(left, direction)), new PeakGauge<Value>(new(right, direction))];

    /// <summary>The largest value of a quantity that a vehicle with two axles has.</summary>
    private static Reading OnVehicle<TQuantity>(TQuantity quantity)
        where TQuantity : struct, IQuantity
    {
        var peak = new PeakGauge<TQuantity>(quantity) { Concerns = car => car.Second is not null };
        return new([peak], t => t.HasSecondAxle ? t[peak].Value : null);
    }

    /// <summary>The smaller value of two sides of the other axle.</summary>
    private static Reading OnVehicle(Channel left, Channel right)
    {
        static PeakGauge<Value> Least(Channel side) => new(new(side, -1)) { Concerns = car => car.Second is not null };
        var (one, other) = (Least(left), Least(right));
        return new([one, other], t => t.HasSecondAxle ? -Math.Max(t[one].Value, t[other].Value) : null);
    }

    /// <summary>How often a force began to act on either side.</summary>
    private static Reading Contacts(Channel left, Channel right, double direction)
    {
        var (one, other) = (new SpellGauge<Value>(new(left, direction)), new SpellGauge<Value>(new(right, direction)));
        return new([one, other], t => Spells.Beginnings(t[one]) + Spells.Beginnings(t[other]));
    }

    private static ImmutableArray<T> Numbered<T>(IEnumerable<T> items, Action<T, int> tell)
    {
        ImmutableArray<T> all = [.. items];
        for (var i = 0; i < all.Length; i++)
            tell(all[i], i);
        return all;
    }

    /// <summary>How a metric is gathered: the gauges it needs, and its value from what they hold, SI.</summary>
    private sealed record Reading(IReadOnlyList<Gauge> Gauges, Func<PhaseTallies, double?> Value);
}
