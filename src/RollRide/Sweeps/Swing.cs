namespace RollRide.Sweeps;

/// <summary>How far one parameter alone moves a metric.</summary>
/// <param name="Parameter">The parameter.</param>
/// <param name="Base">The metric with the scenario as it stands.</param>
/// <param name="Lowest">The metric at the parameter's lowest level.</param>
/// <param name="Highest">The metric at the parameter's highest level.</param>
public sealed record Swing(SweepParameter Parameter, double Base, double Lowest, double Highest)
{
    /// <summary>The distance that the metric covers, the base value included.</summary>
    public double Extent => Math.Max(Base, Math.Max(Lowest, Highest)) - Math.Min(Base, Math.Min(Lowest, Highest));

    /// <summary>Whether the metric turns round: with the scenario as it stands it lies beyond both levels.</summary>
    public bool TurnsRound => Base > Math.Max(Lowest, Highest) || Base < Math.Min(Lowest, Highest);
}
