using System.Globalization;
using System.Text;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Scenarios;
using RollRide.Tests.Damping;
using RollRide.Tests.DataFiles;

namespace RollRide.Tests.Scenarios;

public sealed class DynoReaderTests : IDisposable
{
    private static readonly double[] Speeds = [0.03, 0.1, 0.3];

    private static readonly DynoBench Bench = new() { Valving = DynoBench.Digressive, Friction = 40, GasForce = 150, SamplesPerCycle = 120 };

    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    /// <summary>The bench's runs as a file of given columns, each a function of run number, time, displacement, velocity and force.</summary>
    private string Loops(string above, string header, Func<int, double, double, double, double, double[]> row, char separator = ',', bool decimalComma = false, IEnumerable<double>? speeds = null)
    {
        var text = new StringBuilder(above).Append(header).Append('\n');
        int number = 0;
        foreach (double speed in speeds ?? Speeds)
        {
            var run = Bench.Sine(speed);
            number++;
            double period = 2 * Math.PI * 0.05 / speed;
            for (int i = 0; i < run.Velocity.Length; i++)
            {
                var cells = row(number, period * i / 120, run.Displacement[i], run.Velocity[i], run.Force[i]).Select(x => x.ToString("R", CultureInfo.InvariantCulture));
                text.AppendJoin(separator, cells.Select(c => decimalComma ? c.Replace('.', ',') : c)).Append('\n');
            }
        }

        return _folder.Write($"loops{Guid.NewGuid():N}.csv", text.ToString());
    }

    [Theory]
    [InlineData("compression", 1)]
    [InlineData("rebound", -1)]
    public void Read_TimeWithoutDisplacement_FindsTheGasRateFromTheVelocityOverTime(string positive, int sign)
    {
        // The gas force rises by 2000 N/m of compression: the way must come out of velocity and time, with its sign.
        var bench = Bench with { GasRate = 2000 };
        var text = new StringBuilder($"# positive: {positive}\nrun,time_s,velocity_m_per_s,force_N\n");
        foreach (var (run, number) in Speeds.Select((speed, i) => (bench.Sine(speed), i + 1)))
        {
            double period = 2 * Math.PI * 0.05 / Speeds[number - 1];
            for (int i = 0; i < run.Velocity.Length; i++)
                text.Append(CultureInfo.InvariantCulture, $"{number},{period * i / 120:R},{sign * run.Velocity[i]:R},{sign * run.Force[i]:R}\n");
        }

        var result = DynoReader.Read([_folder.Write("gas.csv", text.ToString())]);
        Assert.Equal(2000, result.GasRate!.Value, 4.0); // the trapezium rule over 120 samples a cycle is good to π²/(3·120²) = 0.02 %, the fit to as much again
        Assert.Equal(150, result.GasForce!.Value, 0.1);
    }

    private static void AssertIsTheBench(DynoReduction result)
    {
        Assert.Equal(40, result.Friction!.Value, 0.1);
        Assert.Equal(150, result.GasForce!.Value, 0.1);
        Assert.Equal(Speeds.Length, result.Speeds.Length);
        Assert.All(result.Curve.Points, p => Assert.Equal(DynoBench.Digressive.Force(p.Velocity), p.Force, 0.5));
    }

    private static string Refused(Action read) => Assert.Throws<DataFileException>(read).Message;

    [Fact]
    public void Read_LoopsInSiUnits_ReducesThem() => AssertIsTheBench(DynoReader.Read(
        [Loops("# positive: compression\n", "run,time_s,displacement_m,velocity_m_per_s,force_N", (r, t, x, v, f) => [r, t, x, v, f])]));

    [Fact]
    public void Read_LoopsInWorkshopUnitsWithReboundPositive_ReducesThem() => AssertIsTheBench(DynoReader.Read(
        [Loops("# positive: rebound\n", "force_kN,velocity_mm_per_s,displacement_mm,time_ms,run", (r, t, x, v, f) => [-f / 1e3, -v * 1e3, -x * 1e3, t * 1e3, r])]));

    [Fact]
    public void Read_VelocityAndForceOfOppositeConvention_ReducesThem() => AssertIsTheBench(DynoReader.Read(
        [Loops("# velocityPositive: compression\n# forcePositive: rebound\n", "run,displacement_mm,velocity_m_per_s,force_N", (r, t, x, v, f) => [r, x * 1e3, v, -f])]));

