using System.Collections.Immutable;
using RollRide.Metrics;

namespace RollRide.Results;

/// <summary>One figure as it leaves the program.</summary>
/// <typeparam name="T">What it is taken from.</typeparam>
/// <param name="Key">Its key in files, with the unit.</param>
/// <param name="Label">Its name in tables.</param>
/// <param name="Unit">Its unit in tables; empty for none.</param>
/// <param name="Decimals">Decimals shown in tables.</param>
/// <param name="Value">Takes it, in that unit; null where it is not defined.</param>
public sealed record MetricDefinition<T>(string Key, string Label, string Unit, int Decimals, Func<T, double?> Value);

/// <summary>All metrics of a run: the one place that names them and turns SI into the units shown.</summary>
public static class MetricCatalogue
{
    private const double DegPerRad = 180 / Math.PI;
    private const double Mm = 1e3;

    /// <summary>The metrics of the roll response to the cornering.</summary>
    public static ImmutableArray<MetricDefinition<RollResponse>> RollResponse { get; } =
    [
        new("rollAngleSteady_deg", "Roll angle, steady", "deg", 2, r => r.SteadyAngle * DegPerRad),
        new("rollGradient_deg_per_g", "Roll gradient", "deg/g", 2, r => r.Gradient * DegPerRad * Vehicle.HalfCar.StandardGravity),
        new("rollAnglePeak_deg", "Roll angle, peak", "deg", 2, r => r.PeakAngle * DegPerRad),
        new("rollOvershoot_percent", "Roll overshoot", "%", 1, r => r.Overshoot * 100),
        new("rollResponseTime_s", "Response time to 90 %", "s", 3, r => r.ResponseTime),
        new("rollPeakTime_s", "Peak time", "s", 3, r => r.PeakTime),
        new("rollSettlingTime_s", "Settling time to ±5 %", "s", 3, r => r.SettlingTime),
    ];

    /// <summary>The metrics of a phase, or of the whole run.</summary>
    public static ImmutableArray<MetricDefinition<PhaseMetrics>> Phase { get; } =
    [
        new("bodyAccelerationRms_m_per_s2", "Body acceleration, RMS", "m/s²", 3, p => p.BodyAccelerationRms),
        new("bodyAccelerationPeak_m_per_s2", "Body acceleration, peak", "m/s²", 2, p => p.BodyAccelerationPeak),
        new("rollAccelerationRms_rad_per_s2", "Roll acceleration, RMS", "rad/s²", 3, p => p.RollAccelerationRms),
        new("rollAccelerationPeak_rad_per_s2", "Roll acceleration, peak", "rad/s²", 2, p => p.RollAccelerationPeak),
        new("seatAccelerationRms_m_per_s2", "Seat acceleration, RMS", "m/s²", 3, p => p.SeatAccelerationRms),
        new("seatAccelerationPeak_m_per_s2", "Seat acceleration, peak", "m/s²", 2, p => p.SeatAccelerationPeak),
        new("bodyWeightedRms_m_per_s2", "Body, weighted RMS (Wk)", "m/s²", 3, p => p.BodyComfort.WeightedRms),
        new("seatWeightedRms_m_per_s2", "Seat, weighted RMS (Wk)", "m/s²", 3, p => p.SeatComfort.WeightedRms),
        new("seatVibrationDose_m_per_s1_75", "Seat, vibration dose", "m/s^1.75", 2, p => p.SeatComfort.VibrationDoseValue),
        new("seatCrestFactor", "Seat, crest factor", "", 1, p => p.SeatComfort.CrestFactor),
        new("rollAngleLargest_deg", "Roll angle, largest", "deg", 2, p => p.RollAnglePeak * DegPerRad),
        new("bumpTravelPeak_mm", "Wheel travel, bump", "mm", 1, p => p.BumpTravelPeak * Mm),
        new("reboundTravelPeak_mm", "Wheel travel, rebound", "mm", 1, p => p.ReboundTravelPeak * Mm),
        new("bumpStopContacts", "Bump stop contacts", "", 0, p => p.BumpStopContacts),
        new("reboundStopContacts", "Rebound stop contacts", "", 0, p => p.ReboundStopContacts),
        new("tyreLoadMinimum_N", "Tyre load, minimum", "N", 0, p => p.TyreLoadMinimum),
        new("dynamicLoadCoefficient", "Tyre load change, RMS over static", "", 3, p => p.DynamicLoadCoefficient),
        new("loadTransferPeak_N", "Load transfer, peak", "N", 0, p => p.LoadTransferPeak),
        new("liftOffTime_s", "Wheel lift, time", "s", 3, p => p.LiftOffTime),
        new("liftOffTimeLeft_s", "Wheel lift, left", "s", 3, p => p.LiftOffTimeLeft),
        new("liftOffTimeRight_s", "Wheel lift, right", "s", 3, p => p.LiftOffTimeRight),
        new("liftOffTimeOneTyre_s", "Tyre lift, longest of any tyre", "s", 3, p => p.TyreLiftOffTimes.Max()),
        new("damperCompressionVelocityPeak_m_per_s", "Damper velocity, compression", "m/s", 2, p => p.DamperCompressionVelocityPeak),
        new("damperReboundVelocityPeak_m_per_s", "Damper velocity, rebound", "m/s", 2, p => p.DamperReboundVelocityPeak),
        new("damperTravelCompression_mm", "Damper travel, compression", "mm", 1, p => p.DamperCompressionPeak * Mm),
        new("damperTravelRebound_mm", "Damper travel, rebound", "mm", 1, p => p.DamperExtensionPeak * Mm),
        new("damperEnergy_J", "Damper energy, both", "J", 0, p => p.DamperEnergy),
        new("rideHeightShift_mm", "Ride-height shift, mean", "mm", 2, p => p.RideHeightShift * Mm),
    ];

