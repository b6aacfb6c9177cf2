using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;
using RollRide.Damping;

namespace RollRide.Tests.Damping;

/// <summary>An invented damper on an ideal dynamometer: what it would record is known, so what is read from the record can be checked.</summary>
internal sealed record DynoBench
{
    public required Valving Valving { get; init; }

    public double Friction { get; init; }

    public double GasForce { get; init; }

    public double GasRate { get; init; }

    /// <summary>Delay of the valves' force behind the velocity, s: what makes the loop open.</summary>
    public double Lag { get; init; }

    /// <summary>Standard deviation of the force noise, N.</summary>
    public double Noise { get; init; }

    public double Stroke { get; init; } = 0.1;

    public int SamplesPerCycle { get; init; } = 400;

    public static Valving Digressive { get; } = new(
        new ValveCharacteristic(2400, 0.16, 900),
        new ValveCharacteristic(4800, 0.12, 1900));

    /// <summary>A crank's record: displacement from −stroke/2 (extended) to +stroke/2, compression first.</summary>
    public DynoRun Sine(double peakVelocity, int cycles = 1, int seed = 1, double spoiltCycle = -1)
    {
        double ω = peakVelocity / (Stroke / 2);
        return Record(
            $"{peakVelocity:F3} m/s", cycles, 2 * Math.PI / ω, seed,
            t => (-Stroke / 2 * Math.Cos(ω * t), peakVelocity * Math.Sin(ω * t)),
            spoiltCycle);
    }

    /// <summary>A triangular record: constant velocity each way.</summary>
    public DynoRun Triangle(double velocity, int cycles = 1)
    {
        double half = Stroke / velocity;
        return Record(
            $"{velocity:F3} m/s", cycles, 2 * half, 1,
            t => t % (2 * half) is var u && u < half ? (-Stroke / 2 + velocity * u, velocity) : (Stroke / 2 - velocity * (u - half), -velocity),
            -1);
    }

    private DynoRun Record(string name, int cycles, double period, int seed, Func<double, (double X, double V)> motion, double spoiltCycle)
    {
        var noise = new Normal(0, Noise, new MersenneTwister(seed, false));
        int count = cycles * SamplesPerCycle + 1;
        double[] t = [.. Enumerable.Range(0, count).Select(i => i * period / SamplesPerCycle)];
        double[] x = [.. t.Select(time => motion(time).X)];
        double[] v = [.. t.Select(time => motion(time).V)];
        double[] f = [.. t.Select((time, i) =>
        {
            double rubbing = Math.Abs(v[i]) < 1e-9 ? 0 : Math.Sign(v[i]);
            double valves = Valving.Force(motion(Math.Max(0, time - Lag)).V) * ((int)(i / (double)SamplesPerCycle) == spoiltCycle ? 1.3 : 1);
            return valves + Friction * rubbing + GasForce + GasRate * x[i] + (Noise > 0 ? noise.Sample() : 0);
        })];
        return new DynoRun(name, t, x, v, f);
    }
}
