namespace RollRide.Numerics;

/// <summary>
/// The Sobol sequence: points that fill the unit cube more evenly than random ones, in the order of the Gray code (Antonov and
/// Saleev 1979).
/// </summary>
/// <remarks>
/// Direction numbers of S. Joe and F. Y. Kuo, "Constructing Sobol sequences with better two-dimensional projections", SIAM Journal on
/// Scientific Computing 30, 2008: the first dimensions of their table new-joe-kuo-6.21201. Immutable and thread-safe.
/// </remarks>
public sealed class SobolSequence
{
    /// <summary>The most dimensions there are direction numbers for.</summary>
    public const int MostDimensions = 32;

    private const int Bits = 32;

    private readonly uint[][] _directions;
    private readonly uint[] _shift;
    private readonly double _offset;

    /// <summary>Makes a sequence.</summary>
    /// <param name="dimensions">The number of coordinates, 1 to 32.</param>
    /// <param name="seed">
    /// Seed of a random shift of the binary digits, different in each dimension: the points stay as even and none lies on the
    /// border. Null gives the sequence as published, whose first point is the origin.
    /// </param>
    /// <exception cref="ArgumentOutOfRangeException">There are not 1 to 32 dimensions.</exception>
    public SobolSequence(int dimensions, int? seed = null)
    {
        if (dimensions is < 1 or > MostDimensions)
            throw new ArgumentOutOfRangeException(nameof(dimensions), dimensions, $"A Sobol sequence has 1 to {MostDimensions} dimensions.");
        _directions = [.. Enumerable.Range(0, dimensions).Select(DirectionsOf)];
        _shift = [.. Enumerable.Range(0, dimensions).Select(d => seed is { } s ? (uint)(SplitMix64.At(SplitMix64.Stream(s, d), 0) >> Bits) : 0u)];
        _offset = seed is null ? 0 : 0.5;
    }

    /// <summary>The number of coordinates.</summary>
    public int Dimensions => _directions.Length;

    /// <summary>Gives a point of the sequence.</summary>
    /// <param name="index">Its place, from 0; below 2³².</param>
    /// <param name="point">Takes its coordinates, at least 0 and below 1.</param>
    public void Point(long index, Span<double> point)
    {
        if (index is < 0 or > uint.MaxValue)
            throw new ArgumentOutOfRangeException(nameof(index), index, "A point's place is 0 to 2³² − 1.");
        var gray = (uint)(index ^ (index >> 1));
        for (var d = 0; d < _directions.Length; d++)
        {
            var digits = _shift[d];
            var directions = _directions[d];
            for (var bit = 0; gray >> bit != 0 && bit < Bits; bit++)
            {
                if (((gray >> bit) & 1) != 0)
                    digits ^= directions[bit];
            }

            point[d] = (digits + _offset) / (1UL << Bits);
        }
    }

    /// <summary>Degree and inner coefficients of a dimension's primitive polynomial, and its first direction numbers.</summary>
    internal static (int Degree, uint Coefficients, uint[] Numbers) TableRow(int dimension) => JoeKuo[dimension - 1];

    private static uint[] DirectionsOf(int dimension)
    {
        var v = new uint[Bits];
        if (dimension == 0)
        {
            for (var i = 0; i < Bits; i++)
                v[i] = 1u << (Bits - 1 - i);
            return v;
        }

        var (degree, a, m) = JoeKuo[dimension - 1];
        for (var i = 0; i < Bits; i++)
        {
            if (i < degree)
            {
                v[i] = m[i] << (Bits - 1 - i);
                continue;
            }

            v[i] = v[i - degree] ^ (v[i - degree] >> degree);
            for (var k = 1; k < degree; k++)
            {
                if (((a >> (degree - 1 - k)) & 1) != 0)
                    v[i] ^= v[i - k];
            }
        }

        return v;
    }

    // Dimensions 2 and up: degree, coefficients, first direction numbers.
    private static readonly (int, uint, uint[])[] JoeKuo =
    [
        (1, 0, [1]),
        (2, 1, [1, 3]),
        (3, 1, [1, 3, 1]),
        (3, 2, [1, 1, 1]),
        (4, 1, [1, 1, 3, 3]),
        (4, 4, [1, 3, 5, 13]),
        (5, 2, [1, 1, 5, 5, 17]),
        (5, 4, [1, 1, 5, 5, 5]),
        (5, 7, [1, 1, 7, 11, 19]),
        (5, 11, [1, 1, 5, 1, 1]),
        (5, 13, [1, 1, 1, 3, 11]),
        (5, 14, [1, 3, 5, 5, 31]),
        (6, 1, [1, 3, 3, 9, 7, 49]),
        (6, 13, [1, 1, 1, 15, 21, 21]),
        (6, 16, [1, 3, 1, 13, 27, 49]),
        (6, 19, [1, 1, 1, 15, 7, 5]),
        (6, 22, [1, 3, 1, 15, 13, 25]),
        (6, 25, [1, 1, 5, 5, 19, 61]),
        (7, 1, [1, 3, 7, 11, 23, 15, 103]),
        (7, 4, [1, 3, 7, 13, 13, 15, 69]),
        (7, 7, [1, 1, 3, 13, 7, 35, 63]),
        (7, 8, [1, 3, 5, 9, 1, 25, 53]),
        (7, 14, [1, 3, 1, 13, 9, 35, 107]),
        (7, 19, [1, 3, 1, 5, 27, 61, 31]),
        (7, 21, [1, 1, 5, 11, 19, 41, 61]),
        (7, 28, [1, 3, 5, 3, 3, 13, 69]),
        (7, 31, [1, 1, 7, 13, 1, 19, 1]),
        (7, 32, [1, 3, 7, 5, 13, 19, 59]),
        (7, 37, [1, 1, 3, 9, 25, 29, 41]),
        (7, 41, [1, 3, 5, 13, 23, 1, 55]),
        (7, 42, [1, 3, 7, 3, 13, 59, 17]),
    ];
}
