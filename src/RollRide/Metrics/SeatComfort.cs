namespace RollRide.Metrics;

/// <summary>A place at which people sit.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Offset">Lateral position, m, positive to the left.</param>
/// <param name="Height">Height above the roll centre, m.</param>
public sealed record SeatPosition(string Name, double Offset, double Height);

/// <summary>Vibration at a seat after ISO 2631-1, measured on the seat.</summary>
/// <param name="Seat">The seat.</param>
/// <param name="Vertical">Vertical, weighted with Wk; roll contributes through the seat's offset.</param>
/// <param name="Lateral">
/// Lateral, weighted with Wd: the manoeuvre's lateral acceleration and that of roll at the seat's height. Gravity's part in a
/// tilted body is left out.
/// </param>
/// <param name="Roll">Roll acceleration, rad/s², weighted with We.</param>
public sealed record SeatComfort(SeatPosition Seat, VibrationMeasures Vertical, VibrationMeasures Lateral, VibrationMeasures Roll)
{
    /// <summary>Multiplying factor of roll on the seat, m/rad (ISO 2631-1, 8.2.2.1, from memory).</summary>
    public const double RollFactor = 0.63;

    /// <summary>Total of vertical, lateral and roll vibration, m/s².</summary>
    public double Total => Math.Sqrt(
        (Vertical.Rms * Vertical.Rms) + (Lateral.Rms * Lateral.Rms) + (RollFactor * RollFactor * Roll.Rms * Roll.Rms));
}
