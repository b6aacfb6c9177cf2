using RollRide.Damping;

namespace RollRide.Tests.Damping;

public class DynoReducerTests
{
    private static readonly double[] Speeds = [0.03, 0.052, 0.131, 0.262, 0.524, 1.047];

    private static readonly double[] BelowFifth = [0.05, 0.1, 0.2];

    private static readonly double[] NoSlow = [0.131, 0.262, 0.524];

    private static readonly double[] PowersOfTwo = [-1, -0.5, -0.25, 0.25, 0.5, 1];

    private static readonly DynoBench Bench = new() { Valving = DynoBench.Digressive, Friction = 40, GasForce = 150, GasRate = 600 };

    [Fact]
    public void Reduce_PeakVelocity_SeparatesFrictionGasAndValves()
    {
        var result = DynoReducer.Reduce([.. Speeds.Select(v => Bench.Sine(v, cycles: 2))], DynoMethod.PeakVelocity);

        // Noise-free and below the knee: the least squares are exact.
        Assert.Equal(40, result.Friction!.Value, 0.01);
        Assert.Equal(150, result.GasForce!.Value, 0.01);
        Assert.Equal(600, result.GasRate!.Value, 0.5);
        foreach (var point in result.Curve.Points)
            Assert.Equal(DynoBench.Digressive.Force(point.Velocity), point.Force, 0.1); // straight between corners, so the mean lies on the curve
        Assert.Empty(result.Outliers);
        Assert.Empty(result.Warnings);
    }

    [Fact]
    public void Reduce_ConstantVelocity_SeparatesFrictionGasAndValves()
    {
        var result = DynoReducer.Reduce([.. Speeds.Select(v => Bench.Triangle(v))], DynoMethod.ConstantVelocity);
        Assert.Equal(40, result.Friction!.Value, 0.5);
        Assert.Equal(150, result.GasForce!.Value, 0.5);

        // A triangle's mean displacement over a plateau is off mid-stroke by less than a sample: 0.1 m/200 · 600 N/m = 0.3 N.
        foreach (var point in result.Curve.Points)
            Assert.Equal(DynoBench.Digressive.Force(point.Velocity), point.Force, 1.0);
    }

    [Fact]
    public void Reduce_LinearDamperWithFriction_TakesUpTheEnergyOfTheClosedForm()
    {
        // ∮F dx over a sine: π c V X + 4 Fc X with amplitude X; the gas gives nothing. Trapezoids at 400 a cycle: error near 1e-4.
        var linear = new DynoBench { Valving = new(new(2000, 0.5, 2000), new(2000, 0.5, 2000)), Friction = 40, GasForce = 150, GasRate = 600 };
        var result = DynoReducer.Reduce([.. BelowFifth.Select(v => linear.Sine(v))], DynoMethod.PeakVelocity);
        Assert.All(result.Speeds.Zip(BelowFifth), pair =>
        {
            double expected = Math.PI * 2000 * pair.Second * 0.05 + 4 * 40 * 0.05;
            Assert.Equal(expected, pair.First.EnergyPerCycle!.Value, 1e-3 * expected);
            Assert.Equal(0.1, pair.First.Stroke!.Value, 1e-6);
        });
    }

    [Fact]
    public void Reduce_ValvesThatLag_ShowHysteresisOfLagTimesForceRate()
    {
        // A linear damper whose force lags by τ: at velocity v = V cos θ both branches differ by 2 c V ω τ sin θ; widest, over
        // 20 to 80 % of V, at 20 %: sin θ = 0.98. Samples of ±5 % around the share average it to within a few per cent.
        const double Lag = 0.002, V = 0.4;
        var linear = new DynoBench { Valving = new(new(2000, 2, 2000), new(2000, 2, 2000)), Lag = Lag };
        var result = DynoReducer.Reduce([linear.Sine(0.05, 3), linear.Sine(0.1, 3), linear.Sine(V, 3)], DynoMethod.PeakVelocity);
        double expected = 2 * 2000 * V * (V / 0.05) * Lag * 0.98;
        Assert.Equal(expected, result.Speeds[^1].Hysteresis!.Value, 0.05 * expected);
        Assert.True(result.Speeds[0].Hysteresis < result.Speeds[^1].Hysteresis);
    }

