namespace RollRide.Mounting;

/// <summary>The kinematic roll centre with a travel of each wheel of its own, in the body's frame.</summary>
/// <param name="Y">Lateral position, m, positive to the left.</param>
/// <param name="Z">Height in the body's frame (0 at the ground at ride height), m.</param>
/// <param name="HeightAboveGround">Height above the line through both contacts, at its lateral position, m.</param>
public sealed record RollCentre(double Y, double Z, double HeightAboveGround)
{
    // Below this sine the two lines count as parallel: their crossing would lie more than 10^6 half-tracks away.
    private const double Parallel = 1e-6;

    /// <summary>Where the lines from the contacts to the instant centres cross; null where they are parallel.</summary>
    /// <param name="linkage">The left wheel's linkage; the right mirrors it.</param>
    /// <param name="leftTravel">Travel of the left wheel, m.</param>
    /// <param name="rightTravel">Travel of the right wheel, m.</param>
    /// <exception cref="UnreachableTravelException">The linkage cannot reach a travel.</exception>
    public static RollCentre? Of(WheelLinkage linkage, double leftTravel, double rightTravel)
    {
        ArgumentNullException.ThrowIfNull(linkage);
        var (left, right) = (linkage.WheelAt(leftTravel), linkage.WheelAt(rightTravel));
        PlaneVector leftContact = PlaneVector.Of(left.Contact), rightContact = new(-right.Contact.Y, right.Contact.Z);
        PlaneVector leftRate = new(left.ContactRate.Y, left.ContactRate.Z), rightRate = new(-right.ContactRate.Y, right.ContactRate.Z);

        // Each line stands upright on its contact's path: rate·(p − contact) = 0, solved by Cramer's rule.
        double determinant = leftRate.Cross(rightRate);
        if (Math.Abs(determinant) < Parallel * leftRate.Length * rightRate.Length)
        {
            // With equal travel and no lateral motion both lines are the ground itself: the roll centre lies on it.
            return leftTravel == rightTravel ? new RollCentre(0, left.Contact.Z + left.RollCentreHeight, left.RollCentreHeight) : null;
        }

        double a = leftRate.Dot(leftContact), b = rightRate.Dot(rightContact);
        double y = ((a * rightRate.Z) - (b * leftRate.Z)) / determinant;
        double z = ((leftRate.Y * b) - (rightRate.Y * a)) / determinant;
        double share = (y - rightContact.Y) / (leftContact.Y - rightContact.Y);
        return new RollCentre(y, z, z - (rightContact.Z + (share * (leftContact.Z - rightContact.Z))));
    }
}
