namespace RollRide.Plots;

/// <summary>A named part of a horizontal axis: a phase of a manoeuvre, a target band.</summary>
/// <param name="From">Its lower end, in the axis' unit.</param>
/// <param name="To">Its upper end, in the axis' unit.</param>
/// <param name="Label">Its name, written above the plot area; "" for none.</param>
public sealed record PlotSpan(double From, double To, string Label)
{
    /// <summary>Its lower end, in the axis' unit.</summary>
    public double From { get; } = double.IsFinite(From) ? From : throw new ArgumentOutOfRangeException(nameof(From), From, $"The span “{Label}” must start at a finite value.");

    /// <summary>Its upper end, in the axis' unit.</summary>
    public double To { get; } = double.IsFinite(To) && To > From ? To : throw new ArgumentOutOfRangeException(nameof(To), To, FormattableString.Invariant($"The span “{Label}” must end at a finite value after its start, {From}."));
}
