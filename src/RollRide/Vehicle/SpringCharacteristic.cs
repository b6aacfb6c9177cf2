using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>A spring's force against its compression. Beyond a table its end slopes are extended: a spring is captive and may pull.</summary>
public abstract record SpringCharacteristic
{
    /// <summary>
    /// The force at compressions counted from ride height (N over m), the spring being set so that at ride height it
    /// carries the given preload.
    /// </summary>
    /// <param name="preload">Force at ride height, N.</param>
    /// <exception cref="ArgumentOutOfRangeException">The characteristic never reaches the preload.</exception>
    public abstract PiecewiseLinear AtRideHeight(double preload);

    /// <summary>Force of this spring put in the place of another one, compressed as far from its free length, N; of springs without a known free length that of the other.</summary>
    /// <param name="other">The other spring.</param>
    /// <param name="preload">Force of the other spring there, N.</param>
    public double ForceInPlaceOf(SpringCharacteristic other, double preload)
    {
        ArgumentNullException.ThrowIfNull(other);
        return other.CompressionUnder(preload) is { } compression ? ForceAt(compression) ?? preload : preload;
    }

    /// <summary>Compression from free length under a force, m; null where the free length is not known.</summary>
    private protected virtual double? CompressionUnder(double force) => null;

    /// <summary>Force at a compression from free length, N; null where the free length is not known.</summary>
    private protected virtual double? ForceAt(double compression) => null;

    /// <summary>Its least and its greatest rate anywhere, N/m.</summary>
    public abstract (double Least, double Greatest) Rates { get; }

    /// <summary>The same spring, set as it is, with its compression counted from another ride height.</summary>
    /// <param name="set">Its force, N, over compression from the ride height at which it was set, m.</param>
    /// <param name="compression">Its compression at the other ride height, m.</param>
    internal virtual SpringCharacteristic Redrawn(PiecewiseLinear set, double compression) => RideHeightSpringTable.From(set, compression);

    /// <summary>Least and greatest slope of a table.</summary>
    private protected static (double Least, double Greatest) RatesOf(PiecewiseLinear curve)
    {
        double[] rates = [.. Enumerable.Range(1, curve.X.Length - 1).Select(i => (curve.Y[i] - curve.Y[i - 1]) / (curve.X[i] - curve.X[i - 1]))];
        return (rates.Min(), rates.Max());
    }

    /// <summary>Returns a table whose force never falls.</summary>
    private protected static PiecewiseLinear NeverFalling(PiecewiseLinear curve, string name)
    {
        ArgumentNullException.ThrowIfNull(curve, name);
        for (var i = 1; i < curve.Y.Length; i++)
        {
            if (curve.Y[i] < curve.Y[i - 1])
            {
                throw new ArgumentException(
                    FormattableString.Invariant($"The force falls from {curve.Y[i - 1]} N to {curve.Y[i]} N at {curve.X[i]} m; a spring's force must not fall as it is compressed."),
                    name);
            }
        }

        return curve;
    }
}

/// <summary>A spring of constant rate.</summary>
/// <param name="Rate">Rate, N/m; greater than 0.</param>
public sealed record LinearSpring(double Rate) : SpringCharacteristic
{
    /// <summary>Rate, N/m; greater than 0.</summary>
    public double Rate { get; init => field = Require.Positive(value, "N/m", nameof(Rate)); } = Require.Positive(Rate, "N/m", nameof(Rate));

    /// <inheritdoc/>
    public override PiecewiseLinear AtRideHeight(double preload) =>
        PiecewiseLinear.Through([-1, 0, 1], [preload - Rate, preload, preload + Rate]);

    /// <inheritdoc/>
    public override (double Least, double Greatest) Rates => (Rate, Rate);

    internal override SpringCharacteristic Redrawn(PiecewiseLinear set, double compression) => this;

    private protected override double? CompressionUnder(double force) => force / Rate;

    private protected override double? ForceAt(double compression) => Rate * compression;
}

