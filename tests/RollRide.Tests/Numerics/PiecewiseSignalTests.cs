using CsCheck;
using RollRide.Numerics;

namespace RollRide.Tests.Numerics;

public sealed class PiecewiseSignalTests
{
    private const int Cases = 300;

    private static readonly PiecewiseSignal RampAndHold = new(
        new SignalPiece(1, 3, new LinearShape(0, 2)),
        new SignalPiece(3, double.PositiveInfinity, new ConstantShape(4)));

    private static readonly Gen<SignalPiece> AnyPiece = Gen.Select(Gen.Double[-5, 5], Gen.Double[0.1, 4], Gen.Double[-2, 2], Gen.Int[0, 3])
        .Select((start, length, size, kind) => kind switch
        {
            0 => new SignalPiece(start, double.PositiveInfinity, new ConstantShape(size)),
            1 => new SignalPiece(start, start + length, new LinearShape(size, -size)),
            2 => new SignalPiece(start, start + length, new HaversineShape(size, length)),
            _ => new SignalPiece(start, start + length, new SineShape(size, length, 0.3)),
        });

    private static readonly Gen<PiecewiseSignal> AnySignal = AnyPiece.Array[0, 6].Select(pieces => new PiecewiseSignal(pieces));

    [Fact]
    public void Value_BeforeInAndAfterThePieces_IsThatOfThePieces()
    {
        Assert.Equal(0, RampAndHold.Value(0.999));
        Assert.Equal(2, RampAndHold.Value(2), 1e-15);
        Assert.Equal(4, RampAndHold.Value(3));
        Assert.Equal(4, RampAndHold.Value(1e6));
        Assert.Equal(4, RampAndHold.FinalValue);
    }

    [Fact]
    public void Value_AtAJump_IsThatOfTheRightHandSide()
    {
        var box = new PiecewiseSignal(new SignalPiece(1, 2, new ConstantShape(7)));
        Assert.Equal(7, box.Value(1));
        Assert.Equal(0, box.Value(2));
    }

    [Fact]
    public void Ends_OfSignals_AreThoseOfTheFirstAndLastPiece()
    {
        Assert.Equal([1, 3], RampAndHold.Breakpoints);
        Assert.Equal((1, double.PositiveInfinity), (RampAndHold.Start, RampAndHold.End));
        var held = new PiecewiseSignal(new SignalPiece(double.NegativeInfinity, 2, new ConstantShape(1)));
        Assert.Equal([2], held.Breakpoints);
        Assert.Equal((double.NegativeInfinity, 2), (held.Start, held.End));
        Assert.Equal(1, held.Value(-1e9));
        Assert.Equal(0, held.FinalValue);
    }

    [Fact]
    public void Zero_Everywhere_IsZeroWithoutBreakpoints()
    {
        Assert.Empty(PiecewiseSignal.Zero.Breakpoints);
        Assert.Equal(0, PiecewiseSignal.Zero.Value(3));
        Assert.Equal(0, PiecewiseSignal.Zero.FinalValue);
        Assert.Equal((double.PositiveInfinity, double.NegativeInfinity), (PiecewiseSignal.Zero.Start, PiecewiseSignal.Zero.End));
    }

    [Fact]
    public void Plus_TwoSignals_IsTheirSum() =>
        Gen.Select(AnySignal, AnySignal, Gen.Double[-6, 10]).SampleSame(
            Cases,
            sample =>
            {
                var (a, b, t) = sample;
                return Math.Abs(a.Plus(b).Value(t) - a.Value(t) - b.Value(t)) < 1e-13
                    && Math.Abs(a.Plus(b).FinalValue - a.FinalValue - b.FinalValue) < 1e-13;
            });

    [Fact]
    public void Shifted_ByAnyTime_IsTheSameLater() =>
        Gen.Select(AnySignal, Gen.Double[-6, 10], Gen.Double[-3, 3]).SampleSame(
            Cases,
            sample =>
            {
                var (signal, t, by) = sample;
                // Within rounding of a jump the two may fall on different sides.
                if (signal.Breakpoints.Any(b => Math.Abs(b - t) < 1e-9)) return true;
                return Math.Abs(signal.Shifted(by).Value(t + by) - signal.Value(t)) < 1e-12;
            });

    [Fact]
    public void Cursor_InsideAnySegment_EqualsTheSignalAndItsSlope() =>
        Gen.Select(AnySignal, Gen.Double[-6, 10]).SampleSame(
            Cases,
            sample =>
            {
                var (signal, t) = sample;
                double[] edges = [-7, .. signal.Breakpoints, 20];
                double before = edges.Last(e => e <= t), after = edges.First(e => e > t);
                SignalCursor cursor = signal.CreateCursor();
                cursor.EnterSegment(0.5 * (before + after));
                const double Step = 1e-5;
                bool sameValue = cursor.Value(t) == signal.Value(t);
                if (t - before < Step || after - t < Step) return sameValue;
                double slope = (signal.Value(t + Step) - signal.Value(t - Step)) / (2 * Step);
                // Central differences: h²/6 · 6 pieces · 2 (2π/0.1)³ ≈ 5e-5, and rounding 1e-15/h.
                return sameValue && Math.Abs(slope - cursor.Rate(t)) < 1e-4;
            });

    [Fact]
    public void Cursor_AtTheEndsOfASegment_UsesTheBranchInside()
    {
        SignalCursor cursor = new PiecewiseSignal(new SignalPiece(1, 2, new ConstantShape(7))).CreateCursor();
        cursor.EnterSegment(1.5);
        Assert.Equal((7, 7), (cursor.Value(1), cursor.Value(2)));
        cursor.EnterSegment(2.5);
        Assert.Equal((0, 0), (cursor.Value(2), cursor.Rate(2)));
        cursor.EnterSegment(0.5);
        Assert.Equal(0, cursor.Value(1));
    }

    [Fact]
    public void Cursor_Used_AllocatesNothing()
    {
        SignalCursor cursor = RampAndHold.Plus(RampAndHold.Shifted(0.5))
            .Plus(new PiecewiseSignal(new SignalPiece(0, 9, new SampledShape([0, 1, 9], [0, 2, 1])))).CreateCursor();
        double sum = 0;
        void Use()
        {
            for (int i = 0; i < 1000; i++)
            {
                cursor.EnterSegment(2 + 1e-3 * i);
                sum += cursor.Value(2) + cursor.Rate(2);
            }
        }

        Assert.Equal(0, Allocation.Of(Use));
    }

    [Fact]
    public void Cursor_BeforeAnySegment_IsRefused() =>
        Assert.Throws<InvalidOperationException>(() => RampAndHold.CreateCursor().Value(0));

    [Fact]
    public void Piece_EndsNotInOrderOrInfiniteForAChangingShape_IsRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new SignalPiece(1, 1, new ConstantShape(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new SignalPiece(double.NaN, 1, new ConstantShape(1)));
        Assert.Throws<ArgumentException>(() => new SignalPiece(0, double.PositiveInfinity, new LinearShape(0, 1)));
        Assert.Throws<ArgumentException>(() => new SignalPiece(double.NegativeInfinity, 0, new LinearShape(0, 1)));
    }
}
