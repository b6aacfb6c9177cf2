namespace RollRide.Metrics;

/// <summary>The first instant at which a quantity rises through zero.</summary>
internal struct FirstRise
{
    /// <summary>The instant, s; null if there was none yet.</summary>
    public double? Time { get; private set; }

    /// <summary>Adds a step.</summary>
    /// <param name="step">The step.</param>
    /// <param name="quantity">The quantity.</param>
    /// <param name="values">The quantity at the nodes of the step.</param>
    public void Add<TQuantity>(StepView step, TQuantity quantity, ReadOnlySpan<double> values)
        where TQuantity : struct, IQuantity
    {
        if (Time is null && values[0] >= 0)
            Time = step.Start;
        for (var node = 1; node < values.Length && Time is null; node++)
        {
            if (values[node] >= 0)
                Time = values[node] == 0 ? step.Time(node) : step.Crossing(quantity, step.Time(node - 1), step.Time(node));
        }
    }
}

/// <summary>The last instant at which a quantity fell through zero.</summary>
internal struct LastFall
{
    private bool _started;
    private bool _isAbove;

    /// <summary>The instant, s; null while the quantity is above zero.</summary>
    public double? Time { get; private set; }

    /// <summary>Adds a step.</summary>
    /// <param name="step">The step.</param>
    /// <param name="quantity">The quantity.</param>
    /// <param name="values">The quantity at the nodes of the step.</param>
    public void Add<TQuantity>(StepView step, TQuantity quantity, ReadOnlySpan<double> values)
        where TQuantity : struct, IQuantity
    {
        if (!_started)
        {
            (_started, _isAbove) = (true, values[0] > 0);
            Time = _isAbove ? null : step.Start;
        }

        for (var node = 1; node < values.Length; node++)
        {
            if (values[node] > 0)
            {
                _isAbove = true;
                Time = null;
            }
            else if (_isAbove)
            {
                _isAbove = false;
                var (before, after) = (step.Time(node - 1), step.Time(node));
                Time = values[node - 1] <= 0 ? before : values[node] == 0 ? after : step.Crossing(quantity, before, after);
            }
        }
    }
}
