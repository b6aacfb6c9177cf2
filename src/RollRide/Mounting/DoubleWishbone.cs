using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>
/// A double wishbone in the rear view: lower and upper arm turn about pivots on the body and are joined by the upright. The upper
/// joint is where the circle of the upper arm cuts the circle of the upright about the lower joint, on the side where it is at rest.
/// </summary>
public sealed class DoubleWishbone : PlanarLinkage
{
    private readonly PlaneVector _upperPivot, _uprightAtRest, _upperArmAtRest;
    private readonly double _uprightLength, _upperArmLength, _branch;

    /// <summary>Makes the linkage from the left side's points at ride height.</summary>
    /// <param name="lowerPivot">The lower arm's pivot on the body.</param>
    /// <param name="lowerJoint">The joint of lower arm and upright, outboard of its pivot.</param>
    /// <param name="upperPivot">The upper arm's pivot on the body.</param>
    /// <param name="upperJoint">The joint of upper arm and upright, outboard of its pivot and above the lower joint.</param>
    /// <param name="wheelCentreHeight">Height of the wheel centre above the ground, m, above 0.</param>
    /// <param name="halfTrack">Half the track, m, above 0.</param>
    /// <exception cref="ArgumentException">The points make no linkage that can move; the message says why.</exception>
    public DoubleWishbone(
        RearViewPoint lowerPivot, RearViewPoint lowerJoint, RearViewPoint upperPivot, RearViewPoint upperJoint, double wheelCentreHeight, double halfTrack)
        : this(lowerPivot, lowerJoint, upperPivot, upperJoint, WheelStance.Upright(wheelCentreHeight, halfTrack), halfTrack)
    {
    }

    private DoubleWishbone(
        RearViewPoint lowerPivot, RearViewPoint lowerJoint, RearViewPoint upperPivot, RearViewPoint upperJoint, WheelStance wheel, double halfTrack)
        : base(lowerPivot, lowerJoint, wheel, halfTrack)
    {
        ArgumentNullException.ThrowIfNull(upperPivot);
        ArgumentNullException.ThrowIfNull(upperJoint);
        RequireOutboard(upperPivot, upperJoint, "upper", nameof(upperJoint));
        if (upperJoint.Z <= lowerJoint.Z)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The upper joint (z = {Unit.Millimetre.Show(upperJoint.Z):0.#}) must lie above the lower joint (z = {Unit.Millimetre.Show(lowerJoint.Z):0.#})."),
                nameof(upperJoint));
        }

        (UpperPivot, UpperJoint) = (upperPivot, upperJoint);
        _upperPivot = PlaneVector.Of(upperPivot);
        _uprightAtRest = PlaneVector.Of(upperJoint) - PlaneVector.Of(lowerJoint);
        _upperArmAtRest = PlaneVector.Of(upperJoint) - _upperPivot;
        (_uprightLength, _upperArmLength) = (_uprightAtRest.Length, _upperArmAtRest.Length);
        _branch = Math.Sign((PlaneVector.Of(lowerJoint) - _upperPivot).Cross(_upperArmAtRest));
        FindReach();
    }

    /// <summary>The upper arm's pivot on the body.</summary>
    public RearViewPoint UpperPivot { get; }

    /// <summary>The joint of upper arm and upright.</summary>
    public RearViewPoint UpperJoint { get; }

    /// <inheritdoc/>
    public override ImmutableArray<LinkagePart> Parts => [LinkagePart.LowerArm, LinkagePart.UpperArm, LinkagePart.Upright];

    /// <inheritdoc/>
    public override WheelLinkage WithHalfTrack(double halfTrack) =>
        new DoubleWishbone(LowerPivot, LowerJoint, UpperPivot, UpperJoint, Wheel.WithHalfTrack(HalfTrack, halfTrack), halfTrack);

    /// <inheritdoc/>
    public override WheelLinkage Redrawn(RideHeightChange change) =>
        new DoubleWishbone(OnBody(LowerPivot, change), OnUpright(LowerJoint, change), OnBody(UpperPivot, change), OnUpright(UpperJoint, change), WheelAfter(change), HalfTrack);

    private protected override string WhatLocks => "upper arm and upright lie in line and lock";

    private protected override PlaneVector Anchor => _upperPivot;

    private protected override PlaneVector OriginOf(LinkagePart part) => part switch
    {
        LinkagePart.LowerArm => PlaneVector.Of(LowerPivot),
        LinkagePart.UpperArm => _upperPivot,
        _ => PlaneVector.Of(LowerJoint),
    };

    private protected override PlanarPart PartAt(LinkagePart part, double angle)
    {
        if (part == LinkagePart.LowerArm)
            return LowerArmAt(angle);
        TryUpright(angle, out var upright);
        if (part == LinkagePart.Upright)
            return upright;

        // U = B + c turns about the upper pivot: u' = B' + γ' Jc, each dotted with c, and once more differentiated.
        var c = _uprightAtRest.Rotate(upright.Sin, upright.Cos);
        var u = upright.Origin + c - _upperPivot;
        double lever = c.Dot(u.Turned);
        double rate = c.Dot(upright.OriginRate) / lever;
        double slope = ((rate * rate * c.Dot(u)) + c.Dot(upright.OriginRateSlope) - (upright.TurnRate * upright.TurnRate * c.Dot(c))) / lever;
        double square = _upperArmLength * _upperArmLength;
        return new PlanarPart(_upperPivot, default, default, _upperArmAtRest.Cross(u) / square, _upperArmAtRest.Dot(u) / square, rate, slope);
    }

    private protected override bool TryUpright(double angle, out PlanarPart upright)
    {
        var (joint, jointRate, jointSlope) = LowerJointAt(angle);
        var g = joint - _upperPivot;
        double distance = g.Length;
        double along = ((_upperArmLength * _upperArmLength) - (_uprightLength * _uprightLength) + (distance * distance)) / (2 * distance);
        double across = (_upperArmLength - along) * (_upperArmLength + along);
        if (!(across > InLine * _upperArmLength * _upperArmLength) || _branch == 0)
        {
            upright = default;
            return false;
        }

        var u = (1 / distance) * ((along * g) + (_branch * Math.Sqrt(across) * g.Turned));
        var c = u - g;

        // The upper joint moves square to its arm: u·(B' + γ' Jc) = 0, and once more differentiated.
        double lever = u.Dot(c.Turned);
        double rate = -u.Dot(jointRate) / lever;
        var upperRate = jointRate + (rate * c.Turned);
        double slope = (-upperRate.Dot(upperRate) - u.Dot(jointSlope) + (rate * rate * u.Dot(c))) / lever;
        double square = _uprightLength * _uprightLength;
        upright = new PlanarPart(joint, jointRate, jointSlope, _uprightAtRest.Cross(c) / square, _uprightAtRest.Dot(c) / square, rate, slope);
        return true;
    }
}
