using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class DormandPrince54Tests
{
    private const double Rounding = 1e-14;

    [Fact]
    public void Tableau_EveryRow_SumsToItsNode()
    {
        double[,] a = FullMatrix();
        for (int row = 0; row < DormandPrince54.Stages; row++)
        {
            double sum = 0;
            for (int column = 0; column < DormandPrince54.Stages; column++) sum += a[row, column];
            Assert.Equal(DormandPrince54.C[row], sum, Rounding);
        }
    }

    // J. C. Butcher's order conditions, one a rooted tree, as listed by Hairer, Nørsett, Wanner 1993, table II.2.1.
    [Fact]
    public void Tableau_Solution_MeetsAll17ConditionsOfOrder5()
    {
        double[] b = Solution();
        foreach ((double[] tree, double value, _) in Trees()) Assert.Equal(value, Dot(b, tree), Rounding);
    }

    [Fact]
    public void Tableau_EmbeddedSolution_MeetsOrder4AndMissesOrder5()
    {
        double[] b = Solution();
        for (int i = 0; i < b.Length; i++) b[i] -= DormandPrince54.E[i];
        var trees = Trees();
        foreach ((double[] tree, double value, _) in trees.Where(t => t.Order <= 4)) Assert.Equal(value, Dot(b, tree), Rounding);
        // Otherwise the difference would not estimate the error of order 4.
        Assert.Contains(trees.Where(t => t.Order == 5), t => Math.Abs(Dot(b, t.Tree) - t.Value) > 1e-4);
    }

    [Fact]
    public void FixedSteps_Halved_ErrorFallsWithOrder5()
    {
        double coarse = KeplerErrorWithFixedSteps(1000), middle = KeplerErrorWithFixedSteps(2000), fine = KeplerErrorWithFixedSteps(4000);
        // The next term of the error expansion still shows at these steps; it moves the observed order by less than 0.2.
        Assert.InRange(Math.Log2(coarse / middle), 4.8, 5.2);
        Assert.InRange(Math.Log2(middle / fine), 4.8, 5.2);
    }

    [Fact]
    public void DenseOutput_StepHalved_LocalErrorFallsWithOrder5()
    {
        // A continuous solution of order 4 has a local error of h⁵: the largest inside one step from exact states.
        double LocalError(double step)
        {
            var method = new SingleMethod(ReferenceProblems.Kepler);
            method.Restart(0, ReferenceProblems.KeplerAt(0.3, 0));
            method.TryStep(step, 1, 1);
            method.Accept();
            return LargestDenseError(method, 0.3);
        }

        Assert.InRange(Math.Log2(LocalError(0.1) / LocalError(0.05)), 4.8, 5.2);
        Assert.InRange(Math.Log2(LocalError(0.05) / LocalError(0.025)), 4.8, 5.2);
    }

    [Fact]
    public void DenseOutput_OverManySteps_ErrorFallsAtLeastWithOrder4()
    {
        double GlobalError(int steps)
        {
            double worst = 0;
            WalkKepler(steps, method => worst = Math.Max(worst, LargestDenseError(method, 0.3)));
            return worst;
        }

        Assert.True(Math.Log2(GlobalError(1000) / GlobalError(2000)) > 4);
    }

    [Fact]
    public void DenseOutput_AtTheEnds_IsTheStepItself()
    {
        var method = new SingleMethod(ReferenceProblems.Brusselator);
        double[] start = [1.5, 3], there = new double[2];
        method.Restart(2, start);
        method.TryStep(2.1, 1e-6, 1e-6);
        method.Accept();

        method.StateAt(2, there);
        Assert.Equal(start, there);
        method.StateAt(2.1, there);
        // y0 + (y1 − y0) is y1 to one rounding.
        Assert.Equal(method.State[0], there[0], 1e-15);
        Assert.Equal(method.State[1], there[1], 1e-15);
    }

    [Fact]
    public void StateAt_OutsideTheStep_IsRefused()
    {
        var method = new SingleMethod(ReferenceProblems.Brusselator);
        method.Restart(2, [1.5, 3]);
        method.TryStep(2.1, 1e-6, 1e-6);
        method.Accept();
        foreach (double time in (double[])[1.999, 2.101, double.NaN])
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => method.StateAt(time, new double[2]));
        }
    }

    [Fact]
    public void TryStep_NotAccepted_LeavesTimeStateAndNextStepUntouched()
    {
        double[] Step(bool withRejection)
        {
            var method = new SingleMethod(ReferenceProblems.Brusselator);
            method.Restart(0, [1.5, 3]);
            if (withRejection)
            {
                method.TryStep(5, 1e-6, 1e-6);
                Assert.Equal(0, method.Time);
                Assert.Equal([1.5, 3], method.State.ToArray());
            }

            method.TryStep(0.01, 1e-6, 1e-6);
            method.Accept();
            return method.State.ToArray();
        }

        Assert.Equal(Step(withRejection: false), Step(withRejection: true));
    }

    [Fact]
    public void TryStep_AnyStep_LastStageIsFirstOfTheNext()
    {
        var method = new SingleMethod(ReferenceProblems.Kepler);
        method.Restart(0, ReferenceProblems.KeplerAt(0.1, 0));
        for (int i = 1; i <= 10; i++)
        {
            method.TryStep(0.1 * i, 1e-6, 1e-6);
            method.Accept();
        }

        Assert.Equal(1 + 10 * 6, method.DerivativeEvaluations);
    }

    [Fact]
    public void TryStep_WithAccept_AllocatesNothing()
    {
        var method = new SingleMethod(ReferenceProblems.Kepler);
        var controller = new PiStepController<OneLane>();
        controller.Restart(1);
        double[] inside = new double[4];
        method.Restart(0, ReferenceProblems.KeplerAt(0.3, 0));

        void Walk(int steps)
        {
            double step = 0.01;
            for (int i = 0; i < steps; i++)
            {
                double start = method.Time;
                double error = method.TryStep(start + step, 1e-6, 1e-6);
                method.Accept();
                method.StateAt(start + 0.5 * step, inside);
                step = controller.Next(new(step), new(Math.Min(1, error)), 1).Value;
            }
        }

        Assert.Equal(0, Allocation.Of(() => Walk(1000)));
    }

    private static double KeplerErrorWithFixedSteps(int steps) =>
        ReferenceProblems.Distance(WalkKepler(steps, _ => { }), ReferenceProblems.KeplerAt(0.3, 20));

    private static double[] WalkKepler(int steps, Action<SingleMethod> afterStep)
    {
        var method = new SingleMethod(ReferenceProblems.Kepler);
        method.Restart(0, ReferenceProblems.KeplerAt(0.3, 0));
        for (int i = 1; i <= steps; i++)
        {
            method.TryStep(20.0 * i / steps, 1, 1);
            method.Accept();
            afterStep(method);
        }

        return method.State.ToArray();
    }

    private static double LargestDenseError(SingleMethod step, double eccentricity)
    {
        double worst = 0;
        double[] state = new double[4];
        for (int i = 1; i < 10; i++)
        {
            double time = step.Start + 0.1 * i * (step.End - step.Start);
            step.StateAt(time, state);
            worst = Math.Max(worst, ReferenceProblems.Distance(state, ReferenceProblems.KeplerAt(eccentricity, time)));
        }

        return worst;
    }

    private static double[,] FullMatrix()
    {
        var a = new double[DormandPrince54.Stages, DormandPrince54.Stages];
        int next = 0;
        for (int row = 1; row < DormandPrince54.Stages; row++)
        {
            for (int column = 0; column < row; column++) a[row, column] = DormandPrince54.A[next++];
        }

        return a;
    }

    private static double[] Solution() => [.. DormandPrince54.A[^6..], 0];

    private static double Dot(double[] b, double[] tree) => b.Zip(tree, (x, y) => x * y).Sum();

    private static List<(double[] Tree, double Value, int Order)> Trees()
    {
        double[,] a = FullMatrix();
        double[] A(double[] v) => [.. Enumerable.Range(0, v.Length).Select(i => Enumerable.Range(0, v.Length).Sum(j => a[i, j] * v[j]))];
        double[] Times(double[] u, double[] v) => [.. u.Zip(v, (x, y) => x * y)];

        double[] one = [1, 1, 1, 1, 1, 1, 1], c = DormandPrince54.C;
        double[] c2 = Times(c, c), c3 = Times(c2, c);
        return
        [
            (one, 1, 1),
            (c, 1.0 / 2, 2),
            (c2, 1.0 / 3, 3), (A(c), 1.0 / 6, 3),
            (c3, 1.0 / 4, 4), (Times(c, A(c)), 1.0 / 8, 4), (A(c2), 1.0 / 12, 4), (A(A(c)), 1.0 / 24, 4),
            (Times(c3, c), 1.0 / 5, 5), (Times(c2, A(c)), 1.0 / 10, 5), (Times(c, A(c2)), 1.0 / 15, 5),
            (Times(c, A(A(c))), 1.0 / 30, 5), (Times(A(c), A(c)), 1.0 / 20, 5), (A(c3), 1.0 / 20, 5),
            (A(Times(c, A(c))), 1.0 / 40, 5), (A(A(c2)), 1.0 / 60, 5), (A(A(A(c))), 1.0 / 120, 5),
        ];
    }
}
