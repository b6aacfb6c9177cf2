using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>The metrics of a ride over a random road; <see cref="RideRecorder"/> gathers them.</summary>
public sealed record RideMetric : MetricDefinition<RideMetrics>
{
    private readonly Func<RideMetrics, double?> _value;

    private RideMetric(string name, string label, Unit unit, int decimals, Better better, string description, Func<RideMetrics, double?> value)
        : base(name, label, unit, decimals, better, description) => _value = value;

    /// <summary>Total weighted vibration at the worst seat by ISO 2631-1: vertical (Wk), lateral (Wd) and 0.63 m/rad times roll (We).</summary>
    public static RideMetric RideSeatTotal { get; } = new(
        "rideSeatTotal", "Worst seat, weighted total", Unit.MetrePerSecondSquared, 3, Better.Less,
        "Total weighted vibration at the worst seat by ISO 2631-1: vertical (Wk), lateral (Wd) and 0.63 m/rad times roll (We).",
        r => r.WorstSeat.Total);

    /// <summary>Vertical acceleration there, weighted with Wk, RMS; roll contributes through the seat's offset.</summary>
    public static RideMetric RideSeatVertical { get; } = new(
        "rideSeatVertical", "Worst seat, vertical (Wk)", Unit.MetrePerSecondSquared, 3, Better.Less,
        "Vertical acceleration there, weighted with Wk, RMS; roll contributes through the seat's offset.",
        r => r.WorstSeat.Vertical.Rms);

    /// <summary>Lateral acceleration there, weighted with Wd, RMS.</summary>
    public static RideMetric RideSeatLateral { get; } = new(
        "rideSeatLateral", "Worst seat, lateral (Wd)", Unit.MetrePerSecondSquared, 3, Better.Less,
        "Lateral acceleration there, weighted with Wd, RMS.",
        r => r.WorstSeat.Lateral.Rms);

    /// <summary>Roll acceleration, weighted with We, RMS.</summary>
    public static RideMetric RideSeatRoll { get; } = new(
        "rideSeatRoll", "Worst seat, roll (We)", Unit.RadianPerSecondSquared, 3, Better.Less,
        "Roll acceleration, weighted with We, RMS.",
        r => r.WorstSeat.Roll.Rms);

    /// <summary>Largest running RMS over one second of the vertical weighted acceleration (MTVV).</summary>
    public static RideMetric RideSeatMtvv { get; } = new(
        "rideSeatMtvv", "Worst seat, running RMS maximum", Unit.MetrePerSecondSquared, 3, Better.Less,
        "Largest running RMS over one second of the vertical weighted acceleration (MTVV).",
        r => r.WorstSeat.Vertical.MaximumTransient);

    /// <summary>Fourth-power vibration dose value of the vertical weighted acceleration (VDV).</summary>
    public static RideMetric RideSeatDose { get; } = new(
        "rideSeatDose", "Worst seat, vibration dose", Unit.VibrationDose, 2, Better.Less,
        "Fourth-power vibration dose value of the vertical weighted acceleration (VDV).",
        r => r.WorstSeat.Vertical.DoseValue);

    /// <summary>Largest vertical weighted acceleration over its RMS.</summary>
    public static RideMetric RideSeatCrestFactor { get; } = new(
        "rideSeatCrestFactor", "Worst seat, crest factor", Unit.One, 1, Better.Less,
        "Largest vertical weighted acceleration over its RMS.",
        r => r.WorstSeat.Vertical.CrestFactor);

    /// <summary>Vertical acceleration of the body at its centre of gravity, RMS, unweighted.</summary>
    public static RideMetric RideBodyAccelerationRms { get; } = new(
        "rideBodyAccelerationRms", "Body acceleration, RMS", Unit.MetrePerSecondSquared, 3, Better.Less,
        "Vertical acceleration of the body at its centre of gravity, RMS, unweighted.",
        r => r.BodyAccelerationRms);

