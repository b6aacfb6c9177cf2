namespace RollRide.Vehicle;

/// <summary>A rigid axle carries both wheels: in roll, an element inboard moves less than the wheel.</summary>
public sealed record LiveAxleSuspension : Suspension
{
    /// <inheritdoc/>
    public override string Name => "live axle";

    /// <inheritdoc/>
    public override string Noun => "a live axle";

    /// <inheritdoc/>
    public override string Meaning => "a rigid axle joins the two wheels";

    /// <inheritdoc/>
    public override string UnsprungPart => "Axle";

    /// <inheritdoc/>
    public override bool HasAxle => true;

    /// <inheritdoc/>
    public override bool GuidesEachWheel => false;

    /// <inheritdoc/>
    public override double RollCentreBodyShare => 0;

    /// <inheritdoc/>
    public override double LowestUsualRollCentre => 0;

    /// <inheritdoc/>
    public override string UsualRollCentre => "live axles have theirs above it";

    /// <inheritdoc/>
    public override string Motion => "The axle is rigid and turns about the roll centre; elements with mount points use their exact length at every travel.";

    /// <inheritdoc/>
    public override string Ratios => "On a live axle an upright damper moves as much as the wheel in heave, but less in roll the farther inboard it stands; one that leans moves less in both.";

    /// <summary>The axle's own inertia, moved to the roll centre (parallel axes): <c>Iaxle + mu (hu − hrc)²</c>, kg·m².</summary>
    /// <inheritdoc/>
    public override double RollInertia(HalfCar vehicle)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        var unsprung = vehicle.Unsprung;
        var inertia = unsprung.AxleRollInertia ?? throw new InvalidOperationException(RefusalOf(null));
        var arm = unsprung.CgHeight - vehicle.RollCentreHeight;
        return inertia + (unsprung.Mass * arm * arm);
    }

    /// <inheritdoc/>
    public override string? RefusalOf(double? axleRollInertia) =>
        axleRollInertia is null ? "a live axle needs its own roll inertia in kg·m², greater than 0" : null;
}
