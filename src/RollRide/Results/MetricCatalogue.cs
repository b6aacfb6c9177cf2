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
/// <param name="Description">What it is, for the documentation.</param>
public sealed record MetricDefinition<T>(string Key, string Label, string Unit, int Decimals, Func<T, double?> Value, string Description);

/// <summary>All metrics of a run: the one place that names them and turns SI into the units shown.</summary>
public static class MetricCatalogue
{
    private const double DegPerRad = 180 / Math.PI;
    private const double Mm = 1e3;

    /// <summary>The metrics of the roll response to the cornering.</summary>
    public static ImmutableArray<MetricDefinition<RollResponse>> RollResponse { get; } =
    [
        new("rollAngleSteady_deg", "Roll angle, steady", "deg", 2, r => r.SteadyAngle * DegPerRad,
            "Body roll of the static solution under the final lateral acceleration, on the road heights that the run leaves the wheels at. Empty where there is no stable position."),
        new("rollGradient_deg_per_g", "Roll gradient", "deg/g", 2, r => r.Gradient * DegPerRad * Vehicle.HalfCar.StandardGravity,
            "Steady roll on a flat road over the final lateral acceleration, in degrees per g of 9.80665 m/s²; over 1 m/s² where the run ends straight ahead. Empty where there is no stable position."),
        new("rollAnglePeak_deg", "Roll angle, peak", "deg", 2, r => r.PeakAngle * DegPerRad,
            "Largest body roll after the cornering began, in the direction of the steady angle, with its sign."),
        new("rollOvershoot_percent", "Roll overshoot", "%", 1, r => r.Overshoot * 100,
            "Peak over steady roll, both from the roll before the corner (zero unless the road left the axle tilted), less 100 %; negative where the run ends before roll reaches its steady angle. Empty where the corner ends straight ahead or there is no steady angle."),
        new("rollResponseTime_s", "Response time to 90 %", "s", 3, r => r.ResponseTime,
            "From the instant the input passed half of its final value until roll first went 90 % of the way to steady."),
        new("rollPeakTime_s", "Peak time", "s", 3, r => r.PeakTime,
            "From the same instant until the peak."),
        new("rollSettlingTime_s", "Settling time to ±5 %", "s", 3, r => r.SettlingTime,
            "From the start of the input until roll entered the band of ±5 % around steady for the last time. Empty where it did not settle within the run."),
    ];

