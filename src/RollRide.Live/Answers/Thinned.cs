using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Live.Answers;

/// <summary>A channel with few enough samples to draw, at even steps, each extreme kept with its value.</summary>
internal static class Thinned
{
    private const int Most = 400;

    // Samples taken for one that is drawn, and the fewest in a second, so that no extreme between two is missed: axles hop at 10 to 15 Hz.
    private const int Finer = 6;
    private const double LowestRate = 200;

    /// <summary>The rate at which a run is sampled to be drawn, Hz; its metrics do not depend on it.</summary>
    /// <param name="study">The case.</param>
    public static double Rate(StudyCase study) => Math.Min(study.HistoryRate, Math.Max(LowestRate, Finer * Most / study.Manoeuvre.Duration));

    /// <summary>How many samples of the channel make one step.</summary>
    /// <param name="count">The number of samples.</param>
    public static int Stride(int count) => Math.Max(1, (int)Math.Ceiling((count - 1) / (Most - 1.0)));

    /// <summary>The samples to draw: those at whole steps, and in the place of one the extreme around it, where the channel turns there.</summary>
    /// <param name="samples">The samples, SI.</param>
    /// <param name="unit">The unit to draw them in.</param>
    /// <param name="decimals">Decimals kept.</param>
    public static double[] Of(ReadOnlySpan<double> samples, Unit unit, int decimals)
    {
        var stride = Stride(samples.Length);
        var drawn = new double[((samples.Length - 1) / stride) + 1];
        for (var i = 0; i < drawn.Length; i++)
        {
            var at = i * stride;
            var (from, to) = (Math.Max(0, at - (stride / 2)), Math.Min(samples.Length, at + ((stride + 1) / 2)));
            drawn[i] = Math.Round(unit.Of(Turn(samples[from..to]) ?? samples[at]), decimals);
        }

        return drawn;
    }

    /// <summary>The value furthest beyond both ends of a stretch; null where it goes beyond neither.</summary>
    private static double? Turn(ReadOnlySpan<double> stretch)
    {
        var (low, high) = (Math.Min(stretch[0], stretch[^1]), Math.Max(stretch[0], stretch[^1]));
        double? turn = null;
        var furthest = 0.0;
        foreach (var value in stretch)
        {
            var beyond = Math.Max(low - value, value - high);
            if (beyond > furthest)
                (furthest, turn) = (beyond, value);
        }

        return turn;
    }
}
