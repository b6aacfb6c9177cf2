using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>What is sampled of a motion, and what the weightings make of it.</summary>
internal enum MotionSignal
{
    /// <summary>Vertical acceleration of the body at its centre of gravity, m/s².</summary>
    BodyAcceleration,

    /// <summary>Roll acceleration of the body, rad/s².</summary>
    RollAcceleration,

    /// <summary>Vertical acceleration at the vehicle's own seat, m/s²; only where the body of another axle moves it too.</summary>
    SeatAcceleration,

    /// <summary>Lateral acceleration, m/s²; only of rides.</summary>
    LateralAcceleration,

    /// <summary>Load of both sides on the road, N; only of rides.</summary>
    Load,

    /// <summary>Vertical acceleration of the body at its centre of gravity, weighted with Wk, m/s².</summary>
    Body,

    /// <summary>Roll acceleration weighted with Wk, for the vertical vibration at a lateral offset, rad/s².</summary>
    RollVertical,

    /// <summary>Vertical acceleration at the vehicle's own seat, weighted with Wk, m/s².</summary>
    Seat,

    /// <summary>Lateral acceleration, weighted with Wd, m/s²; only of rides.</summary>
    Lateral,

    /// <summary>Roll acceleration weighted with Wd, for the lateral vibration at a height, rad/s²; only of rides.</summary>
    RollLateral,

    /// <summary>Roll acceleration weighted with We, as rotational vibration, rad/s²; only of rides.</summary>
    RollRotational,
}

/// <summary>One lane's samples of its weighted motion, one after the other.</summary>
/// <param name="rows">The samples that are at hand.</param>
internal sealed class WeightedMotion(LaneColumn rows)
{
    /// <summary>
    /// Sampling rate, Hz: the weightings hold the standard's tolerance, and the body hardly moves above 50 Hz. Fixed, so that
    /// the figures do not depend on the rate of the output.
    /// </summary>
    public const double Rate = 640;

    /// <summary>Number of signals in a row.</summary>
    public const int Signals = (int)MotionSignal.RollRotational + 1;

    private int _row;
    private double _number;

    /// <summary>A signal at the sample it stands at.</summary>
    public double this[MotionSignal signal] => rows[(_row * Signals) + (int)signal];

    /// <summary>Time of the sample, s.</summary>
    public double Time => _number / Rate;

    /// <summary>Stands at a sample.</summary>
    /// <param name="row">Its row.</param>
    /// <param name="number">Its number since the start of the run.</param>
    public void StandAt(int row, double number) => (_row, _number) = (row, number);
}
