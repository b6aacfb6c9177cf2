using RollRide.Mounting;
using RollRide.Numerics;

namespace RollRide.Packaging;

/// <summary>Where the damper's ends sit, but for the lateral position, which is sought: that of the axle end.</summary>
public sealed record DamperMounts
{
    /// <summary>Height of the axle end above the ground at ride height, m.</summary>
    public required double AxleEndHeight { get; init => field = Require.Finite(value, "m", nameof(AxleEndHeight)); }

    /// <summary>Height of the body end, m; above the axle end.</summary>
    public required double BodyEndHeight { get; init => field = Require.Finite(value, "m", nameof(BodyEndHeight)); }

    /// <summary>The axle end's position in front of the axle, m.</summary>
    public double AxleEndForward { get; init => field = Require.Finite(value, "m", nameof(AxleEndForward)); }

    /// <summary>The body end's position in front of the axle, m.</summary>
    public double BodyEndForward { get; init => field = Require.Finite(value, "m", nameof(BodyEndForward)); }

    /// <summary>How far the body end stands outboard of the axle end, m; negative where the damper leans in at the top.</summary>
    public double BodyEndOutboard { get; init => field = Require.Finite(value, "m", nameof(BodyEndOutboard)); }

    /// <summary>The mounts of a damper that has its place.</summary>
    /// <param name="fitting">Where it stands.</param>
    public static DamperMounts Of(LiveAxleMountFitting fitting)
    {
        ArgumentNullException.ThrowIfNull(fitting);
        return new DamperMounts
        {
            AxleEndHeight = fitting.AxleEnd.Z,
            BodyEndHeight = fitting.BodyEnd.Z,
            AxleEndForward = fitting.AxleEnd.X,
            BodyEndForward = fitting.BodyEnd.X,
            BodyEndOutboard = fitting.BodyEnd.Y - fitting.AxleEnd.Y,
        };
    }

    /// <summary>The axle end with the damper at a lateral position.</summary>
    /// <param name="position">Lateral position of the axle end, m.</param>
    public Point3 AxleEndAt(double position) => new(AxleEndForward, position, AxleEndHeight);

    /// <summary>The body end with the damper at a lateral position.</summary>
    /// <param name="position">Lateral position of the axle end, m.</param>
    public Point3 BodyEndAt(double position) => new(BodyEndForward, position + BodyEndOutboard, BodyEndHeight);
}
