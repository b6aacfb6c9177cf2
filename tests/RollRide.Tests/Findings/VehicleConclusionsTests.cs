using RollRide.Findings;
using RollRide.Plots.Figures;
using RollRide.Studies;
using RollRide.Tests.Scenarios;

namespace RollRide.Tests.Findings;

/// <summary>What is said of a frame so soft that the body's ends roll nearly independently, and of wheels that leave the road.</summary>
public sealed class VehicleConclusionsTests
{
    [Theory]
    [InlineData(400, "a frame of 400 N·m/deg")]
    [InlineData(0, "no torsional stiffness between the axles")]
    public void SoftFrame_HasNoSharesOfARollModeThatIsNotOne(int stiffness, string frame)
    {
        var modes = ModesStudy.Run(Soft(stiffness), TestContext.Current.CancellationToken);
        var said = Assert.Single(VehicleConclusions.Of(modes));
        Assert.Contains(frame, said, StringComparison.Ordinal);
        Assert.Contains("nearly independently", said, StringComparison.Ordinal);
        var windows = VehicleConclusions.Of(SettingWindowStudy.Run(Soft(stiffness), TestContext.Current.CancellationToken));
        Assert.Contains("Go by the window of this axle alone", windows.Last(), StringComparison.Ordinal);
        Assert.Contains("nearly independently", FrameFigure.Build(modes).Title, StringComparison.Ordinal);
    }

    [Fact]
    public void SideOfTheOtherAxleInTheAir_IsWarnedOfWithThePhase()
    {
        var study = WholeVehicleTests.Read("rescue-van-whole.json", text => WholeVehicleTests.Replaced(text, "\"height_mm\": 60", "\"height_mm\": 250"));
        study = study with { Layouts = [study.Layouts[0]] };
        var layout = Comparison.Run(study, cancellation: TestContext.Current.CancellationToken).Layouts[0];
        Assert.Contains(RunWarnings.Of(study, layout), warning => warning.StartsWith("A side of the front axle left the road, in “bump”", StringComparison.Ordinal));
    }

    private static StudyCase Soft(int stiffness) => WholeVehicleTests.Read(
        "rescue-van-whole.json", text => WholeVehicleTests.Replaced(text, "\"torsionalStiffness_N_m_per_deg\": 2600", FormattableString.Invariant($"\"torsionalStiffness_N_m_per_deg\": {stiffness}")));
}