    /// <summary>The metrics of a phase, or of the whole run.</summary>
    public static ImmutableArray<MetricDefinition<PhaseMetrics>> Phase { get; } =
    [
        new("bodyAccelerationRms_m_per_s2", "Body acceleration, RMS", "m/s²", 3, p => p.BodyAccelerationRms,
            "Root mean square of the vertical acceleration of the body at its centre of gravity."),
        new("bodyAccelerationPeak_m_per_s2", "Body acceleration, peak", "m/s²", 2, p => p.BodyAccelerationPeak,
            "Largest absolute vertical acceleration of the body at its centre of gravity."),
        new("rollAccelerationRms_rad_per_s2", "Roll acceleration, RMS", "rad/s²", 3, p => p.RollAccelerationRms,
            "Root mean square of the roll acceleration of the body."),
        new("rollAccelerationPeak_rad_per_s2", "Roll acceleration, peak", "rad/s²", 2, p => p.RollAccelerationPeak,
            "Largest absolute roll acceleration of the body."),
        new("seatAccelerationRms_m_per_s2", "Seat acceleration, RMS", "m/s²", 3, p => p.SeatAccelerationRms,
            "Root mean square of the vertical acceleration at the seat."),
        new("seatAccelerationPeak_m_per_s2", "Seat acceleration, peak", "m/s²", 2, p => p.SeatAccelerationPeak,
            "Largest absolute vertical acceleration at the seat."),
        new("bodyWeightedRms_m_per_s2", "Body, weighted RMS (Wk)", "m/s²", 3, p => p.BodyComfort.WeightedRms,
            "Vertical vibration at the centre of gravity, frequency-weighted with Wk after ISO 2631-1, root mean square."),
        new("seatWeightedRms_m_per_s2", "Seat, weighted RMS (Wk)", "m/s²", 3, p => p.SeatComfort.WeightedRms,
            "Vertical vibration at the seat, frequency-weighted with Wk after ISO 2631-1, root mean square."),
        new("seatVibrationDose_m_per_s1_75", "Seat, vibration dose", "m/s^1.75", 2, p => p.SeatComfort.VibrationDoseValue,
            "Vibration dose value at the seat after ISO 2631-1, which counts shocks more than the root mean square does."),
        new("seatCrestFactor", "Seat, crest factor", "", 1, p => p.SeatComfort.CrestFactor,
            "Largest weighted acceleration at the seat over its root mean square. Empty where nothing moves."),
        new("rollAngleLargest_deg", "Roll angle, largest", "deg", 2, p => p.RollAnglePeak * DegPerRad,
            "The body roll angle of largest size, with its sign."),
        new("bumpTravelPeak_mm", "Wheel travel, bump", "mm", 1, p => p.BumpTravelPeak * Mm,
            "Largest bump travel of either wheel from ride height."),
        new("reboundTravelPeak_mm", "Wheel travel, rebound", "mm", 1, p => p.ReboundTravelPeak * Mm,
            "Largest rebound travel of either wheel from ride height, as a positive number."),
        new("bumpStopContacts", "Bump stop contacts", "", 0, p => p.BumpStopContacts,
            "Times a bump stop was struck, both sides together."),
        new("reboundStopContacts", "Rebound stop contacts", "", 0, p => p.ReboundStopContacts,
            "Times a rebound stop was struck, both sides together."),
        new("tyreLoadMinimum_N", "Tyre load, minimum", "N", 0, p => p.TyreLoadMinimum,
            "Smallest load of either side on the road; of dual tyres both together."),
        new("dynamicLoadCoefficient", "Tyre load change, RMS over static", "", 3, p => p.DynamicLoadCoefficient,
            "Root mean square of a side's load change over its static load, of the worse side."),
        new("loadTransferPeak_N", "Load transfer, peak", "N", 0, p => p.LoadTransferPeak,
            "Largest load transfer: half the difference of the loads right and left."),
        new("liftOffTime_s", "Wheel lift, time", "s", 3, p => p.LiftOffTime,
            "Time for which a side was wholly in the air, the longer of left and right. More than zero while cornering means rollover risk."),
        new("liftOffTimeLeft_s", "Wheel lift, left", "s", 3, p => p.LiftOffTimeLeft,
            "Time for which all tyres of the left side were in the air."),
        new("liftOffTimeRight_s", "Wheel lift, right", "s", 3, p => p.LiftOffTimeRight,
            "Time for which all tyres of the right side were in the air."),
        new("liftOffTimeOneTyre_s", "Tyre lift, longest of any tyre", "s", 3, p => p.TyreLiftOffTimes.Max(),
            "Longest time for which any one tyre was in the air: with dual tyres it comes before wheel lift."),
        new("damperCompressionVelocityPeak_m_per_s", "Damper velocity, compression", "m/s", 2, p => p.DamperCompressionVelocityPeak,
            "Largest velocity of either damper in compression."),
        new("damperReboundVelocityPeak_m_per_s", "Damper velocity, rebound", "m/s", 2, p => p.DamperReboundVelocityPeak,
            "Largest velocity of either damper in rebound, as a positive number."),
        new("damperTravelCompression_mm", "Damper travel, compression", "mm", 1, p => p.DamperCompressionPeak * Mm,
            "Largest travel of either damper in compression from ride height."),
        new("damperTravelRebound_mm", "Damper travel, rebound", "mm", 1, p => p.DamperExtensionPeak * Mm,
            "Largest travel of either damper in rebound from ride height, as a positive number."),
        new("damperEnergy_J", "Damper energy, both", "J", 0, p => p.DamperEnergy,
            "Energy taken up by both dampers."),
        new("rideHeightShift_mm", "Ride-height shift, mean", "mm", 2, p => p.RideHeightShift * Mm,
            "Mean change of ride height, positive upwards: asymmetric valving pumps the body up or down."),
    ];

