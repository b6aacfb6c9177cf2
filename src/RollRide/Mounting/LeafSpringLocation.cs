using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>Leaf springs alone hold the axle: the roll centre lies on the line through a spring's eyes, at the axle.</summary>
public sealed record LeafSpringLocation : LateralLocation
{
    /// <summary>Makes it from one spring's eyes in the side view.</summary>
    /// <param name="frontEyeX">Front eye's distance in front of the axle, m, above 0.</param>
    /// <param name="frontEyeZ">Its height above the ground, m.</param>
    /// <param name="rearEyeX">Rear eye's position, m, below 0: behind the axle.</param>
    /// <param name="rearEyeZ">Its height above the ground, m.</param>
    /// <exception cref="ArgumentException">The eyes do not lie on either side of the axle.</exception>
    public LeafSpringLocation(double frontEyeX, double frontEyeZ, double rearEyeX, double rearEyeZ)
    {
        if (!(frontEyeX > 0 && rearEyeX < 0))
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The eyes must lie on either side of the axle: the front eye at x above 0 (it is at {Unit.Millimetre.Show(frontEyeX):0.#}), the rear eye at x below 0 (it is at {Unit.Millimetre.Show(rearEyeX):0.#})."),
                nameof(frontEyeX));
        }

        (FrontEyeX, FrontEyeZ, RearEyeX, RearEyeZ) = (frontEyeX, frontEyeZ, rearEyeX, rearEyeZ);
    }

    /// <summary>Front eye's distance in front of the axle, m.</summary>
    public double FrontEyeX { get; }

    /// <summary>Front eye's height above the ground, m.</summary>
    public double FrontEyeZ { get; }

    /// <summary>Rear eye's position, m, below 0.</summary>
    public double RearEyeX { get; }

    /// <summary>Rear eye's height above the ground, m.</summary>
    public double RearEyeZ { get; }

    /// <inheritdoc/>
    /// <remarks>Both eyes are on the body.</remarks>
    public override double RollCentreBodyShare => 1;

    /// <inheritdoc/>
    public override double RollCentreHeight => ((RearEyeZ * FrontEyeX) - (FrontEyeZ * RearEyeX)) / (FrontEyeX - RearEyeX);
}
