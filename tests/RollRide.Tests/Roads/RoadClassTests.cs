using RollRide.Roads;

namespace RollRide.Tests.Roads;

public class RoadClassTests
{
    // ISO 8608, table of classes: geometric mean and upper limit of Gd(n0), in 1e-6 m³, n0 = 0.1 cycle/m (read in
    // several public copies of the table).
    [Theory]
    [InlineData(RoadClass.A, 16, 32)]
    [InlineData(RoadClass.B, 64, 128)]
    [InlineData(RoadClass.C, 256, 512)]
    [InlineData(RoadClass.D, 1024, 2048)]
    [InlineData(RoadClass.E, 4096, 8192)]
    [InlineData(RoadClass.F, 16384, 32768)]
    [InlineData(RoadClass.G, 65536, 131072)]
    [InlineData(RoadClass.H, 262144, double.PositiveInfinity)]
    public void Table_IsThatOfTheStandard(RoadClass roadClass, double mean, double upper)
    {
        // Fifteen decimals of m³.
        const string Source = Evidence.Printed + "ISO 8608, table of classes (in public copies)";
        Validation.Row($"{roadClass}, mean", "road class: geometric mean of Gd(n0), 1e-6 m³", Source, mean, 1e6 * RoadClasses.Mean(roadClass), 1e-9);
        if (double.IsFinite(upper))
            Validation.Row($"{roadClass}, limit", "road class: upper limit of Gd(n0), 1e-6 m³", Source, upper, 1e6 * RoadClasses.UpperLimit(roadClass), 1e-9);
        else
            Assert.Equal(upper, RoadClasses.UpperLimit(roadClass));
        Assert.Equal(roadClass, RoadClasses.Of(mean * 1e-6));
        if (roadClass != RoadClass.A)
            Assert.Equal(RoadClasses.UpperLimit(roadClass - 1), RoadClasses.LowerLimit(roadClass), 15);
    }

    [Fact]
    public void Of_AtALimit_IsTheRougherClass() => Assert.Equal(RoadClass.B, RoadClasses.Of(32e-6));

    [Fact]
    public void Of_ADensityBelowZero_IsRefused() => Assert.Throws<ArgumentOutOfRangeException>(() => RoadClasses.Of(-1e-6));
}
