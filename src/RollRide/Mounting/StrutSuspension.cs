using System.Collections.Immutable;
using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>
/// A strut suspension in the rear view: the strut's tube is part of the upright and slides through the top mount, a lower arm
/// guides its foot. The line of the strut keeps its distance <c>e</c> from the lower joint and runs through the top mount.
/// </summary>
/// <remarks>
/// With <c>s</c> from the lower joint to the top mount, the strut's unit vector <c>t</c> and <c>n</c> square to it,
/// <c>n·s = e</c> and the length along the strut is <c>t·s = √(|s|² − e²)</c>.
/// </remarks>
public sealed class StrutSuspension : PlanarLinkage
{
    private readonly PlaneVector _topMount, _axisAtRest;
    private readonly double _offset;

    /// <summary>Makes the linkage from the left side's points at ride height.</summary>
    /// <param name="lowerPivot">The lower arm's pivot on the body.</param>
    /// <param name="lowerJoint">The joint of lower arm and upright, outboard of its pivot.</param>
    /// <param name="strutFoot">A point on the strut's axis, fixed to the upright: the lower end of the damper.</param>
    /// <param name="topMount">The top mount on the body, above the strut's foot.</param>
    /// <param name="wheelCentreHeight">Height of the wheel centre above the ground, m, above 0.</param>
    /// <param name="halfTrack">Half the track, m, above 0.</param>
    /// <exception cref="ArgumentException">The points make no linkage that can move; the message says why.</exception>
    public StrutSuspension(
        RearViewPoint lowerPivot, RearViewPoint lowerJoint, RearViewPoint strutFoot, RearViewPoint topMount, double wheelCentreHeight, double halfTrack)
        : this(lowerPivot, lowerJoint, strutFoot, topMount, WheelStance.Upright(wheelCentreHeight, halfTrack), halfTrack)
    {
    }

    private StrutSuspension(
        RearViewPoint lowerPivot, RearViewPoint lowerJoint, RearViewPoint strutFoot, RearViewPoint topMount, WheelStance wheel, double halfTrack)
        : base(lowerPivot, lowerJoint, wheel, halfTrack)
    {
        ArgumentNullException.ThrowIfNull(strutFoot);
        ArgumentNullException.ThrowIfNull(topMount);
        if (topMount.Z <= strutFoot.Z)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The top mount (z = {Unit.Millimetre.Show(topMount.Z):0.#}) must lie above the strut's foot (z = {Unit.Millimetre.Show(strutFoot.Z):0.#})."),
                nameof(topMount));
        }

        (StrutFoot, TopMount) = (strutFoot, topMount);
        _topMount = PlaneVector.Of(topMount);
        var axis = _topMount - PlaneVector.Of(strutFoot);
        Length = axis.Length;
        MountLength.Require(Length, LiveAxleMountFitting.ShortestLength, nameof(topMount));
        _axisAtRest = (1 / Length) * axis;
        var s = _topMount - PlaneVector.Of(lowerJoint);
        _offset = _axisAtRest.Turned.Dot(s);
        double top = _axisAtRest.Dot(s);
        if (top <= 0)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The top mount must lie above the lower joint along the strut; it lies {Unit.Millimetre.Show(-top):0.#} below it."),
                nameof(topMount));
        }

        FindReach();
    }

    /// <summary>The lower end of the damper, on the strut's axis.</summary>
    public RearViewPoint StrutFoot { get; }

    /// <summary>The top mount on the body.</summary>
    public RearViewPoint TopMount { get; }

    /// <summary>Length of the strut from its foot to the top mount at rest, m.</summary>
    public double Length { get; }

    /// <inheritdoc/>
    public override ImmutableArray<LinkagePart> Parts => [LinkagePart.LowerArm, LinkagePart.Upright];

    /// <inheritdoc/>
    public override WheelLinkage WithHalfTrack(double halfTrack) =>
        new StrutSuspension(LowerPivot, LowerJoint, StrutFoot, TopMount, Wheel.WithHalfTrack(HalfTrack, halfTrack), halfTrack);

    /// <inheritdoc/>
    public override WheelLinkage Redrawn(RideHeightChange change) =>
        new StrutSuspension(OnBody(LowerPivot, change), OnUpright(LowerJoint, change), OnUpright(StrutFoot, change), OnBody(TopMount, change), WheelAfter(change), HalfTrack);

    private protected override string WhatLocks => "the strut stands square to the lower joint's distance from the top mount and locks";

    private protected override PlaneVector Anchor => _topMount;

    private protected override PlaneVector OriginOf(LinkagePart part) =>
        PlaneVector.Of(part == LinkagePart.LowerArm ? LowerPivot : LowerJoint);

    private protected override PlanarPart PartAt(LinkagePart part, double angle)
    {
        if (part == LinkagePart.LowerArm)
            return LowerArmAt(angle);
        TryUpright(angle, out var upright);
        return upright;
    }

    private protected override bool TryUpright(double angle, out PlanarPart upright)
    {
        var (joint, jointRate, jointSlope) = LowerJointAt(angle);
        var s = _topMount - joint;
        double square = s.Dot(s);
        double topSquare = square - (_offset * _offset);
        if (!(topSquare > InLine * square))
        {
            upright = default;
            return false;
        }

        // In the upright's frame the top mount is at (top along t, e along n); so t = (top s − e Js)/|s|².
        double top = Math.Sqrt(topSquare);
        var t = (1 / square) * ((top * s) - (_offset * s.Turned));
        var n = t.Turned;

        // n·s = e differentiated twice, with n' = −γ' t, t' = γ' n and s' = −B'.
        double rate = -n.Dot(jointRate) / top;
        double topRate = -t.Dot(jointRate) + (rate * _offset);
        double slope = (-n.Dot(jointSlope) + (rate * t.Dot(jointRate)) - (rate * topRate)) / top;
        upright = new PlanarPart(joint, jointRate, jointSlope, _axisAtRest.Cross(t), _axisAtRest.Dot(t), rate, slope);
        return true;
    }
}
