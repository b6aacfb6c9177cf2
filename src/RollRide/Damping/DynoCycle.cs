using System.Collections.Immutable;
using System.Globalization;
using RollRide.Numerics;

namespace RollRide.Damping;

/// <summary>One closed cycle of a dynamometer's run, from the reversal into compression to the next one; the last sample closes it.</summary>
internal sealed class DynoCycle
{
    // Smaller velocities than this share of the peak do not tell the direction: noise crosses zero many times.
    private const double DirectionThreshold = 0.1;

    // A record that begins or ends slower than this share of the peak does so at a reversal.
    private const double ReversalThreshold = 0.02;

    // The piston comes back to where it was; what is more than this share of the stroke is drift or an open loop.
    private const double ClosureShare = 0.02;

    // Damping coefficients, N·s/m, from model cars to lorries: beyond them the columns hold another quantity or unit. Common practice, no source.
    public const double SmallestCoefficient = 10, LargestCoefficient = 1e6;

    private DynoCycle(double[] displacement, double[] velocity, double[] force)
    {
        Displacement = displacement;
        Velocity = velocity;
        Force = force;
        MidStroke = (displacement.Max() + displacement.Min()) / 2;
        Stroke = displacement.Max() - displacement.Min();
        Energy = Integral(force, displacement);
    }

    public double[] Displacement { get; }

    public double[] Velocity { get; }

    public double[] Force { get; }

    public double MidStroke { get; }

    public double Stroke { get; }

    /// <summary>Energy dissipated in the cycle, <c>∮ F dx</c>, J.</summary>
    public double Energy { get; }

    /// <summary>The closed cycles of a run, after checking that they dissipate.</summary>
    public static IReadOnlyList<DynoCycle> Of(DynoRun run)
    {
        CheckCoefficient(run.Name, Integral(run.Force, run.Displacement), Integral(run.Velocity, run.Displacement));
        var starts = Starts(run.Velocity);
        var cycles = starts.Count >= 2
            ? starts.Zip(starts.Skip(1), (from, to) => Cut(run, Enumerable.Range(from, to - from + 1))).ToList()
            : [Wrapped(run, starts.FirstOrDefault())];
        foreach (var (cycle, number) in cycles.Select((c, i) => (c, i + 1)))
            cycle.Check(run.Name, number);
        return cycles;
    }

    /// <summary>The samples of one direction, as indices.</summary>
    public IEnumerable<int> Samples(int direction) =>
        Enumerable.Range(0, Velocity.Length - 1).Where(i => direction * Velocity[i] > 0);

    private static List<int> Starts(ImmutableArray<double> velocity)
    {
        double peak = velocity.Max(Math.Abs);
        double threshold = DirectionThreshold * peak;
        var starts = new List<int>();
        int? lastRebound = Math.Abs(velocity[0]) < ReversalThreshold * peak ? -1 : null;
        for (int i = 0; i < velocity.Length; i++)
        {
            if (velocity[i] < -threshold)
                lastRebound = i;
            else if (velocity[i] > threshold && lastRebound is { } rebound)
            {
                starts.Add(Enumerable.Range(rebound + 1, i - rebound).First(k => velocity[k] >= 0));
                lastRebound = null;
            }
        }

        if (lastRebound is >= 0 && Math.Abs(velocity[^1]) < ReversalThreshold * peak)
            starts.Add(velocity.Length - 1);
        return starts;
    }

    private static DynoCycle Cut(DynoRun run, IEnumerable<int> samples)
    {
        int[] indices = [.. samples];
        return new DynoCycle(
            [.. indices.Select(i => run.Displacement[i])],
            [.. indices.Select(i => run.Velocity[i])],
            [.. indices.Select(i => run.Force[i])]);
    }

    /// <summary>A record of exactly one cycle, begun anywhere: its end joins its beginning.</summary>
    private static DynoCycle Wrapped(DynoRun run, int start)
    {
        var x = run.Displacement;
        double stroke = x.Max() - x.Min();
        double longestStep = Enumerable.Range(1, x.Length - 1).Max(i => Math.Abs(x[i] - x[i - 1]));
        bool bothWays = run.Velocity.Min() < -0.5 * run.PeakVelocity && run.Velocity.Max() > 0.5 * run.PeakVelocity;
        if (!bothWays || Math.Abs(x[^1] - x[0]) > ClosureShare * stroke + longestStep)
        {
            throw new DynoDataException(run.Name, null, string.Create(
                CultureInfo.InvariantCulture,
                $"the loop is not closed: it begins at {Unit.Millimetre.Show(x[0]):F1} and ends at {Unit.Millimetre.Show(x[^1]):F1} of a stroke of {Unit.Millimetre.Show(stroke):F1}; at least one whole cycle is needed"));
        }

        return Cut(run, Enumerable.Range(start, x.Length - start).Concat(Enumerable.Range(0, start + 1)));
    }

    private void Check(string run, int number)
    {
        string Cycle(FormattableString reason) => string.Create(CultureInfo.InvariantCulture, $"cycle {number}: {reason.ToString(CultureInfo.InvariantCulture)}");
        double open = Displacement[^1] - Displacement[0];
        if (Math.Abs(open) > ClosureShare * Stroke)
            throw new DynoDataException(run, null, Cycle($"the loop is not closed: it ends {Unit.Millimetre.Show(open):F2} from where it began, of a stroke of {Unit.Millimetre.Show(Stroke):F1}"));
        if (Energy <= 0)
            throw new DynoDataException(run, null, Cycle($"the damper would give out {-Energy:G4} J a cycle, and a damper cannot make energy: force or velocity has the other sign, or they are swapped"));
    }

    /// <summary>
    /// The linear damper of the same energy, <c>∮F dx = c ∮v dx</c>, must be one that exists; swapped columns give its inverse.
    /// </summary>
    private static void CheckCoefficient(string run, double energy, double velocityIntegral)
    {
        double coefficient = Math.Abs(energy / velocityIntegral);
        if (coefficient is not (>= SmallestCoefficient and <= LargestCoefficient))
        {
            throw new DynoDataException(run, null, string.Create(
                CultureInfo.InvariantCulture,
                $"its energy of {energy:G4} J is that of a damping coefficient of {coefficient:G3} N·s/m; from {SmallestCoefficient} to {LargestCoefficient} is accepted: are force and velocity swapped, or is a unit wrong?"));
        }
    }

    /// <summary><c>∫ y dx</c> along the samples by the trapezoidal rule.</summary>
    private static double Integral(IReadOnlyList<double> y, IReadOnlyList<double> x)
    {
        double sum = 0;
        for (int i = 1; i < y.Count; i++)
            sum += 0.5 * (y[i] + y[i - 1]) * (x[i] - x[i - 1]);
        return sum;
    }
}
