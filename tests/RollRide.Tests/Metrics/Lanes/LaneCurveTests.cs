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
        var turns = 0;
        foreach (var (car, manoeuvre) in StraightCars.Some(6))
        {
            var solver = new SeriesSolver<OneLane>();
            solver.Load(0, SeriesCar.TryCreate(car, manoeuvre)!, new double[HalfCarState.Count], Tolerance(1e-3));
            do
            {
                solver.Step();
                var roll = new LaneCurve(solver, SeriesRow.Position + HalfCarState.BodyRoll, SeriesRow.Terms, 0, GaussLobatto.Five);
                turns += roll.Times.Length - GaussLobatto.Five.Count;
                Assert.Equal(solver.Start(0), roll.Times[0]);
                Assert.Equal(solver.End(0), roll.Times[^1]);
                foreach (var (from, to) in roll.Times.Zip(roll.Times.Skip(1)))
                {
                    // A turn is found to about a thousandth of the gap, where the row is flat.
                    var (start, end) = (roll.At(from), roll.At(to));
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
        var passages = 0;
        do
        {
            solver.Step();
            var roll = new LaneCurve(solver, SeriesRow.Position + HalfCarState.BodyRoll, SeriesRow.Terms, 0, GaussLobatto.Five);
            foreach (var (from, to) in roll.Times.Zip(roll.Times.Skip(1)))
            {
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
