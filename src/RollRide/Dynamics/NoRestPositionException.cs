namespace RollRide.Dynamics;

/// <summary>Under a load the vehicle has no position in which it can stand.</summary>
public sealed class NoRestPositionException : Exception
{
    internal NoRestPositionException(string load, string layout, FormattableString reason, Exception? cause = null)
        : base($"Under load state “{load}” the vehicle cannot stand with layout “{layout}”: {FormattableString.Invariant(reason)}.", cause) =>
        (Load, Layout, Reason) = (load, layout, $"the vehicle cannot stand with layout “{layout}”: {FormattableString.Invariant(reason)}");

    /// <summary>Name of the load state.</summary>
    public string Load { get; }

    /// <summary>Name of the damper layout.</summary>
    public string Layout { get; }

    /// <summary>What does not stand and why, to be said where the load state is named already.</summary>
    public string Reason { get; }
}
