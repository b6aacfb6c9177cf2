namespace RollRide.Numerics;

/// <summary>A smooth function of one variable, such as the travel of a linkage's element. Allocates nothing.</summary>
internal interface ISmoothFunction
{
    /// <summary>The function and its first derivative; not numbers where it has no value.</summary>
    /// <param name="x">The variable.</param>
    (double Value, double First) At(double x);

    /// <summary>The second derivative.</summary>
    /// <param name="x">The variable.</param>
    double SecondAt(double x);
}
