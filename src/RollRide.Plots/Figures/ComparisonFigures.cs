using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>All figures of a comparison, in the order of the argument: what was driven, what it did, and why.</summary>
public static class ComparisonFigures
{
    /// <summary>Builds the figures.</summary>
    /// <param name="result">What the layouts did; at most <see cref="LayoutStyles.Count"/> of them.</param>
    /// <param name="size">Size of the pictures.</param>
    public static IReadOnlyList<Figure> All(RecordedComparison result, PlotSize size)
    {
        ArgumentNullException.ThrowIfNull(result);
        var numbers = result.Result;
        IEnumerable<Figure> figures =
        [
            InputsFigure.Build(result),
            RollAngleFigure.Build(result),
            BodyAccelerationFigure.Build(result),
            DamperCurvesFigure.Build(result),
            DamperVelocityFigure.Build(result),
            TyreLoadFigure.Build(result),
            DampingRatioFigure.Build(numbers),
        ];
        if (FrontShareFigure.Has(numbers))
            figures = figures.Append(FrontShareFigure.Build(numbers));
        if (result.Layouts.All(layout => layout.Ride is not null))
        {
            figures = figures.Append(RideDamperFigure.Build(numbers)).Append(RideLoadFigure.Build(numbers));
            if (result.Layouts.All(layout => layout.Ride!.BodyAccelerationDensity is not null))
                figures = figures.Append(RideAccelerationFigure.Build(numbers));
        }

        return [.. figures.Select(figure => figure with { Size = size })];
    }
}
