namespace RollRide.Mounting;

/// <summary>A fitting that knows its mounts, and with them the element's length.</summary>
public interface IMountedElement : IFitting
{
    /// <summary>Distance between the element's mounts at ride height, m. At a travel it is this less the compression.</summary>
    double Length { get; }
}