    [Fact]
    public void Reduce_OneCycleBegunAnywhere_GivesTheSamePoints()
    {
        var whole = DynoReducer.Reduce([.. Speeds.Select(v => Bench.Sine(v))], DynoMethod.PeakVelocity);
        DynoRun Turned(DynoRun run)
        {
            const int Shift = 137;
            int n = run.Velocity.Length - 1;
            double[] Turn(IReadOnlyList<double> values) => [.. Enumerable.Range(0, n).Select(i => values[(i + Shift) % n])];
            return new DynoRun(run.Name, null, Turn(run.Displacement), Turn(run.Velocity), Turn(run.Force));
        }

        var turned = DynoReducer.Reduce([.. Speeds.Select(v => Turned(Bench.Sine(v)))], DynoMethod.PeakVelocity);
        Assert.All(whole.Curve.Points.Zip(turned.Curve.Points), pair => Assert.Equal(pair.First.Force, pair.Second.Force, 0.5));
    }

    [Fact] // Two reversals hold one whole cycle between them; what is before and behind is left out.
    public void Reduce_AnEighthMoreThanTheCycleBetweenTwoReversals_GivesThePointsOfTheCycle()
    {
        var whole = DynoReducer.Reduce([.. Speeds.Select(v => Bench.Sine(v))], DynoMethod.PeakVelocity);
        DynoRun Longer(DynoRun run)
        {
            // From an eighth before the end of a cycle over the next one to an eighth behind it.
            int n = run.Velocity.Length / 3;
            double[] Part(IReadOnlyList<double> values) => [.. values.Skip(n * 7 / 8).Take(n * 10 / 8)];
            return new DynoRun(run.Name, null, Part(run.Displacement), Part(run.Velocity), Part(run.Force));
        }

        var longer = DynoReducer.Reduce([.. Speeds.Select(v => Longer(Bench.Sine(v, cycles: 3)))], DynoMethod.PeakVelocity);
        Assert.All(whole.Curve.Points.Zip(longer.Curve.Points), pair => Assert.Equal(pair.First.Force, pair.Second.Force, 0.5));
    }