    [Fact]
    public void Read_SemicolonsAndDecimalCommasDeclared_ReducesThem() => AssertIsTheBench(DynoReader.Read(
        [Loops("# positive: compression\n# separator: semicolon\n# decimal: comma\n", "run;time_s;velocity_m_per_s;force_N", (r, t, x, v, f) => [r, t, v, f], ';', true)]));

    [Fact]
    public void Read_CrankAngleAndSpeed_TellTime() => AssertIsTheBench(DynoReader.Read(
        [Loops("# positive: compression\n", "run,crankAngle_deg,crankSpeed_rpm,velocity_m_per_s,force_N",
            (r, t, x, v, f) => [r, t * Speeds[r - 1] / 0.05 * 180 / Math.PI % 360, Speeds[r - 1] / 0.05 * 30 / Math.PI, v, f])]));

    [Fact]
    public void Read_OneFileASpeed_JoinsThem() => AssertIsTheBench(DynoReader.Read(
        [.. Speeds.Reverse().Select(speed => Loops("", "time_s,velocity_m_per_s,force_N", (_, t, _, v, f) => [t, v, f], speeds: [speed]))],
        new DynoFileOptions { VelocityPositive = DampingDirection.Compression, ForcePositive = DampingDirection.Compression }));

    [Fact]
    public void Read_TheTwoColumnsOfScenarios_NeedNoDeclaration()
    {
        var path = _folder.Write("points.csv", "velocity_m_per_s,force_N\n-0.5,-1200\n-0.1,-400\n-0.05,-220\n0.05,110\n0.1,200\n0.5,600\n");
        var result = DynoReader.Read([path]);
        Assert.Null(result.Method);
        Assert.Equal(7, result.Curve.Points.Length);
        Assert.Equal(600, result.Curve.Force(0.5));
    }

    [Fact]
    public void Read_ShippedLoops_FindsTheirFrictionGasAndSpoiltCycle()
    {
        // Made with 35 N of friction, 140 N and 900 N/m of gas, noise of 6 N, and cycle 4 of run 4 spoilt by 22 %.
        var result = DynoReader.Read([Shipped.PathOf("scenarios", "damper-loops.csv")]);
        Assert.Equal(35, result.Friction!.Value, 3.0);
        Assert.Equal(140, result.GasForce!.Value, 2.0);
        Assert.Equal(900, result.GasRate!.Value, 30.0);
        Assert.Equal(7, result.Speeds.Length);
        Assert.NotEmpty(result.Outliers);
        Assert.All(result.Outliers, o => Assert.Equal("run 4, cycle 4", FormattableString.Invariant($"{o.Run}, cycle {o.Cycle}")));
        Assert.True(result.Speeds[^1].Hysteresis > result.Speeds[1].Hysteresis);
    }

    [Fact]
    public void Read_SignNotDeclared_IsRefused() => Assert.Contains(
        "# positive: compression",
        Refused(() => DynoReader.Read([Loops("", "run,time_s,velocity_m_per_s,force_N", (r, t, x, v, f) => [r, t, v, f])])),
        StringComparison.Ordinal);

    [Fact]
    public void Read_SignDeclaredTwiceDifferently_IsRefused() => Assert.Contains(
        "the file and the command line disagree",
        Refused(() => DynoReader.Read(
            [Loops("# positive: compression\n", "run,time_s,velocity_m_per_s,force_N", (r, t, x, v, f) => [r, t, v, f])],
            new DynoFileOptions { VelocityPositive = DampingDirection.Rebound })),
        StringComparison.Ordinal);

    [Fact]
    public void Read_SemicolonsNotDeclared_SaysHowToDeclareThem() => Assert.Contains(
        "# separator: semicolon",
        Refused(() => DynoReader.Read([Loops("# positive: compression\n", "run;time_s;velocity_m_per_s;force_N", (r, t, x, v, f) => [r, t, v, f], ';', true)])),
        StringComparison.Ordinal);

    [Fact]
    public void Read_DecimalCommasNotDeclared_AreNotTakenForNumbers() => Assert.Contains(
        "decimal point",
        Refused(() => DynoReader.Read([Loops("# positive: compression\n# separator: semicolon\n", "run;time_s;velocity_m_per_s;force_N", (r, t, x, v, f) => [r, t, v, f], ';', true)])),
        StringComparison.Ordinal);

