using RollRide.Dynamics;
using RollRide.Dynamics.Series;
using RollRide.Metrics.Lanes;
using RollRide.Numerics;
using RollRide.Tests.Dynamics.Series;
using static RollRide.Tests.Dynamics.TestCars;

namespace RollRide.Tests.Metrics.Lanes;

public sealed class LaneCurveTests
{
    [Fact]
    public void Times_OfAnyStep_LeaveNoTurnBetweenThem()
    {
        var (roll, turns) = (new LaneCurve(GaussLobatto.Five), 0);
        foreach (var (car, manoeuvre) in StraightCars.Some(6))
        {
            var solver = new SeriesSolver<OneLane>();
            solver.Load(0, SeriesCar.TryCreate(car, manoeuvre)!, new double[HalfCarState.Count], Tolerance(1e-3));
            do
            {
                solver.Step();
                roll.Take(solver, SeriesRow.Position + HalfCarState.BodyRoll, SeriesRow.Terms, 0);
                turns += roll.Times.Length - GaussLobatto.Five.Count;
                Assert.Equal(solver.Start(0), roll.Times[0]);
                Assert.Equal(solver.End(0), roll.Times[^1]);
                for (var i = 1; i < roll.Times.Length; i++)
                {
                    // A turn is found to about a thousandth of the gap, where the row is flat.
                    var (from, to) = (roll.Times[i - 1], roll.Times[i]);
                    var (start, end) = (roll.At(from), roll.At(to));

                    // The same polynomial: only the time in the step is rounded once more, through the time of the run.
                    Assert.Equal(end, roll.Values[i], 1e-14);
                    for (var part = 1; part < 10; part++)
                        Assert.InRange(roll.At(from + ((to - from) * part / 10)), Math.Min(start, end) - 1e-7, Math.Max(start, end) + 1e-7);
                }
            }
            while (solver.Advance() == 0);
        }

        Assert.True(turns > 10);
    }

    [Fact]
    public void Passage_OfALevelBetweenTwoTimes_IsWhereTheRowHasIt()
    {
        var (car, manoeuvre) = StraightCars.Some(1)[0];
        var solver = new SeriesSolver<OneLane>();
        solver.Load(0, SeriesCar.TryCreate(car, manoeuvre)!, new double[HalfCarState.Count], Tolerance(1e-6));
        var (roll, passages) = (new LaneCurve(GaussLobatto.Five), 0);
        do
        {
            solver.Step();
            roll.Take(solver, SeriesRow.Position + HalfCarState.BodyRoll, SeriesRow.Terms, 0);
            for (var i = 1; i < roll.Times.Length; i++)
            {
                var (from, to) = (roll.Times[i - 1], roll.Times[i]);
                var (start, end) = (roll.At(from), roll.At(to));
                var level = start + (0.3 * (end - start));
                if (Math.Abs(end - start) < 1e-6)
                    continue;
                var time = roll.Passage(level, from, to);
                Assert.InRange(time, from, to);
                Assert.Equal(level, roll.At(time), 1e-9);
                passages++;
            }
        }
        while (solver.Advance() == 0);
        Assert.True(passages > 100);
    }
}
