using System.Text.RegularExpressions;
using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Tests.Docs;
using RollRide.Tests.Dynamics;
using RollRide.Vehicle;

namespace RollRide.Tests.Vehicle;

public partial class SuspensionTests
{
    [Fact]
    public void RollInertia_OfAnAxle_IsItsOwnMovedToTheRollCentre()
    {
        var car = TestCars.LiveAxle with { RollCentreHeight = 0.5, Unsprung = new UnsprungMass { Mass = 200, CgHeight = 0.3, AxleRollInertia = 50 } };

        // By hand: 50 + 200 · 0.2².
        Assert.Equal(58, car.UnsprungRollInertia, 1e-12);
        Assert.Throws<InvalidOperationException>(() => (car with { Unsprung = car.Unsprung with { AxleRollInertia = null } }).UnsprungRollInertia);
    }

    [Fact]
    public void RollInertia_OfIndependentWheels_IsBothMassesAtTheHalfTrack()
    {
        // Two point masses of 45 kg, one rising and one falling, 0.75 m from the centre.
        Assert.Equal(2 * 45 * 0.75 * 0.75, TestCars.Independent.UnsprungRollInertia, 1e-12);
    }

    [Fact]
    public void Names_LeadToTheirKind_AndBackIntoAFile()
    {
        var key = RecordContract.Of(typeof(VehicleFile)).Keys.Single(key => key.Name == "suspension");
        var contract = Assert.IsType<NamedContract>(key.Value);
        Assert.Equal(["liveAxle", "independent"], contract.Names);
        Assert.Equal(new LiveAxleSuspension(), contract.Values["liveAxle"]);
        Assert.Equal(new IndependentSuspension(), contract.Values["independent"]);
        Assert.Equal("independent", RecordJson.Of(new IndependentSuspension(), contract).ToString());
        Assert.Equal("how the two wheels are joined; liveAxle: a rigid axle joins the two wheels; independent: each wheel moves by itself", key.Description);
    }

    [Fact]
    public void Kinds_AreKnownByName_OnlyWhereTheyAreListed()
    {
        var sources = SourceFiles.All
            .Where(file => Kind().IsMatch(File.ReadAllText(file)))
            .Select(Path.GetFileName)
            .Order(StringComparer.Ordinal);

        Assert.Equal(["IndependentSuspension.cs", "LiveAxleSuspension.cs", "SuspensionNamesAttribute.cs"], sources);
    }

    [GeneratedRegex(@"\b(LiveAxleSuspension|IndependentSuspension)\b")]
    private static partial Regex Kind();
}
