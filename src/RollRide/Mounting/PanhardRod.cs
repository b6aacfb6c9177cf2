using RollRide.Numerics;

namespace RollRide.Mounting;

/// <summary>A Panhard rod: the roll centre is where the rod crosses the centre plane.</summary>
public sealed record PanhardRod : LateralLocation
{
    /// <summary>Makes the rod.</summary>
    /// <param name="axleEnd">Its end on the axle.</param>
    /// <param name="bodyEnd">Its end on the body, on the other side of the centre plane.</param>
    /// <exception cref="ArgumentException">Both ends lie on the same side, so that the rod does not cross the centre plane.</exception>
    public PanhardRod(RearViewPoint axleEnd, RearViewPoint bodyEnd)
    {
        ArgumentNullException.ThrowIfNull(axleEnd);
        ArgumentNullException.ThrowIfNull(bodyEnd);
        if (axleEnd.Y * bodyEnd.Y >= 0)
        {
            throw new ArgumentException(
                FormattableString.Invariant($"The rod must cross the centre plane: its ends lie at y = {Unit.Millimetre.Show(axleEnd.Y):0.#} and y = {Unit.Millimetre.Show(bodyEnd.Y):0.#}, and one must be on the left (above 0), the other on the right."),
                nameof(bodyEnd));
        }

        (AxleEnd, BodyEnd) = (axleEnd, bodyEnd);
    }

    /// <summary>Its end on the axle.</summary>
    public RearViewPoint AxleEnd { get; }

    /// <summary>Its end on the body.</summary>
    public RearViewPoint BodyEnd { get; }

    /// <inheritdoc/>
    public override double RollCentreHeight =>
        ((AxleEnd.Z * BodyEnd.Y) - (BodyEnd.Z * AxleEnd.Y)) / (BodyEnd.Y - AxleEnd.Y);

    /// <inheritdoc/>
    /// <remarks>Each end of the rod rises with what carries it; that the rod shifts the axle sideways is left out.</remarks>
    public override double RollCentreBodyShare => AxleEnd.Y / (AxleEnd.Y - BodyEnd.Y);
}
