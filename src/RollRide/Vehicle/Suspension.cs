namespace RollRide.Vehicle;

/// <summary>How the two wheels of the axle are joined: all that one kind of suspension does otherwise than another, and how it is spoken of.</summary>
public abstract record Suspension
{
    /// <summary>What it is called in a table: "live axle".</summary>
    public abstract string Name { get; }

    /// <summary>What a vehicle has, in a sentence: "a live axle".</summary>
    public abstract string Noun { get; }

    /// <summary>What it is, for whoever chooses one: "a rigid axle joins the two wheels".</summary>
    public abstract string Meaning { get; }

    /// <summary>What is unsprung, at the beginning of a sentence: "Axle".</summary>
    public abstract string UnsprungPart { get; }

    /// <summary>Whether an axle joins the wheels: it has a roll inertia of its own, something must hold it sideways, and elements may be mounted on it.</summary>
    public abstract bool HasAxle { get; }

    /// <summary>
    /// Whether each wheel is guided by itself and moves its own elements: a linkage and arms fit, and an element's roll ratio is its heave ratio.
    /// Otherwise the roll ratio follows from where the element stands, and so does what it does in roll.
    /// </summary>
    public abstract bool GuidesEachWheel { get; }

    /// <summary>How far the roll centre follows the body when the ride height changes, where the vehicle does not say, 0 to 1.</summary>
    public abstract double RollCentreBodyShare { get; }

    /// <summary>The lowest roll centre that road vehicles have, m above the road; common practice, no source.</summary>
    public abstract double LowestUsualRollCentre { get; }

    /// <summary>The same in words, for a warning.</summary>
    public abstract string UsualRollCentre { get; }

    /// <summary>How the unsprung part moves in the model, a sentence.</summary>
    public abstract string Motion { get; }

    /// <summary>How an element's ratios in heave and in roll go together, a sentence.</summary>
    public abstract string Ratios { get; }

    /// <summary>Inertia of the unsprung roll, kg·m².</summary>
    /// <param name="vehicle">The vehicle, whose inertias <see cref="RefusalOf"/> does not refuse.</param>
    /// <exception cref="InvalidOperationException">It refuses them.</exception>
    public abstract double RollInertia(HalfCar vehicle);

    /// <summary>Why an axle's own roll inertia does not go with the suspension; null where it does.</summary>
    /// <param name="axleRollInertia"><see cref="UnsprungMass.AxleRollInertia"/>, kg·m²; null for none.</param>
    public abstract string? RefusalOf(double? axleRollInertia);
}