    /// <summary>Roll acceleration of the body, RMS, unweighted.</summary>
    public static RideMetric RideRollAccelerationRms { get; } = new(
        "rideRollAccelerationRms", "Roll acceleration, RMS", Unit.RadianPerSecondSquared, 3, Better.Less,
        "Roll acceleration of the body, RMS, unweighted.",
        r => r.RollAccelerationRms);

    /// <summary>RMS of a side's load change over its static load; the worse side.</summary>
    public static RideMetric RideDynamicLoadCoefficient { get; } = new(
        "rideDynamicLoadCoefficient", "Dynamic load coefficient", Unit.One, 3, Better.Less,
        "RMS of a side's load change over its static load; the worse side.",
        r => r.DynamicLoadCoefficient);

    /// <summary>Load below which a side falls 1 % of the time; the worse side.</summary>
    public static RideMetric RideLoadExceeded99 { get; } = new(
        "rideLoadExceeded99", "Side load exceeded 99 % of the time", Unit.Newton, 0, Better.More,
        "Load below which a side falls 1 % of the time; the worse side.",
        r => r.Loads.Min(load => load.ExceededMostOfTheTime));

    /// <summary>Share of the time without any load; the worse side.</summary>
    public static RideMetric RideLiftShare { get; } = new(
        "rideLiftShare", "Time without load, worse side", Unit.Percent, 2, Better.Less,
        "Share of the time without any load; the worse side.",
        r => r.Loads.Max(load => load.LiftShare));

    /// <summary>Wheel travel about its mean, RMS, both wheels.</summary>
    public static RideMetric RideWheelTravelRms { get; } = new(
        "rideWheelTravelRms", "Wheel travel, RMS", Unit.Millimetre, 1, Better.Less,
        "Wheel travel about its mean, RMS, both wheels.",
        r => r.WheelTravelRms);

    /// <summary>Bump stop contacts per kilometre, both sides together.</summary>
    public static RideMetric RideBumpContacts { get; } = new(
        "rideBumpContacts", "Bump stop contacts", Unit.PerKilometre, 1, Better.Less,
        "Bump stop contacts per kilometre, both sides together.",
        r => r.BumpStopContactsPerMetre);

    /// <summary>Rebound stop contacts per kilometre, both sides together.</summary>
    public static RideMetric RideReboundContacts { get; } = new(
        "rideReboundContacts", "Rebound stop contacts", Unit.PerKilometre, 1, Better.Less,
        "Rebound stop contacts per kilometre, both sides together.",
        r => r.ReboundStopContactsPerMetre);

    /// <summary>Velocity of both dampers, RMS.</summary>
    public static RideMetric RideDamperVelocityRms { get; } = new(
        "rideDamperVelocityRms", "Damper velocity, RMS", Unit.MetrePerSecond, 3, Better.Neither,
        "Velocity of both dampers, RMS.",
        r => r.DamperVelocityRms);

    /// <summary>Mean power that the hotter damper turns into heat.</summary>
    /// <remarks>Heat is what a damper is for; only its own limit, which is not known here, makes it too much.</remarks>
    public static RideMetric RideDamperPower { get; } = new(
        "rideDamperPower", "Damper heat, hotter damper", Unit.Watt, 0, Better.Neither,
        "Mean power that the hotter damper turns into heat.",
        r => r.DamperPower.Max());

    /// <summary>All of them, in the order of tables.</summary>
    public static ImmutableArray<RideMetric> All { get; } =
    [
        RideSeatTotal, RideSeatVertical, RideSeatLateral, RideSeatRoll, RideSeatMtvv, RideSeatDose, RideSeatCrestFactor,
        RideBodyAccelerationRms, RideRollAccelerationRms, RideDynamicLoadCoefficient, RideLoadExceeded99, RideLiftShare,
        RideWheelTravelRms, RideBumpContacts, RideReboundContacts, RideDamperVelocityRms, RideDamperPower,
    ];

    /// <inheritdoc/>
    public override double? Of(RideMetrics result) => _value(result);
}
