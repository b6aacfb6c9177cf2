using System.Globalization;
using RollRide.Numerics;

namespace RollRide.Metrics;

/// <summary>Which way a quantity is better.</summary>
public enum Better
{
    /// <summary>Neither: too little is as wrong as too much.</summary>
    Neither,

    /// <summary>Less is better.</summary>
    Less,

    /// <summary>More is better.</summary>
    More,

    /// <summary>A smaller size is better, whatever the sign.</summary>
    Smaller,
}

/// <summary>All that is said of one metric, in one place; tables, files, figures and documents follow from it.</summary>
/// <typeparam name="TResult">What it is a metric of.</typeparam>
/// <param name="Name">Its name in files without the unit.</param>
/// <param name="Label">As tables show it.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Decimals">Digits behind the point that tables show.</param>
/// <param name="Better">Which way it is better.</param>
/// <param name="Description">What it means, in a sentence or two.</param>
public abstract record MetricDefinition<TResult>(string Name, string Label, Unit Unit, int Decimals, Better Better, string Description)
{
    /// <summary>Its key in files: name and unit.</summary>
    public string Key { get; } = Unit.KeyOf(Name);

    /// <summary>Its value in SI; null where it is not defined.</summary>
    public abstract double? Of(TResult result);

    /// <summary>Its value in its unit; null where it is not defined.</summary>
    public double? Shown(TResult result) => Unit.Of(Of(result));

    /// <summary>Its value in its unit as tables show it; a dash where it is not defined.</summary>
    public string Text(TResult result) => Shown(result)?.ToString($"F{Decimals}", CultureInfo.InvariantCulture) ?? "–";
}
