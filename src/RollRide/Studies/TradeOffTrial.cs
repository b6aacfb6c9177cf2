namespace RollRide.Studies;

/// <summary>A setting that the search for a trade-off front looked at.</summary>
/// <param name="Place">Where it lies in the unit cube.</param>
/// <param name="Point">What it gave; null where it keeps no limits or floors, or its run could not be finished.</param>
/// <param name="Simulated">Whether it was run.</param>
internal sealed record TradeOffTrial(double[] Place, TradeOffPoint? Point, bool Simulated);
