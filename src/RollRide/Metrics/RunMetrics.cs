using System.Collections.Immutable;

namespace RollRide.Metrics;

/// <summary>All figures of one run.</summary>
/// <param name="Whole">Over the whole run.</param>
/// <param name="Phases">Over each phase of the manoeuvre.</param>
/// <param name="RollResponse">
/// The roll response to the corner from rest; null where there is no corner, or it was not asked for. Of a vehicle whose sides differ, or that leans, the worse of both turns,
/// figure by figure.
/// </param>
public sealed record RunMetrics(PhaseMetrics Whole, ImmutableArray<PhaseMetrics> Phases, RollResponse? RollResponse)
{
    /// <summary>The corner from rest as it is written and the other way; null where both sides are the same, and with them both turns.</summary>
    public (RollResponse AsWritten, RollResponse Mirrored)? BothTurns { get; init; }

    /// <summary>The roll response to the corner from rest as it is written; null where there is none.</summary>
    public RollResponse? AsWritten => BothTurns?.AsWritten ?? RollResponse;

    /// <summary>The roll response to the turn with the larger overshoot, or where there is none to the one in which the body rolls further; null where there is no corner.</summary>
    public RollResponse? WorseTurn => BothTurns is not { } both ? RollResponse
        : (RollResponse!.Overshoot is { } larger ? both.Mirrored.Overshoot == larger && both.AsWritten.Overshoot < larger : RollResponse.IsMirrored) ? both.Mirrored
        : both.AsWritten;

    /// <summary>The same figures with those of one turn alone; of sides that are the same both give the same.</summary>
    /// <param name="mirrored">Whether it is the other way than written.</param>
    public RunMetrics OfTurn(bool mirrored) => BothTurns is { } both ? this with { RollResponse = mirrored ? both.Mirrored : both.AsWritten, BothTurns = null } : this;

    /// <summary>Roll motion left over from before at the start of each phase for which it is defined, in the order of time.</summary>
    public ImmutableArray<MotionLeft> MotionsLeft { get; init; } = [];

    /// <summary>Each time that a side was wholly in the air, in the order of time.</summary>
    public ImmutableArray<WheelLift> WheelLifts { get; init; } = [];

    /// <summary>Each damper in which the oil cavitated, left before right.</summary>
    public ImmutableArray<Cavitation> Cavitations { get; init; } = [];

    /// <summary>Whether a side was in the air while the vehicle was cornering: rollover risk.</summary>
    public bool LiftsWhileCornering => WheelLifts.Any(lift => lift.IsWhileCornering);

    /// <summary>Time for which a side was in the air in lifts that began or ended while the vehicle was cornering, the longer of left and right, s.</summary>
    public double CornerLiftOffTime => WheelLifts.Where(lift => lift.IsWhileCornering).GroupBy(lift => lift.Side)
        .Select(side => side.Sum(lift => lift.Duration)).DefaultIfEmpty().Max();

    /// <summary>Longest time for which a tyre of a side was in the air while the side was not, s; 0 with single tyres.</summary>
    public double OneTyreLiftOffTime => Whole.TyreLiftOffTimes.Max() is var longest && longest > Whole.LiftOffTime ? longest : 0;
}