    [Fact]
    public void Reduce_StandstillRun_GivesTheGasForce()
    {
        double[] still = [.. Enumerable.Repeat(0.0, 20)];
        var standing = new DynoRun("standing", null, still, still, [.. Enumerable.Repeat(163.0, 20)]);
        var result = DynoReducer.Reduce([standing, .. Speeds.Select(v => Bench.Sine(v))], DynoMethod.PeakVelocity);
        Assert.Equal(163, result.GasForce!.Value, 1e-9);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Reduce_OneCycleOffByThirtyPerCent_IsReportedAndCountsUnlessExcluded(bool exclude)
    {
        DynoRun[] runs = [.. Speeds.Select((v, i) => Bench.Sine(v, cycles: 6, spoiltCycle: i == 3 ? 2 : -1))];
        var result = DynoReducer.Reduce(runs, DynoMethod.PeakVelocity, exclude);

        Assert.Equal(2, result.Outliers.Length); // compression and rebound of that cycle
        Assert.All(result.Outliers, o => Assert.Equal(3, o.Cycle));
        Assert.All(result.Outliers, o => Assert.Contains("0.262", o.Run, StringComparison.Ordinal));
        Assert.Equal(exclude, result.OutliersExcluded);

        // One of six cycles 30 % high lifts the mean by 5 %; its mean velocity is that of the others.
        var point = result.Curve.Points.Single(p => p.Velocity is > 0.2 and < 0.3);
        double clean = DynoBench.Digressive.Force(point.Velocity);
        Assert.Equal(exclude ? clean : 1.05 * clean, point.Force, 1.0);
    }

    [Fact]
    public void Reduce_NoSlowRun_WarnsThatFrictionIsExtended()
    {
        var result = DynoReducer.Reduce([.. NoSlow.Select(v => Bench.Sine(v))], DynoMethod.PeakVelocity);
        Assert.Contains(result.Warnings, w => w.Contains("0.131 m/s", StringComparison.Ordinal));
    }

    [Fact]
    public void Reduce_TooFewSpeeds_IsRefused()
    {
        var e = Assert.Throws<DynoDataException>(() => DynoReducer.Reduce([Bench.Sine(0.1), Bench.Sine(0.2), Bench.Sine(0.2001)], DynoMethod.PeakVelocity));
        Assert.StartsWith("there are 2 different speeds", e.Message, StringComparison.Ordinal); // of no run alone
    }

    [Fact]
    public void Reduce_LoopNotClosed_IsRefused()
    {
        var whole = Bench.Sine(0.262);
        const int Part = 330;
        var open = new DynoRun("fast", null, [.. whole.Displacement.Take(Part)], [.. whole.Velocity.Take(Part)], [.. whole.Force.Take(Part)]);
        var e = Assert.Throws<DynoDataException>(() => DynoReducer.Reduce([Bench.Sine(0.05), Bench.Sine(0.1), open], DynoMethod.PeakVelocity));
        Assert.StartsWith("fast: the loop is not closed", e.Message, StringComparison.Ordinal);
        Assert.Equal("fast", e.Run);
    }

    [Fact]
    public void Reduce_VelocityWithAnOffset_DriftsAndIsRefusedAsNotClosed()
    {
        var whole = Bench.Sine(0.262, cycles: 3);
        double[] time = [.. Enumerable.Range(0, whole.Velocity.Length).Select(i => i * 2 * Math.PI * 0.05 / 0.262 / 400)];
        var drifting = new DynoRun("drifting", time, null, [.. whole.Velocity.Select(v => v + 0.01)], whole.Force);
        var e = Assert.Throws<DynoDataException>(() => DynoReducer.Reduce([Bench.Sine(0.05), Bench.Sine(0.1), drifting], DynoMethod.PeakVelocity));
        Assert.Contains("not closed", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Reduce_ForceWithTheWrongSign_WouldMakeEnergyAndIsRefused()
    {
        DynoRun Flipped(double v) => Bench.Sine(v) is var run ? new DynoRun(run.Name, null, run.Displacement, run.Velocity, [.. run.Force.Select(f => -f)]) : throw new InvalidOperationException();
        var e = Assert.Throws<DynoDataException>(() => DynoReducer.Reduce([.. Speeds.Select(Flipped)], DynoMethod.PeakVelocity));
        Assert.Contains("cannot make energy", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Reduce_ForceAndVelocitySwapped_IsRefusedByItsEnergy()
    {
        DynoRun Swapped(double v) => Bench.Sine(v) is var run ? new DynoRun(run.Name, null, run.Displacement, run.Force, run.Velocity) : throw new InvalidOperationException();
        var e = Assert.Throws<DynoDataException>(() => DynoReducer.Reduce([.. Speeds.Select(Swapped)], DynoMethod.PeakVelocity));
        Assert.Contains("swapped", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Reduce_SineByTheConstantVelocityMethod_IsRefused()
    {
        var e = Assert.Throws<DynoDataException>(() => DynoReducer.Reduce([.. Speeds.Select(v => Bench.Sine(v))], DynoMethod.ConstantVelocity));
        Assert.Contains("the constant velocity method needs 50 %. A sinusoidal movement takes the peak velocity method", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void DynoRun_VelocityThatIsNotTheRateOfDisplacement_IsRefused()
    {
        double[] time = [.. Enumerable.Range(0, 100).Select(i => i * 0.01)];
        double[] x = [.. time.Select(t => 50 * Math.Sin(2 * Math.PI * t))]; // millimetres taken for metres
        double[] v = [.. time.Select(t => 0.05 * 2 * Math.PI * Math.Cos(2 * Math.PI * t))];
        var e = Assert.Throws<DynoDataException>(() => new DynoRun("mm", time, x, v, v));
        Assert.Contains("0.001 times", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FromPoints_AveragesRepetitionsTakesGasFromRestAndKeepsTheRest()
    {
        var points = Speeds.SelectMany(v => new[] { -v, v, -v * 1.002, v * 1.002 })
            .Select(v => new ForceVelocityPoint(v, 80 + DynoBench.Digressive.Force(v)))
            .Append(new ForceVelocityPoint(0, 80))
            .ToList();
        var result = DynoReducer.FromPoints(points);
        Assert.Equal(80, result.GasForce);
        Assert.Null(result.Friction);
        Assert.Equal(2 * Speeds.Length + 1, result.Curve.Points.Length);
        Assert.All(result.Curve.Points, p => Assert.Equal(DynoBench.Digressive.Force(p.Velocity), p.Force, 0.5));
    }

    [Fact]
    public void FromPoints_WrongSignSwappedOrTooFew_IsRefused()
    {
        ForceVelocityPoint[] good = [.. Speeds.SelectMany(v => new[] { -v, v }).Select(v => new ForceVelocityPoint(v, DynoBench.Digressive.Force(v)))];
        string Refused(IEnumerable<ForceVelocityPoint> points) => Assert.Throws<DynoDataException>(() => DynoReducer.FromPoints([.. points])).Message;
        Assert.Contains("cannot make energy", Refused(good.Select(p => p with { Force = -p.Force })), StringComparison.Ordinal);
        Assert.Contains("swapped", Refused(good.Select(p => new ForceVelocityPoint(p.Force, p.Velocity))), StringComparison.Ordinal);
        Assert.Contains("2 different speeds in rebound", Refused(good.Where(p => p.Velocity > -0.06)), StringComparison.Ordinal);
    }

    [Theory] // No damper of a vehicle is softer than 10 N·s/m, nor harder than a million: beyond, a unit is wrong.
    [InlineData(9, false)]
    [InlineData(11, true)]
    [InlineData(0.9e6, true)]
    [InlineData(1.1e6, false)]
    public void FromPoints_CoefficientOfNoDamper_IsRefused(double coefficient, bool accepted)
    {
        ForceVelocityPoint[] points = [.. Speeds.SelectMany(v => new[] { -v, v }).Select(v => new ForceVelocityPoint(v, coefficient * v))];

        var refusal = Record.Exception(() => DynoReducer.FromPoints(points)) as DynoDataException;

        Assert.Equal(accepted, refusal is null);
        Assert.True(accepted || refusal!.Message.Contains("dissipate like a damping coefficient of", StringComparison.Ordinal));
    }

    [Fact]
    public void Reduce_BothSignsTurnedRound_IsRefusedByItsGasForce()
    {
        // Energy is the same with both signs turned; only the gas, 150 N pushing outwards, tells.
        DynoRun Turned(double v) => Bench.Sine(v) is var run
            ? new DynoRun(run.Name, null, [.. run.Displacement.Select(x => -x)], [.. run.Velocity.Select(x => -x)], [.. run.Force.Select(f => -f)])
            : throw new InvalidOperationException();
        var e = Assert.Throws<DynoDataException>(() => DynoReducer.Reduce([.. Speeds.Select(Turned)], DynoMethod.PeakVelocity));
        Assert.Contains("-150 N: the gas would pull the rod in", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Reduce_LoadCellSlightlyOffItsZero_IsWarnedOf()
    {
        // The largest force is 0.12 · 4800 + 0.927 · 1900 = 2337 N: 15 N is 0.6 % of it.
        var result = DynoReducer.Reduce([.. Speeds.Select(v => (Bench with { GasForce = -15 }).Sine(v))], DynoMethod.PeakVelocity);
        Assert.Contains("-15.0 N", Assert.Single(result.Warnings), StringComparison.Ordinal);
    }

    [Fact]
    public void FromPoints_GasThatPullsAtRest_IsRefused()
    {
        ForceVelocityPoint[] points = [new(0, -80), .. Speeds.SelectMany(v => new[] { -v, v }).Select(v => new ForceVelocityPoint(v, DynoBench.Digressive.Force(v) - 80))];
        Assert.Contains("pull the rod in", Assert.Throws<DynoDataException>(() => DynoReducer.FromPoints(points)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FromPoints_ReboundWellBelowCompression_IsWarnedOf()
    {
        ForceVelocityPoint[] points = [.. Speeds.SelectMany(v => new[] { -v, v }).Select(v => new ForceVelocityPoint(-v, -DynoBench.Digressive.Force(v)))];
        Assert.Contains(DynoReducer.FromPoints(points).Warnings, warning => warning.Contains("is the right direction declared positive?", StringComparison.Ordinal));
    }

    [Fact] // In powers of two the coefficient comes out to the last digit.
    public void FromPoints_CoefficientOnALimit_IsAccepted() =>
        Assert.All([10, 1e6], coefficient => Assert.Equal(coefficient, DynoReducer.FromPoints([.. PowersOfTwo.Select(v => new ForceVelocityPoint(v, coefficient * v))]).Curve.Slope(0.3)));

    [Fact] // Compression was measured up to 0.524 m/s, rebound up to 0.131 m/s: only there is something to compare.
    public void FromPoints_SoftReboundMeasuredLessFar_IsComparedAsFarAsBothWereMeasured()
    {
        ForceVelocityPoint[] points = [.. Speeds.Take(5).Select(v => new ForceVelocityPoint(v, 2000 * v)), .. Speeds.Take(3).Select(v => new ForceVelocityPoint(-v, -1000 * v))];
        Assert.Contains(DynoReducer.FromPoints(points).Warnings, warning => warning.Contains("0.50 times compression up to 0.13 m/s", StringComparison.Ordinal));
    }

    [Fact] // A machine that waits longer at its ends than it moves: what it records standing belongs to neither direction.
    public void Reduce_ConstantVelocityWithRestsAtTheEnds_CountsOnlyWhatMoves()
    {
        const int Rest = 300;
        DynoRun Resting(DynoRun run)
        {
            int half = run.Velocity.Length / 2;
            double[] Rested(IReadOnlyList<double> values, double atTop, double atBottom) =>
                [.. values.Take(half), .. Enumerable.Repeat(atTop, Rest), .. values.Skip(half).Take(half), .. Enumerable.Repeat(atBottom, Rest)];
            return new DynoRun(run.Name, null, Rested(run.Displacement, 0.05, -0.05), Rested(run.Velocity, 0, 0), Rested(run.Force, 150 + (600 * 0.05), 150 - (600 * 0.05)));
        }

        var result = DynoReducer.Reduce([.. Speeds.Select(v => Resting(Bench.Triangle(v)))], DynoMethod.ConstantVelocity);
        foreach (var point in result.Curve.Points)
            Assert.Equal(DynoBench.Digressive.Force(point.Velocity), point.Force, 1.0); // as without rests
    }

    [Fact] // π c V X = π · 2000 · 0.2 · 0.05 = 62.83 J; trapezoids at 400 a cycle are off by 4e-5 of it.
    public void Reduce_CycleThatGivesEnergyOut_IsNamedWithWhatItWouldGive()
    {
        var e = Assert.Throws<DynoDataException>(() => ReduceWithSecondCycle(force => -force));
        Assert.StartsWith("0.200 m/s: cycle 2: the damper would give out 62.83 J a cycle", e.Message, StringComparison.Ordinal);
    }

    [Fact] // As from a load cell that came loose.
    public void Reduce_CycleWithoutForce_IsRefused() =>
        Assert.Contains("cycle 2: the damper would give out", Assert.Throws<DynoDataException>(() => ReduceWithSecondCycle(_ => 0)).Message, StringComparison.Ordinal);

    private static DynoReduction ReduceWithSecondCycle(Func<double, double> change)
    {
        var linear = new DynoBench { Valving = new(new(2000, 2, 2000), new(2000, 2, 2000)) };
        var whole = linear.Sine(0.2, cycles: 3);
        var changed = new DynoRun(whole.Name, null, whole.Displacement, whole.Velocity, [.. whole.Force.Select((force, i) => i is >= 400 and <= 802 ? change(force) : force)]);
        return DynoReducer.Reduce([linear.Sine(0.05), linear.Sine(0.1), changed], DynoMethod.PeakVelocity);
    }

    [Fact] // The gas spring opens the loop by 2 · 600 N/m · 0.05 m · sin θ, 59 N at 20 % of the peak velocity; it is not the valves'.
    public void Reduce_GasSpring_IsNoHysteresis()
    {
        var linear = new DynoBench { Valving = new(new(2000, 2, 2000), new(2000, 2, 2000)), GasForce = 150, GasRate = 600 };
        var result = DynoReducer.Reduce([.. BelowFifth.Select(v => linear.Sine(v, cycles: 3))], DynoMethod.PeakVelocity);
        Assert.All(result.Speeds, speed => Assert.InRange(speed.Hysteresis!.Value, 0, 0.5)); // rounding, seen through the least squares
    }

    [Theory] // Seven repetitions with the median 1000 N and the median deviation 10 N: 0.6745 · d/10 passes 3.5 at d = 51.9 N.
    [InlineData(51, false)]
    [InlineData(52, true)]
    public void FromPoints_ValueFarFromTheOthersOfItsSpeed_IsReportedAboveAScoreOf3AndAHalf(double deviation, bool outlies)
    {
        double[] repeated = [990, 990, 1000, 1010, 1010, 1000 - deviation, 1000 + deviation];
        ForceVelocityPoint[] points = [.. repeated.Select(force => new ForceVelocityPoint(0.5, force)), new(0.1, 300), new(0.25, 600), .. Speeds.Select(v => new ForceVelocityPoint(-v, -2000 * v))];
        var outliers = DynoReducer.FromPoints(points).Outliers;

        DynoOutlier[] expected = [new("0.5 m/s", 6, 0.5, 1000 - deviation, 1000), new("0.5 m/s", 7, 0.5, 1000 + deviation, 1000)];
        Assert.Equal(outlies ? expected : [], outliers);
    }

    [Fact]
    public void DynoRun_FewestSamples_IsSixteen()
    {
        Assert.Equal(16, (Bench with { SamplesPerCycle = 15 }).Sine(0.1).Velocity.Length);
        var e = Assert.Throws<DynoDataException>(() => (Bench with { SamplesPerCycle = 14 }).Sine(0.1));
        Assert.Equal("0.100 m/s: it has 15 samples; a loop needs at least 16", e.Message);
    }

    [Fact]
    public void DynoRun_MissingColumn_IsNamed()
    {
        double[] sixteen = new double[16];
        Assert.Throws<ArgumentNullException>("velocity", () => new DynoRun("run", null, sixteen, null!, sixteen));
        Assert.Throws<ArgumentNullException>("force", () => new DynoRun("run", null, sixteen, sixteen, null!));
        Assert.Contains("same number of samples", Assert.Throws<ArgumentException>(() => new DynoRun("run", null, sixteen, sixteen, new double[17])).Message, StringComparison.Ordinal);
        Assert.Contains("needs time or displacement", Assert.Throws<DynoDataException>(() => new DynoRun("run", null, null, sixteen, sixteen)).Message, StringComparison.Ordinal);
    }
}
