using System.Collections.Immutable;
using RollRide.Cornering;
using RollRide.Dynamics;
using RollRide.Metrics;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Studies;

/// <summary>The front axle's share of the load transfer of both axles, over time in the corner from rest.</summary>
/// <remarks>
/// Load transfer of an axle is half the difference of the loads right and left. The share is steady once roll has settled; while it has not, springs, dampers and roll centres share
/// the moment differently at each end.
/// </remarks>
public sealed record TransferShare
{
    // Below this part of the largest load transferred a share says nothing.
    private const double Least = 0.1;

    private const double Rate = 1000;

    /// <summary>Times from the corner's beginning, s: the longest span without a break in which enough load is transferred.</summary>
    public required ImmutableArray<double> Time { get; init; }

    /// <summary>The share at each time.</summary>
    public required ImmutableArray<double> Share { get; init; }

    /// <summary>The share when all has settled; null where the corner ends as it began, or the vehicle does not stand.</summary>
    public required double? Steady { get; init; }

    /// <summary>From when on the share is compared with its steady value, s: the corner has built up, and only roll has yet to settle.</summary>
    public required double BuiltUp { get; init; }

    /// <summary>How far the share goes from its steady value once the corner has built up, with its sign: positive where the front carries more; null where there is no steady value.</summary>
    public double? LargestDeviation => Farthest is { } at ? Share[at] - Steady : null;

    /// <summary>When it is farthest from its steady value, s; null where there is none.</summary>
    public double? LargestDeviationTime => Farthest is { } at ? Time[at] : null;

    private int? Farthest
    {
        get
        {
            int? farthest = null;
            for (var i = 0; Steady is { } steady && i < Time.Length; i++)
            {
                if (Time[i] >= BuiltUp && (farthest is not { } at || Math.Abs(Share[i] - steady) > Math.Abs(Share[at] - steady)))
                    farthest = i;
            }

            return farthest;
        }
    }

    /// <summary>Drives the corner from rest.</summary>
    /// <param name="car">Vehicle and layout, with two axles.</param>
    /// <param name="corner">The corner.</param>
    /// <param name="speed">Speed, m/s.</param>
    /// <param name="options">Settings of the integrator.</param>
    /// <param name="cancellation">Stops the run.</param>
    /// <returns>The share; null where the corner transfers no load, or cannot be driven to its end.</returns>
    public static TransferShare? Of(AssembledHalfCar car, CornerAlone corner, double speed, IntegratorOptions options, CancellationToken cancellation = default)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(corner);
        var simulation = new Simulation(car, RollResponseRecorder.ManoeuvreOf(corner, speed), options);
        var recorder = new TimeHistoryRecorder(
            simulation.Equations, corner.Duration, Rate, [Channel.TyreLoadLeft, Channel.TyreLoadRight, Channel.SecondTyreLoadLeft, Channel.SecondTyreLoadRight]);
        try
        {
            simulation.Run([recorder], default, cancellation);
        }
        catch (Exception e) when (e is IntegrationException or NoEquilibriumException or Mounting.UnreachableTravelException)
        {
            // The roll response from rest says why.
            return null;
        }

        var isRear = car.Vehicle.SecondAxle!.StudiedPlace == Axle.Rear;
        var history = recorder.ToHistory();
        var (front, total) = (new double[history.Count], new double[history.Count]);
        for (var i = 0; i < history.Count; i++)
        {
            var (own, second) = (history[Channel.TyreLoadRight][i] - history[Channel.TyreLoadLeft][i], history[Channel.SecondTyreLoadRight][i] - history[Channel.SecondTyreLoadLeft][i]);
            (front[i], total[i]) = (isRear ? second : own, own + second);
        }

        var enough = Least * total.Max(Math.Abs);
        if (!(enough > 0))
            return null;
        var (first, count) = LongestSpan(total, enough);
        return new TransferShare
        {
            Time = [.. Enumerable.Range(first, count).Select(history.Time)],
            Share = [.. Enumerable.Range(first, count).Select(i => front[i] / total[i])],
            BuiltUp = corner.BuiltUp ?? 0,
            Steady = corner.BuiltUp is null ? null : SteadyShare(car, corner.Input.FinalLateralAcceleration, isRear),
        };
    }

    private static double? SteadyShare(AssembledHalfCar car, double lateralAcceleration, bool isRear)
    {
        if (lateralAcceleration == 0 || !StaticEquilibrium.TryFind(car, lateralAcceleration, out var stand))
            return null;
        double Transfer(AssembledHalfCar axle, StaticEquilibrium at)
        {
            var channels = new double[ChannelTable.Count];
            var equations = HalfCarEquations.Standing(axle.Alone(), lateralAcceleration);
            equations.WriteChannels(0, at.ToState(axle).AsSpan(0, axle.OwnStateCount), channels);
            return channels[(int)Channel.TyreLoadRight] - channels[(int)Channel.TyreLoadLeft];
        }

        var (own, second) = (Transfer(car, stand), Transfer(car.Second!, stand.Second!));
        return (isRear ? second : own) / (own + second);
    }

    private static (int First, int Count) LongestSpan(double[] total, double enough)
    {
        var (best, first) = ((First: 0, Count: 0), 0);
        for (var i = 0; i <= total.Length; i++)
        {
            if (i < total.Length && Math.Abs(total[i]) >= enough)
                continue;
            if (i - first > best.Count)
                best = (first, i - first);
            first = i + 1;
        }

        return best;
    }
}