/// <summary>A table of force over compression from the spring's free length.</summary>
/// <param name="Curve">Total force, N, over compression from free length, m; never falling.</param>
public sealed record FreeLengthSpringTable(PiecewiseLinear Curve) : SpringCharacteristic
{
    /// <summary>Total force, N, over compression from free length, m; never falling.</summary>
    public PiecewiseLinear Curve { get; init => field = NeverFalling(value, nameof(Curve)); } = NeverFalling(Curve, nameof(Curve));

    /// <inheritdoc/>
    public override PiecewiseLinear AtRideHeight(double preload)
    {
        var installed = Installed(preload);
        return PiecewiseLinear.Through([.. Curve.X.Select(x => x - installed)], [.. Curve.Y]);
    }

    /// <inheritdoc/>
    public override (double Least, double Greatest) Rates => RatesOf(Curve);

    private protected override double? CompressionUnder(double force) => Installed(force);

    private protected override double? ForceAt(double compression) => Curve.Value(compression);

    private double Installed(double preload)
    {
        var segment = 0;
        while (segment < Curve.X.Length - 1 && Curve.Y[segment + 1] < preload)
            segment++;
        if (preload < Curve.Y[0] || segment == Curve.X.Length - 1 || Curve.Y[segment] == Curve.Y[segment + 1])
        {
            // Where the table is level at the preload, the ride height could be anywhere on it.
            throw new ArgumentOutOfRangeException(
                nameof(preload),
                preload,
                FormattableString.Invariant(
                    $"The spring must carry {preload:F0} N at ride height, where its table must rise; it covers {Curve.Y[0]:F0} N to {Curve.Y[^1]:F0} N."));
        }

        var share = (preload - Curve.Y[segment]) / (Curve.Y[segment + 1] - Curve.Y[segment]);
        return Curve.X[segment] + (share * (Curve.X[segment + 1] - Curve.X[segment]));
    }
}

/// <summary>A table of the change of force over compression from static ride height; it passes through the origin.</summary>
/// <param name="Curve">Change of force, N, over compression from ride height, m; never falling.</param>
public sealed record RideHeightSpringTable(PiecewiseLinear Curve) : SpringCharacteristic
{
    /// <summary>Change of force, N, over compression from ride height, m; never falling, through the origin.</summary>
    public PiecewiseLinear Curve { get; init => field = ThroughOrigin(value); } = ThroughOrigin(Curve);

    /// <inheritdoc/>
    public override PiecewiseLinear AtRideHeight(double preload) =>
        PiecewiseLinear.Through(Curve.X, [.. Curve.Y.Select(y => y + preload)]);

    /// <inheritdoc/>
    public override (double Least, double Greatest) Rates => RatesOf(Curve);

    /// <summary>The change of a spring's force from one of its compressions.</summary>
    /// <param name="set">Force, N, over compression, m; never falling.</param>
    /// <param name="compression">The compression, m; it may lie beyond the table.</param>
    internal static RideHeightSpringTable From(PiecewiseLinear set, double compression)
    {
        // Points nearer than this, m, are the same one: closer together, rounding of the force would show in the slope between them.
        const double samePoint = 1e-9;
        var force = set.Value(compression);
        var points = set.X.Zip(set.Y, (x, y) => (X: x - compression, Y: y - force)).ToList();
        var below = points.Where(point => point.X < -samePoint).Select(point => (point.X, Math.Min(point.Y, 0)));
        var above = points.Where(point => point.X > samePoint).Select(point => (point.X, Math.Max(point.Y, 0)));
        (double X, double Y)[] table = [.. below, (0, 0), .. above];
        return new RideHeightSpringTable(PiecewiseLinear.Through([.. table.Select(point => point.X)], [.. table.Select(point => point.Y)]));
    }

    private static PiecewiseLinear ThroughOrigin(PiecewiseLinear curve)
    {
        NeverFalling(curve, nameof(Curve));
        return curve.X[0] <= 0 && curve.X[^1] >= 0 && curve.Value(0) == 0
            ? curve
            : throw new ArgumentException("The force is its change from static, so the table must pass through 0 N at 0 m.", nameof(curve));
    }
}
