namespace RollRide.Plots;

/// <summary>A picture is too small for what it has to show.</summary>
public sealed class PictureTooSmallException() : InvalidOperationException("The picture is too small for its panels: make it larger or use fewer.");
