using System.Reflection;
using RollRide.Metrics;

namespace RollRide.Tests.Metrics;

public sealed class MetricDefinitionTests
{
    [Fact]
    public void EveryMetric_StandsInItsTable_Once()
    {
        AssertComplete(PhaseMetric.All);
        AssertComplete(RollMetric.All);
        AssertComplete(RideMetric.All);
    }

    [Fact]
    public void Keys_AreUnique()
    {
        string[] keys = [.. PhaseMetric.All.Select(metric => metric.Key), .. RollMetric.All.Select(metric => metric.Key), .. RideMetric.All.Select(metric => metric.Key)];
        Assert.Equal(keys.Length, keys.Distinct(StringComparer.OrdinalIgnoreCase).Count());
    }

    [Fact]
    public void EveryGauge_HasAPlaceOfItsOwn()
    {
        var gauges = PhaseMetric.AllGauges;
        Assert.Equal(Enumerable.Range(0, gauges.Length), gauges.Select(gauge => gauge.Index));
        Assert.All(PhaseMetric.All, metric => Assert.All(metric.Gauges, gauge => Assert.Same(gauge, gauges[gauge.Index])));
        Assert.All((Gauge[])[PhaseMetric.LiftsLeft, PhaseMetric.LiftsRight], gauge => Assert.Same(gauge, gauges[gauge.Index]));
        Assert.All(PhaseMetric.LiftsOfTyres(hasDuals: true).Concat(PhaseMetric.LiftsOfTyres(hasDuals: false)), gauge => Assert.Same(gauge, gauges[gauge.Index]));
        Assert.All(PhaseMetric.All, metric => Assert.NotEmpty(metric.Gauges));
    }

    [Fact]
    public void EveryMetric_SaysWhatItIs()
    {
        Assert.All(PhaseMetric.All, AssertSays);
        Assert.All(RollMetric.All, AssertSays);
        Assert.All(RideMetric.All, AssertSays);

        static void AssertSays<T>(MetricDefinition<T> metric)
        {
            Assert.Matches("^[a-z][A-Za-z0-9]*$", metric.Name);
            Assert.Equal(metric.Unit.Suffix.Length == 0 ? metric.Name : $"{metric.Name}_{metric.Unit.Suffix}", metric.Key);
            Assert.NotEmpty(metric.Label);
            Assert.EndsWith(".", metric.Description, StringComparison.Ordinal);
            Assert.InRange(metric.Decimals, 0, 4);
            Assert.True(Enum.IsDefined(metric.Better));
        }
    }

    [Fact]
    public void With_ChangesOneFigureAndNoOther()
    {
        var phase = Dynamics.TestCars.Measure(Dynamics.TestCars.Find("ratios"), Dynamics.TestCars.BumpThenTurn(RollRide.Roads.RoadSide.Left, 0.05, 2, 1.5), 1e-5).Whole;
        foreach (var changed in PhaseMetric.All)
        {
            var other = phase.With(changed, 12.25);
            Assert.All(PhaseMetric.All, metric => Assert.Equal(metric == changed ? 12.25 : phase[metric], other[metric]));
            Assert.Equal((phase.Name, phase.Start, phase.End), (other.Name, other.Start, other.End));
            Assert.Same(phase.DamperVelocities, other.DamperVelocities);
        }
    }

    private static void AssertComplete<TMetric>(IReadOnlyList<TMetric> all)
        where TMetric : class
    {
        var declared = typeof(TMetric).GetProperties(BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic)
            .Where(property => property.PropertyType == typeof(TMetric))
            .Select(property => (TMetric)property.GetValue(null)!)
            .ToArray();
        Assert.NotEmpty(declared);
        Assert.Equal(declared.Length, all.Count);
        Assert.All(declared, metric => Assert.Single(all, one => ReferenceEquals(one, metric)));
    }
}
