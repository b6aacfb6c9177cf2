namespace RollRide.Metrics;

/// <summary>The first instant at which a quantity rises through zero.</summary>
internal struct FirstRise<TQuantity>(TQuantity quantity)
    where TQuantity : struct, IQuantity
{
    /// <summary>The instant, s; null if it never came.</summary>
    public double? Time { get; private set; }

    /// <summary>Adds a step.</summary>
    public void Add(StepSamples step)
    {
        if (Time is not null)
            return;
        var values = quantity.Of(step.Nodes);
        if (values[0] >= 0)
            Time = step.Start;
        for (var node = 1; node < step.Rule.Count && Time is null; node++)
        {
            if (values[node] >= 0)
                Time = values[node] == 0 ? step.Time(node) : step.Crossing(quantity, step.Time(node - 1), step.Time(node));
        }
    }
}