    /// <summary>The figures of a ride over a random road.</summary>
    public static ImmutableArray<MetricDefinition<RideMetrics>> Ride { get; } =
    [
        new("rideSeatTotal_m_per_s2", "Worst seat, weighted total", "m/s²", 3, r => r.WorstSeat.Total),
        new("rideSeatVertical_m_per_s2", "Worst seat, vertical (Wk)", "m/s²", 3, r => r.WorstSeat.Vertical.Rms),
        new("rideSeatLateral_m_per_s2", "Worst seat, lateral (Wd)", "m/s²", 3, r => r.WorstSeat.Lateral.Rms),
        new("rideSeatRoll_rad_per_s2", "Worst seat, roll (We)", "rad/s²", 3, r => r.WorstSeat.Roll.Rms),
        new("rideSeatMtvv_m_per_s2", "Worst seat, running RMS maximum", "m/s²", 3, r => r.WorstSeat.Vertical.MaximumTransient),
        new("rideSeatDose_m_per_s1_75", "Worst seat, vibration dose", "m/s^1.75", 2, r => r.WorstSeat.Vertical.DoseValue),
        new("rideSeatCrestFactor", "Worst seat, crest factor", "", 1, r => r.WorstSeat.Vertical.CrestFactor),
        new("rideBodyAccelerationRms_m_per_s2", "Body acceleration, RMS", "m/s²", 3, r => r.BodyAccelerationRms),
        new("rideRollAccelerationRms_rad_per_s2", "Roll acceleration, RMS", "rad/s²", 3, r => r.RollAccelerationRms),
        new("rideDynamicLoadCoefficient", "Dynamic load coefficient", "", 3, r => r.DynamicLoadCoefficient),
        new("rideLoadExceeded99_N", "Side load exceeded 99 % of the time", "N", 0, r => r.Loads.Min(load => load.ExceededMostOfTheTime)),
        new("rideLiftShare_percent", "Time without load, worse side", "%", 2, r => r.Loads.Max(load => load.LiftShare) * 100),
        new("rideWheelTravelRms_mm", "Wheel travel, RMS", "mm", 1, r => r.WheelTravelRms * Mm),
        new("rideBumpContacts_per_km", "Bump stop contacts", "1/km", 1, r => r.BumpStopContactsPerKm),
        new("rideReboundContacts_per_km", "Rebound stop contacts", "1/km", 1, r => r.ReboundStopContactsPerKm),
        new("rideDamperVelocityRms_m_per_s", "Damper velocity, RMS", "m/s", 3, r => r.DamperVelocityRms),
        new("rideDamperPower_W", "Damper heat, hotter damper", "W", 0, r => r.DamperPower.Max()),
    ];
}
