namespace RollRide.Vehicle;

/// <summary>Where the tyres stand, for sketches and for where a damper must end; a width that is not given is estimated from the track.</summary>
public static class TyreOutline
{
    // Car and van tyres are 185 to 235 mm wide at tracks of 1.45 to 1.75 m; a dual's two tyres stand a fifth of their spacing apart
    // (common practice, no source).
    private const double WidthOfTrack = 0.13;
    private const double DualWidthOfSpacing = 0.8;

    // Half a damper's body of 50 to 80 mm, and the clearance that a turning, flexing tyre needs (common practice, no source).
    private const double DamperRoom = 0.05;

    /// <summary>Width of one tyre, m.</summary>
    /// <param name="vehicle">The vehicle.</param>
    public static double Width(HalfCar vehicle)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        return vehicle.Tyre.Width ?? vehicle.Tyre.DualSpacing * DualWidthOfSpacing ?? WidthOfTrack * vehicle.Track;
    }

    /// <summary>Where the tyre begins, seen from the centre plane, m: the inner face of the inner tyre.</summary>
    /// <param name="vehicle">The vehicle.</param>
    public static double InnerFace(HalfCar vehicle)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        return vehicle.ContactPositions.Where(y => y > 0).Min() - (Width(vehicle) / 2);
    }

    /// <summary>How far out the axis of a damper may stand beside the tyre, seen from the centre plane, m.</summary>
    /// <param name="vehicle">The vehicle.</param>
    public static double OutermostDamper(HalfCar vehicle) => InnerFace(vehicle) - DamperRoom;
}
