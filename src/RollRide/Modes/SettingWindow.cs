using RollRide.Dynamics;

namespace RollRide.Modes;

/// <summary>
/// The damper coefficients that meet all targets at once: those of heave, which as a rule needs little damping, and those of roll, which needs
/// more. Found from the eigenvalues, gravity included.
/// </summary>
/// <remarks>
/// The setting grows from 0 and the search ends where the heave ratio has passed its maximum or heave no longer swings. Beyond
/// that the damper locks the suspension and the body bounces on its tyres with little damping: what looks like a second window
/// there is none.
/// </remarks>
public sealed record SettingWindow
{
    // Ratios between settings of the search; a target met only between two of them is still seen by its own crossing.
    private const double Step = 1.1;

    // Beyond this multiple of the naming setting no heave motion is left to look at.
    private const double LargestRange = 1e6;

    private SettingWindow(WindowEdge lower, WindowEdge upper, bool hasLaterInterval)
    {
        Lower = lower;
        Upper = upper;
        HasLaterInterval = hasLaterInterval;
    }

    /// <summary>The least coefficient that meets every minimum; infinite if no setting does before the suspension locks.</summary>
    public WindowEdge Lower { get; }

    /// <summary>The greatest coefficient that the targets allow; if the window is closed, it lies below <see cref="Lower"/>.</summary>
    public WindowEdge Upper { get; }

    /// <summary>Whether some setting meets all targets.</summary>
    public bool IsOpen => Lower.Coefficient <= Upper.Coefficient;

    /// <summary>
    /// How far the window is open, −1 to 1: the difference of its edges over their sum; below 0 where it is closed, −1 where no setting
    /// meets the minima.
    /// </summary>
    public double Openness => double.IsInfinity(Lower.Coefficient) ? -1
        : Upper.Coefficient == Lower.Coefficient ? 0
        : (Upper.Coefficient - Lower.Coefficient) / (Upper.Coefficient + Lower.Coefficient);

    /// <summary>
    /// Whether the targets are met again at a higher setting, past a gap. Only the first interval is reported: a setting beyond
    /// a gap rests on a narrow balance of modes.
    /// </summary>
    public bool HasLaterInterval { get; }

    /// <summary>Whether a coefficient, N·s/m, lies in the window.</summary>
    /// <param name="coefficient">Coefficient of each damper, N·s/m.</param>
    public bool Contains(double coefficient) => coefficient >= Lower.Coefficient && coefficient <= Upper.Coefficient;

    /// <summary>The settings that lie in every one of several windows: from the highest of the lower edges to the lowest of the upper ones.</summary>
    /// <param name="windows">The windows, at least one.</param>
    public static SettingWindow Common(IReadOnlyCollection<SettingWindow> windows) => new(
        windows.MaxBy(window => window.Lower.Coefficient)!.Lower,
        windows.MinBy(window => window.Upper.Coefficient)!.Upper,
        windows.Any(window => window.HasLaterInterval));

    /// <summary>The window with other coefficients at its edges, bound by the same targets.</summary>
    /// <param name="change">Makes the coefficient of an edge, N·s/m, from the one that it has.</param>
    public SettingWindow With(Func<double, double> change)
    {
        ArgumentNullException.ThrowIfNull(change);
        return new SettingWindow(Lower with { Coefficient = change(Lower.Coefficient) }, Upper with { Coefficient = change(Upper.Coefficient) }, HasLaterInterval);
    }