    /// <summary>The figures of a ride over a random road.</summary>
    public static ImmutableArray<MetricDefinition<RideMetrics>> Ride { get; } =
    [
        new("rideSeatTotal_m_per_s2", "Worst seat, weighted total", "m/s²", 3, r => r.WorstSeat.Total,
            "Total weighted vibration at the worst seat by ISO 2631-1: vertical (Wk), lateral (Wd) and 0.63 m/rad times roll (We)."),
        new("rideSeatVertical_m_per_s2", "Worst seat, vertical (Wk)", "m/s²", 3, r => r.WorstSeat.Vertical.Rms,
            "Vertical acceleration there, weighted with Wk, RMS; roll contributes through the seat's offset."),
        new("rideSeatLateral_m_per_s2", "Worst seat, lateral (Wd)", "m/s²", 3, r => r.WorstSeat.Lateral.Rms,
            "Lateral acceleration there, weighted with Wd, RMS."),
        new("rideSeatRoll_rad_per_s2", "Worst seat, roll (We)", "rad/s²", 3, r => r.WorstSeat.Roll.Rms,
            "Roll acceleration, weighted with We, RMS."),
        new("rideSeatMtvv_m_per_s2", "Worst seat, running RMS maximum", "m/s²", 3, r => r.WorstSeat.Vertical.MaximumTransient,
            "Largest running RMS over one second of the vertical weighted acceleration (MTVV)."),
        new("rideSeatDose_m_per_s1_75", "Worst seat, vibration dose", "m/s^1.75", 2, r => r.WorstSeat.Vertical.DoseValue,
            "Fourth-power vibration dose value of the vertical weighted acceleration (VDV)."),
        new("rideSeatCrestFactor", "Worst seat, crest factor", "", 1, r => r.WorstSeat.Vertical.CrestFactor,
            "Largest vertical weighted acceleration over its RMS."),
        new("rideBodyAccelerationRms_m_per_s2", "Body acceleration, RMS", "m/s²", 3, r => r.BodyAccelerationRms,
            "Vertical acceleration of the body at its centre of gravity, RMS, unweighted."),
        new("rideRollAccelerationRms_rad_per_s2", "Roll acceleration, RMS", "rad/s²", 3, r => r.RollAccelerationRms,
            "Roll acceleration of the body, RMS, unweighted."),
        new("rideDynamicLoadCoefficient", "Dynamic load coefficient", "", 3, r => r.DynamicLoadCoefficient,
            "RMS of a side's load change over its static load; the worse side."),
        new("rideLoadExceeded99_N", "Side load exceeded 99 % of the time", "N", 0, r => r.Loads.Min(load => load.ExceededMostOfTheTime),
            "Load below which a side falls 1 % of the time; the worse side."),
        new("rideLiftShare_percent", "Time without load, worse side", "%", 2, r => r.Loads.Max(load => load.LiftShare) * 100,
            "Share of the time without any load; the worse side."),
        new("rideWheelTravelRms_mm", "Wheel travel, RMS", "mm", 1, r => r.WheelTravelRms * Mm,
            "Wheel travel about its mean, RMS, both wheels."),
        new("rideBumpContacts_per_km", "Bump stop contacts", "1/km", 1, r => r.BumpStopContactsPerKm,
            "Bump stop contacts a kilometre, both sides together."),
        new("rideReboundContacts_per_km", "Rebound stop contacts", "1/km", 1, r => r.ReboundStopContactsPerKm,
            "Rebound stop contacts a kilometre, both sides together."),
        new("rideDamperVelocityRms_m_per_s", "Damper velocity, RMS", "m/s", 3, r => r.DamperVelocityRms,
            "Velocity of both dampers, RMS."),
        new("rideDamperPower_W", "Damper heat, hotter damper", "W", 0, r => r.DamperPower.Max(),
            "Mean power that the hotter damper turns into heat."),
    ];
}
