namespace RollRide.Mounting;

/// <summary>Where a linkage holds the left wheel at one travel, the body standing still.</summary>
/// <remarks>The tyre is taken as a thin disc, upright and straight ahead at ride height.</remarks>
public sealed record WheelPosition
{
    /// <summary>Vertical travel of the wheel centre <c>d</c>, m, positive in bump.</summary>
    public required double Travel { get; init; }

    /// <summary>Camber from ride height, rad, positive with the top outboard (ISO 8855).</summary>
    public required double Camber { get; init; }

    /// <summary>Toe from ride height, rad, positive with the front inboard.</summary>
    public required double Toe { get; init; }

    /// <summary>The tyre's contact.</summary>
    public required RearViewPoint Contact { get; init; }

    /// <summary>The direction <c>dy/dd, dz/dd</c> in which the contact moves.</summary>
    public required (double Y, double Z) ContactRate { get; init; }

    /// <summary>
    /// The instant centre of the wheel in the rear view; null where the wheel does not turn in this view (parallel arms), or
    /// the linkage is not planar.
    /// </summary>
    public required RearViewPoint? InstantCentre { get; init; }

    /// <summary>Height of the roll centre above the ground when both wheels have this travel, m: <c>y·y'/z'</c> of the contact.</summary>
    /// <remarks>
    /// The line from the contact to the instant centre stands upright on the contact's path and is cut by the centre plane; so
    /// the rule holds for parallel arms and for arms that turn about a slanting axis too.
    /// </remarks>
    public double RollCentreHeight => Contact.Y * ContactRate.Y / ContactRate.Z;
}