    /// <summary>Finds the window of a half-car at rest; unlike dampers keep their shares of the coefficient.</summary>
    /// <param name="car">Vehicle and layout.</param>
    /// <param name="targets">The damping ratios to be met.</param>
    /// <exception cref="UnstableBodyException">The body is unstable in roll.</exception>
    public static SettingWindow Find(AssembledHalfCar car, DampingTargets targets)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(targets);
        return Find(LinearHalfCar.AtRest(car).WithShares(car.Layout.SideShares(targets.Velocity)), targets);
    }

    /// <summary>Finds the window of a half-car.</summary>
    /// <param name="linear">The linearised half-car.</param>
    /// <param name="targets">The damping ratios to be met.</param>
    /// <exception cref="UnstableBodyException">The body is unstable in roll.</exception>
    public static SettingWindow Find(LinearHalfCar linear, DampingTargets targets) => Find(new ModeFollower(linear), targets);

    /// <summary>Finds the window of a half-car whose modes are named.</summary>
    /// <param name="follower">Its modes, not followed yet.</param>
    /// <param name="targets">The damping ratios to be met.</param>
    internal static SettingWindow Find(ModeFollower follower, DampingTargets targets) => Find(Samples(follower), targets, intervals => intervals[0]);

    /// <summary>
    /// Finds the window of a vehicle with two axles, the other axle's dampers at what they give at the velocity of the targets: roll is the vehicle's, and as heave
    /// counts bounce or pitch, whichever is damped more.
    /// </summary>
    /// <param name="car">Vehicle and layout, with two axles.</param>
    /// <param name="targets">The damping ratios to be met.</param>
    /// <param name="includeFriction">Whether friction counts in what the other axle's dampers give.</param>
    /// <exception cref="UnstableBodyException">The vehicle is unstable in roll.</exception>
    public static SettingWindow OnVehicle(AssembledHalfCar car, DampingTargets targets, bool includeFriction = false)
    {
        ArgumentNullException.ThrowIfNull(car);
        ArgumentNullException.ThrowIfNull(targets);
        var vehicle = new VehicleModeFollower(car, targets.Velocity, includeFriction);

        // The suspension locks where that of the axle alone does: of the vehicle's bounce and pitch either may fall long before. And the other axle may meet
        // a target for this one before its dampers do anything.
        return Find(SamplesUpTo(Samples(new ModeFollower(vehicle.OwnAxle))[^1].Coefficient, vehicle), targets, intervals => intervals[^1]);
    }

    private static SettingWindow Find(List<Sample> samples, DampingTargets targets, Func<List<Interval>, Interval> lostWith)
    {
        ArgumentNullException.ThrowIfNull(targets);
        var met = new List<Met>();
        foreach (var target in targets.All)
            met.Add(new Met(target, Intervals(samples, target, targets)));

        // Minima give the lower edge; whatever ends first, a maximum or a minimum lost again, gives the upper one.
        var lower = new WindowEdge(0, null);
        foreach (var (target, intervals) in met)
        {
            var from = intervals.Count > 0 ? intervals[0].Start : double.PositiveInfinity;
            if (from > lower.Coefficient)
                lower = new WindowEdge(from, target);
        }

        var common = Common(met, samples[^1].Coefficient);
        if (common.Count > 0)
            return new SettingWindow(common[0].Lower, common[0].Upper, common.Count > 1);

        var upper = new WindowEdge(samples[^1].Coefficient, null);
        foreach (var (target, intervals) in met)
        {
            if (intervals.Count > 0 && lostWith(intervals).End < upper.Coefficient)
                upper = new WindowEdge(lostWith(intervals).End, target);
        }

        return new SettingWindow(lower, upper, false);
    }

    /// <summary>The settings of the search with their modes, each with a follower that can go on from there.</summary>
    private static List<Sample> Samples(IModeFollower follower)
    {
        var samples = new List<Sample> { new(0, follower.Fork(), follower.At(0)) };
        var first = follower.NamingCoefficient;
        for (var c = first; c < LargestRange * first; c *= Step)
        {
            var modes = follower.At(c);
            if (modes.Heave.IsOverdamped)
            {
                samples.Add(new Sample(c, follower.Fork(), modes));
                break;
            }

            if (samples.Count > 2 && modes.Heave.DampingRatio < samples[^1].Modes.Heave.DampingRatio)
            {
                var last = samples[^2].At(AtMaximum(samples[^2], samples[^1], modes));
                if (last.Coefficient < samples[^1].Coefficient)
                    samples.RemoveAt(samples.Count - 1);
                samples.Add(new Sample(last.Coefficient, samples[^1].Follower, last));
                break;
            }

            samples.Add(new Sample(c, follower.Fork(), modes));
        }

        return samples;
    }

    /// <summary>The same settings up to a last one.</summary>
    private static List<Sample> SamplesUpTo(double last, IModeFollower follower)
    {
        var samples = new List<Sample> { new(0, follower.Fork(), follower.At(0)) };
        for (var c = follower.NamingCoefficient; c < last; c *= Step)
        {
            var modes = follower.At(c);
            samples.Add(new Sample(c, follower.Fork(), modes));
        }

        var end = follower.At(last);
        samples.Add(new Sample(last, follower.Fork(), end));
        return samples;
    }

    /// <summary>The setting at which the heave ratio is greatest: the vertex of the parabola through three settings.</summary>
    private static double AtMaximum(Sample left, Sample middle, ModeSet right)
    {
        var rise = middle.Modes.Heave.DampingRatio - left.Modes.Heave.DampingRatio;
        var fall = middle.Modes.Heave.DampingRatio - right.Heave.DampingRatio;
        return middle.Coefficient * Math.Pow(Step, 0.5 * (rise - fall) / (rise + fall));
    }

    /// <summary>Where one target is met, by ascending setting.</summary>
    private static List<Interval> Intervals(List<Sample> samples, DampingTarget target, DampingTargets targets)
    {
        var intervals = new List<Interval>();
        double? start = targets.Margin(target, samples[0].Modes) >= 0 ? 0 : null;
        for (var i = 1; i < samples.Count; i++)
        {
            var isMet = targets.Margin(target, samples[i].Modes) >= 0;
            if (isMet == start.HasValue)
                continue;
            var from = samples[i - 1];
            var crossing = Numerics.DenseSearch.Crossing(c => targets.Margin(target, from.At(c)), from.Coefficient, samples[i].Coefficient);
            if (start is { } begin)
                intervals.Add(new Interval(begin, crossing));
            start = isMet ? crossing : null;
        }

        if (start is { } last)
            intervals.Add(new Interval(last, samples[^1].Coefficient));
        return intervals;
    }

    /// <summary>Where all targets are met, by ascending setting, each interval with the targets that bind at its edges.</summary>
    private static List<Edges> Common(List<Met> met, double end)
    {
        // Each target's intervals ascend and lie apart, so what two of them share ascends too.
        var common = new List<Edges> { new(new WindowEdge(0, null), new WindowEdge(end, null)) };
        foreach (var (target, intervals) in met)
        {
            common =
            [
                .. from left in common
                   from right in intervals
                   let lower = right.Start > left.Lower.Coefficient ? new WindowEdge(right.Start, target) : left.Lower
                   let upper = right.End < left.Upper.Coefficient ? new WindowEdge(right.End, target) : left.Upper
                   where lower.Coefficient <= upper.Coefficient
                   select new Edges(lower, upper),
            ];
        }

        return common;
    }

    private sealed record Interval(double Start, double End);

    private sealed record Met(DampingTarget Target, List<Interval> Intervals);

    private sealed record Edges(WindowEdge Lower, WindowEdge Upper);

    private sealed record Sample(double Coefficient, IModeFollower Follower, ModeSet Modes)
    {
        public ModeSet At(double coefficient) => Follower.Fork().At(coefficient);
    }
}

/// <summary>One edge of a setting window.</summary>
/// <param name="Coefficient">Coefficient of each damper, N·s/m.</param>
/// <param name="Binding">The target that binds there; null where none does: at 0, or where the suspension locks.</param>
public sealed record WindowEdge(double Coefficient, DampingTarget? Binding);
