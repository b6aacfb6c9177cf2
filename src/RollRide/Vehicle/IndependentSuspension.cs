namespace RollRide.Vehicle;

/// <summary>Each wheel moves its own elements: heave and roll ratios are the same.</summary>
public sealed record IndependentSuspension : Suspension
{
    /// <inheritdoc/>
    public override string Name => "independent";

    /// <inheritdoc/>
    public override string Noun => "independent suspension";

    /// <inheritdoc/>
    public override string Meaning => "each wheel moves by itself";

    /// <inheritdoc/>
    public override string UnsprungPart => "Wheels";

    /// <inheritdoc/>
    public override bool HasAxle => false;

    /// <inheritdoc/>
    public override bool GuidesEachWheel => true;

    /// <inheritdoc/>
    public override double RollCentreBodyShare => 1;

    /// <inheritdoc/>
    public override double LowestUsualRollCentre => -0.3;

    /// <inheritdoc/>
    public override string UsualRollCentre => "independent wheels seldom have theirs 300 mm below";

    /// <inheritdoc/>
    public override string Motion => "Each wheel travels vertically; elements on an arm use their exact length at every travel.";

    /// <inheritdoc/>
    public override string Ratios => "On independent suspension each damper follows its own wheel: the ratio is the same in heave and in roll.";

    /// <summary>Both wheels' mass at the half-track, one going up as the other comes down: <c>mu (t/2)²</c>, kg·m².</summary>
    /// <inheritdoc/>
    public override double RollInertia(HalfCar vehicle)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        return vehicle.Unsprung.Mass * vehicle.HalfTrack * vehicle.HalfTrack;
    }

    /// <inheritdoc/>
    public override string? RefusalOf(double? axleRollInertia) =>
        axleRollInertia is null ? null : "independent wheels have no axle, so its roll inertia must not be given; theirs follows from the mass and the track";
}
