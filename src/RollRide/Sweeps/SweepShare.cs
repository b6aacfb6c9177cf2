using System.Globalization;

namespace RollRide.Sweeps;

/// <summary>One of several equal shares of a sweep, each a run of successive variants.</summary>
public sealed record SweepShare
{
    /// <summary>Makes a share.</summary>
    /// <param name="number">Which, from 1.</param>
    /// <param name="of">The number of shares, at least 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">There is no such share.</exception>
    public SweepShare(int number, int of)
    {
        if (of < 1 || number < 1 || number > of)
            throw new ArgumentOutOfRangeException(nameof(number), FormattableString.Invariant($"There is no share {number} of {of}."));
        (Number, Of) = (number, of);
    }

    /// <summary>The whole sweep.</summary>
    public static SweepShare Whole { get; } = new(1, 1);

    /// <summary>Which, from 1.</summary>
    public int Number { get; }

    /// <summary>The number of shares.</summary>
    public int Of { get; }

    /// <summary>What file names of this share end in; nothing for the whole.</summary>
    public string Suffix => Of == 1 ? "" : string.Create(CultureInfo.InvariantCulture, $"-part-{Number}-of-{Of}");

    /// <summary>The first variant of the share.</summary>
    /// <param name="variants">The number of variants of the sweep.</param>
    public long First(long variants) => (long)((Int128)variants * (Number - 1) / Of);

    /// <summary>The variant after the last of the share.</summary>
    /// <param name="variants">The number of variants of the sweep.</param>
    public long End(long variants) => (long)((Int128)variants * Number / Of);

    /// <inheritdoc/>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Number}/{Of}");
}
