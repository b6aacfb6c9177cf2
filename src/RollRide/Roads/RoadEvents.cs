using RollRide.Numerics;

namespace RollRide.Roads;

/// <summary>
/// Shapes of road, as elevation (m) over distance (m) for one wheel track. None leaves a jump in the road: an event
/// starts at zero elevation and returns there or holds the height it ends at.
/// </summary>
/// <remarks>Every argument that is out of its range is refused with an <see cref="ArgumentException"/>.</remarks>
public static class RoadEvents
{
    /// <summary>
    /// Length over which a step rises unless told otherwise, m: short against a car tyre's contact, which is some
    /// 0.15 m long and would in truth envelop a sharp edge.
    /// </summary>
    public const double DefaultStepLength = 0.05;

    /// <summary>A haversine bump, <c>½ h (1 − cos 2πu/l)</c>: it starts and ends level.</summary>
    /// <param name="start">Where it starts, m.</param>
    /// <param name="length">Its length, m, above 0.</param>
    /// <param name="height">Its height in the middle, m; negative for a dip.</param>
    public static PiecewiseSignal HaversineBump(double start, double length, double height) =>
        new(Piece(start, Require.Positive(length, "m"), new HaversineShape(Require.Finite(height, "m"), length)));

    /// <summary>A straight ramp, whose end height the road keeps.</summary>
    /// <param name="start">Where it starts, m.</param>
    /// <param name="length">Its length, m, above 0.</param>
    /// <param name="height">Its end height, m; negative for a way down.</param>
    public static PiecewiseSignal Ramp(double start, double length, double height)
    {
        Require.Finite(height, "m");
        return new(
            Piece(start, Require.Positive(length, "m"), new LinearShape(0, height / length)),
            Hold(start + length, height));
    }

    /// <summary>A step (kerb), whose height the road keeps: a ramp short against the tyre's contact.</summary>
    /// <param name="start">Where it starts, m.</param>
    /// <param name="height">Its height, m; negative for a step down.</param>
    /// <param name="length">The length over which it rises, m, above 0.</param>
    public static PiecewiseSignal Step(double start, double height, double length = DefaultStepLength) =>
        Ramp(start, length, height);

    /// <summary>A pothole: straight down over one edge, flat, straight up over the other edge.</summary>
    /// <param name="start">Where it starts, m.</param>
    /// <param name="length">Its whole length, edges included, m; longer than the two edges.</param>
    /// <param name="depth">Its depth, m, above 0.</param>
    /// <param name="edgeLength">The length of each edge, m, above 0.</param>
    public static PiecewiseSignal Pothole(double start, double length, double depth, double edgeLength = DefaultStepLength)
    {
        Require.Positive(length, "m");
        Require.Positive(depth, "m");
        Require.Positive(edgeLength, "m");
        if (length <= 2 * edgeLength)
        {
            throw new ArgumentOutOfRangeException(
                nameof(length), length, FormattableString.Invariant($"A pothole must be longer than its two edges of {edgeLength} m together."));
        }

        // Pieces meet at exactly the same numbers, so that none overlaps and no gap is left.
        Require.Finite(start, "m");
        double bottomStart = start + edgeLength, bottomEnd = start + length - edgeLength, end = start + length;
        return new(
            new SignalPiece(start, bottomStart, new LinearShape(0, -depth / edgeLength)),
            new SignalPiece(bottomStart, bottomEnd, new ConstantShape(-depth)),
            new SignalPiece(bottomEnd, end, new LinearShape(-depth, depth / edgeLength)));
    }

    /// <summary>A number of whole sine waves, the first half-wave upward.</summary>
    /// <param name="start">Where they start, m.</param>
    /// <param name="wavelength">The wavelength, m, above 0.</param>
    /// <param name="amplitude">The amplitude, half of crest to trough, m; negative to begin downward.</param>
    /// <param name="cycles">How many waves; at least 1.</param>
    public static PiecewiseSignal Sine(double start, double wavelength, double amplitude, int cycles)
    {
        Require.Positive(wavelength, "m");
        Require.Finite(amplitude, "m");
        ArgumentOutOfRangeException.ThrowIfLessThan(cycles, 1);
        return new(Piece(start, cycles * wavelength, new SineShape(amplitude, wavelength, 0)));
    }

    /// <summary>
    /// A sine whose frequency, as a vehicle at the given speed meets it, runs linearly in time from one value to the
    /// other over a number of whole cycles.
    /// </summary>
    /// <param name="start">Where it starts, m.</param>
    /// <param name="startFrequency">Frequency at the start, Hz, above 0.</param>
    /// <param name="endFrequency">Frequency at the end, Hz, above 0; may be the lower one.</param>
    /// <param name="amplitude">The amplitude, half of crest to trough, m; negative to begin downward.</param>
    /// <param name="cycles">How many cycles; at least 1.</param>
    /// <param name="speed">The speed at which the frequencies are met, m/s, above 0.</param>
    public static PiecewiseSignal SweptSine(
        double start, double startFrequency, double endFrequency, double amplitude, int cycles, double speed)
    {
        Require.Positive(startFrequency, "Hz");
        Require.Positive(endFrequency, "Hz");
        Require.Finite(amplitude, "m");
        ArgumentOutOfRangeException.ThrowIfLessThan(cycles, 1);
        Require.Positive(speed, "m/s");

        // The mean frequency times the duration is the number of cycles; at constant speed distance stands for time.
        double length = speed * cycles / ((startFrequency + endFrequency) / 2);
        return new(Piece(start, length, new SweptSineShape(amplitude, startFrequency / speed, endFrequency / speed, length)));
    }

    /// <summary>
    /// A measured profile, through its samples by a monotone cubic. Its first elevation is held before it and its last
    /// after it: the vehicle starts at rest on the first one.
    /// </summary>
    /// <param name="distances">Distances, m, strictly ascending; at least two.</param>
    /// <param name="elevations">Elevations, m, as many as distances.</param>
    public static PiecewiseSignal Sampled(IReadOnlyList<double> distances, IReadOnlyList<double> elevations)
    {
        ArgumentNullException.ThrowIfNull(distances);
        ArgumentNullException.ThrowIfNull(elevations);
        double first = distances.Count > 0 ? distances[0] : 0;
        var profile = new SampledShape([.. distances.Select(x => x - first)], elevations);
        return new(
            new SignalPiece(double.NegativeInfinity, first, new ConstantShape(elevations[0])),
            new SignalPiece(first, distances[^1], profile),
            Hold(distances[^1], elevations[^1]));
    }

    private static SignalPiece Piece(double start, double length, ISignalShape shape)
    {
        Require.Finite(start, "m");
        return new SignalPiece(start, start + length, shape);
    }

    private static SignalPiece Hold(double from, double height) =>
        new(from, double.PositiveInfinity, new ConstantShape(height));
}
