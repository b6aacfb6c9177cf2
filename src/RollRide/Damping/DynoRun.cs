using System.Collections.Immutable;
using System.Globalization;

namespace RollRide.Damping;

/// <summary>
/// What a dynamometer recorded at one speed: one or several cycles, sample by sample, in SI units and with compression positive
/// for displacement, velocity and force. Immutable.
/// </summary>
public sealed record DynoRun
{
    private const int FewestSamples = 16;

    // Velocity and displacement of one machine agree within a few per cent; a factor of 1000 or a wrong sign does not.
    private const double LargestMismatch = 0.1;

    /// <summary>Makes a run from its columns.</summary>
    /// <param name="name">Name of the run in messages and tables.</param>
    /// <param name="time">Time, s, ascending; null if not recorded.</param>
    /// <param name="displacement">Displacement, m, positive in compression; null if not recorded. Time or displacement must be there.</param>
    /// <param name="velocity">Velocity, m/s, positive in compression.</param>
    /// <param name="force">Force, N, positive when it resists compression.</param>
    /// <exception cref="DynoDataException">The samples cannot be a dynamometer's record; the message says why.</exception>
    public DynoRun(
        string name, IReadOnlyList<double>? time, IReadOnlyList<double>? displacement, IReadOnlyList<double> velocity, IReadOnlyList<double> force)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentNullException.ThrowIfNull(velocity);
        ArgumentNullException.ThrowIfNull(force);
        Name = name;
        int count = velocity.Count;
        if (force.Count != count || (time ?? velocity).Count != count || (displacement ?? velocity).Count != count)
            throw new ArgumentException("All columns of a run need the same number of samples.");
        if (count < FewestSamples)
            throw Fault($"it has {count} samples; a loop needs at least {FewestSamples}");
        if (time is not null && Enumerable.Range(1, count - 1).FirstOrDefault(i => !(time[i] > time[i - 1])) is > 0 and var late)
            throw new DynoDataException(name, late, "time does not ascend here");

        Velocity = [.. velocity];
        Force = [.. force];
        Displacement = displacement is not null ? [.. displacement]
            : time is not null ? Integrate(time, velocity)
            : throw Fault($"a loop needs time or displacement besides velocity and force");
        if (time is not null && displacement is not null)
            CheckDerivative(time);
    }

    /// <summary>Name of the run.</summary>
    public string Name { get; }

    /// <summary>Displacement, m, positive in compression; from the velocity where it was not recorded.</summary>
    public ImmutableArray<double> Displacement { get; }

    /// <summary>Velocity, m/s, positive in compression.</summary>
    public ImmutableArray<double> Velocity { get; }

    /// <summary>Force, N, positive when it resists compression.</summary>
    public ImmutableArray<double> Force { get; }

    /// <summary>Largest velocity of either direction, m/s.</summary>
    public double PeakVelocity => Velocity.Max(Math.Abs);

    private static ImmutableArray<double> Integrate(IReadOnlyList<double> time, IReadOnlyList<double> velocity)
    {
        var displacement = new double[time.Count];
        for (int i = 1; i < displacement.Length; i++)
            displacement[i] = displacement[i - 1] + 0.5 * (velocity[i] + velocity[i - 1]) * (time[i] - time[i - 1]);
        return [.. displacement];
    }

    private void CheckDerivative(IReadOnlyList<double> time)
    {
        double product = 0, square = 0;
        for (int i = 1; i < time.Count; i++)
        {
            double moved = Displacement[i] - Displacement[i - 1];
            double expected = 0.5 * (Velocity[i] + Velocity[i - 1]) * (time[i] - time[i - 1]);
            product += moved * expected;
            square += moved * moved;
        }

        double ratio = product / square;
        if (!(Math.Abs(ratio - 1) <= LargestMismatch))
        {
            throw Fault($"its velocity is {ratio:G3} times the rate at which its displacement changes; look for swapped columns, a wrong unit or a wrong sign");
        }
    }

    private DynoDataException Fault(FormattableString reason) => new(Name, null, reason.ToString(CultureInfo.InvariantCulture));
}