    [Fact]
    public void Read_DeclarationNotKnown_NamesLineAndChoices()
    {
        var message = Refused(() => DynoReader.Read([Loops("# a comment\n# positive: upwards\n", "run,time_s,velocity_m_per_s,force_N", (r, t, x, v, f) => [r, t, v, f])]));
        Assert.Contains(":2: positive = upwards", message, StringComparison.Ordinal);
        Assert.Contains("compression, rebound", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_WrongSignOfForce_IsFoundByItsEnergyAndNamesTheLine()
    {
        var message = Refused(() => DynoReader.Read([Loops("# positive: compression\n", "run,time_s,velocity_m_per_s,force_N", (r, t, x, v, f) => [r, t, v, -f])]));
        Assert.Contains(":3: ", message, StringComparison.Ordinal);
        Assert.Contains("cannot make energy", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Read_ColumnsSwapped_AreFoundByTheirEnergy() => Assert.Contains(
        "swapped",
        Refused(() => DynoReader.Read([Loops("# positive: compression\n", "run,displacement_m,velocity_m_per_s,force_N", (r, t, x, v, f) => [r, x, f, v])])),
        StringComparison.Ordinal);

    [Fact]
    public void Read_TwoSpeeds_AreTooFew() => Assert.Contains(
        "2 different speeds",
        Refused(() => DynoReader.Read([Loops("# positive: compression\n", "run,time_s,velocity_m_per_s,force_N", (r, t, x, v, f) => [r, t, v, f], speeds: [0.1, 0.2])])),
        StringComparison.Ordinal);

    [Theory]
    [InlineData("run,time_s,velocity_m_per_s", "force_N, force_kN")]
    [InlineData("time_s,velocity_m_per_s,velocity_mm_per_s,force_N", "same quantity")]
    [InlineData("crankAngle_deg,velocity_m_per_s,force_N", "only together")]
    [InlineData("time_s,velocity_m_per_s,forse_N", "force_N")]
    public void Read_ColumnsMissingOrTwice_AreNamed(string header, string expected)
    {
        var path = _folder.Write("columns.csv", $"# positive: compression\n{header}\n{string.Join(',', header.Split(',').Select(_ => "1"))}\n");
        Assert.Contains(expected, Refused(() => DynoReader.Read([path])), StringComparison.Ordinal);
    }

    [Fact]
    public void Read_RunThatComesBack_IsRefused() => Assert.Contains(
        "stand together",
        Refused(() => DynoReader.Read([_folder.Write("back.csv", "# positive: compression\nrun,time_s,velocity_m_per_s,force_N\n1,0,1,1\n2,0,1,1\n1,1,1,1\n")])),
        StringComparison.Ordinal);

    [Fact]
    public void Read_NoSuchFile_IsRefused() => Assert.Contains("no such file", Refused(() => DynoReader.Read([_folder["nothing.csv"]])), StringComparison.Ordinal);

    [Theory]
    [InlineData("velocity_m_per_s,force_N", 1000, 1, ":7: velocity_m_per_s = 500", "velocity_mm_per_s")]
    [InlineData("velocity_m_per_s,force_N", 1, 1e-3, ":2: force_N = -1.2", "force_kN")]
    [InlineData("velocity_mm_per_s,force_N", 1, 1, ":2: velocity_mm_per_s = -0.5", "velocity_m_per_s")]
    [InlineData("velocity_m_per_s,force_kN", 1, 1, ":2: force_kN = -1200", "force_N")]
    public void Read_ValuesInTheOtherUnit_NamesTheLineAndTheColumnThatFits(string header, double velocity, double force, string place, string fits)
    {
        // The first 500 in millimetres a second is on the last line only because rebound is a hair slower.
        (double V, double F)[] points = [(velocity == 1 ? -0.5 : -0.499, -1200), (-0.1, -400), (-0.05, -220), (0.05, 110), (0.1, 200), (0.5, 600)];
        var rows = points.Select(p => FormattableString.Invariant($"{p.V * velocity},{p.F * force}"));
        var path = _folder.Write("units.csv", $"{header}\n{string.Join('\n', rows)}\n");
        var message = Refused(() => DynoReader.Read([path], new DynoFileOptions { VelocityPositive = DampingDirection.Compression, ForcePositive = DampingDirection.Compression }));
        Assert.Contains(place, message, StringComparison.Ordinal);
        Assert.Contains($"“{fits}”", message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("# positive: compression\n\n")]
    public void Read_EmptyFile_NamesTheColumnsExpected(string text)
    {
        var message = Refused(() => DynoReader.Read([_folder.Write("empty.csv", text)]));
        Assert.Contains("velocity_m_per_s or velocity_mm_per_s", message, StringComparison.Ordinal);
        Assert.Contains("force_N or force_kN", message, StringComparison.Ordinal);
    }
}
