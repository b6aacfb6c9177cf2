using System.Globalization;
using RollRide.Numerics;
using RollRide.Roads;

namespace RollRide.Tests.Numerics;

public sealed class InvariantMessagesTests : IDisposable
{
    private readonly CultureInfo _before = CultureInfo.CurrentCulture;

    // The runtime may know no culture but the invariant one: this one writes numbers as German does.
    public InvariantMessagesTests()
    {
        var german = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        german.NumberFormat.NumberDecimalSeparator = ",";
        CultureInfo.CurrentCulture = german;
    }

    public void Dispose() => CultureInfo.CurrentCulture = _before;

    [Fact]
    public void Numbers_in_messages_have_a_decimal_point_whatever_the_machines_language()
    {
        foreach (var refused in (Action[])
        [
            () => RoadEvents.Pothole(0, 0.5, 0.1, 0.25),
            () => Road.Flat(10).With(PiecewiseSignal.Zero, RoadSide.Left, 0.25),
            () => _ = new SignalPiece(0.25, 0.25, new ConstantShape(0)),
            () => DenseSearch.Maximum(t => t, 0.25, 0.25),
            () => DenseSearch.Crossing(t => 1, 0.25, 0.5),
        ])
        {
            // What follows the message proper is the runtime's.
            var message = Assert.ThrowsAny<ArgumentException>(refused).Message.Split(" (Parameter", StringSplitOptions.None)[0];
            Assert.Contains("0.25", message, StringComparison.Ordinal);
        }
    }
}
