using RollRide.Numerics;

namespace RollRide.Vehicle;

/// <summary>A spring's force against its compression.</summary>
public abstract record SpringCharacteristic
{
    /// <summary>
    /// The force at compressions counted from ride height (N over m), the spring being set so that at ride height it
    /// carries the given preload.
    /// </summary>
    /// <param name="preload">Force at ride height, N.</param>
    /// <exception cref="ArgumentOutOfRangeException">The characteristic never reaches the preload.</exception>
    public abstract PiecewiseLinear AtRideHeight(double preload);
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
}

/// <summary>A table of force over compression from the spring's free length.</summary>
/// <param name="Curve">Total force, N, over compression from free length, m; never falling.</param>
public sealed record FreeLengthSpringTable(PiecewiseLinear Curve) : SpringCharacteristic
{
    /// <inheritdoc/>
    public override PiecewiseLinear AtRideHeight(double preload)
    {
        var segment = 0;
        while (segment < Curve.X.Length - 1 && Curve.Y[segment + 1] < preload)
            segment++;
        if (preload < Curve.Y[0] || segment == Curve.X.Length - 1)
        {
            throw new ArgumentOutOfRangeException(
                nameof(preload),
                preload,
                FormattableString.Invariant(
                    $"The spring must carry {preload:F0} N at ride height, but its table covers {Curve.Y[0]:F0} N to {Curve.Y[^1]:F0} N."));
        }

        var share = (preload - Curve.Y[segment]) / (Curve.Y[segment + 1] - Curve.Y[segment]);
        var installed = Curve.X[segment] + (share * (Curve.X[segment + 1] - Curve.X[segment]));
        return PiecewiseLinear.Through([.. Curve.X.Select(x => x - installed)], [.. Curve.Y]);
    }
}

/// <summary>A table of the change of force over compression from static ride height; it passes through the origin.</summary>
/// <param name="Curve">Change of force, N, over compression from ride height, m; never falling.</param>
public sealed record RideHeightSpringTable(PiecewiseLinear Curve) : SpringCharacteristic
{
    /// <inheritdoc/>
    public override PiecewiseLinear AtRideHeight(double preload) =>
        PiecewiseLinear.Through(Curve.X, [.. Curve.Y.Select(y => y + preload)]);
}
