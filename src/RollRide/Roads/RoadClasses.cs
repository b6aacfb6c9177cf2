namespace RollRide.Roads;

/// <summary>The class table of ISO 8608.</summary>
public static class RoadClasses
{
    /// <summary>Reference spatial frequency <c>n0</c>, cycle/m.</summary>
    public const double ReferenceWavenumber = 0.1;

    /// <summary>Lower end of the range over which the standard fits its straight line, cycle/m.</summary>
    public const double LowestWavenumber = 0.011;

    /// <summary>Upper end of that range, cycle/m.</summary>
    public const double HighestWavenumber = 2.83;

    private const double MeanOfA = 16e-6;

    /// <summary>Geometric mean of the displacement density at <c>n0</c>, m³: 16e-6 for A, four times more a class.</summary>
    /// <param name="roadClass">The class.</param>
    public static double Mean(RoadClass roadClass) => MeanOfA * Math.Pow(4, (int)roadClass);

    /// <summary>Upper limit of a class, m³: twice its geometric mean. H has none: <c>+∞</c>.</summary>
    /// <param name="roadClass">The class.</param>
    public static double UpperLimit(RoadClass roadClass) =>
        roadClass == RoadClass.H ? double.PositiveInfinity : 2 * Mean(roadClass);

    /// <summary>Lower limit of a class, m³: half its geometric mean. A has none: 0.</summary>
    /// <param name="roadClass">The class.</param>
    public static double LowerLimit(RoadClass roadClass) => roadClass == RoadClass.A ? 0 : Mean(roadClass) / 2;

    /// <summary>The class in which a density lies.</summary>
    /// <param name="density">Displacement density at <c>n0</c>, m³; 0 or more.</param>
    public static RoadClass Of(double density)
    {
        Numerics.Require.NotNegative(density, "m³");
        return Enum.GetValues<RoadClass>().First(c => density < UpperLimit(c));
    }
}
