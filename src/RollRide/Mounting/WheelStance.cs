namespace RollRide.Mounting;

/// <summary>The left wheel at rest in the rear view: its centre, and where its plane meets the road.</summary>
internal readonly record struct WheelStance(PlaneVector Centre, PlaneVector Contact)
{
    /// <summary>An upright wheel at half the track.</summary>
    public static WheelStance Upright(double centreHeight, double halfTrack) => new(new(halfTrack, centreHeight), new(halfTrack, 0));

    /// <summary>The wheel further out or in, as the half-track changes.</summary>
    public WheelStance WithHalfTrack(double from, double to) => new(new(to + (Centre.Y - from), Centre.Z), new(to + (Contact.Y - from), Contact.Z));
}
