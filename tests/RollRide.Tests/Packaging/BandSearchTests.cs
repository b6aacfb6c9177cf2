using CsCheck;
using RollRide.Mounting;
using RollRide.Packaging;
using RollRide.Vehicle;

namespace RollRide.Tests.Packaging;

public sealed class BandSearchTests
{
    // Edges are whole tenths of a millimetre inside the band; what lacks a hundredth is kept.
    private const double Step = 1e-4;
    private const double Edge = 1.1e-4;
    private const double Margin = 1e-5;

    private static readonly TravelRange Still = new() { Bump = 0, Rebound = 0, Roll = 0 };
    private static readonly TravelRange Articulated = new() { Bump = 0.08, Rebound = 0.09, Roll = 0.1 };

    /// <summary>A rail at 0.36 to 0.42 m and a tyre from 0.66 m outward; upright dampers. All invented.</summary>
    private static PackagingSpace Space(TravelRange travel) => new()
    {
        RollCentreHeight = 0.5,
        Travel = TravelEnvelope.All(travel),
        Damper = new DamperEnvelope { UpperDiameter = 0.07, UpperLength = 0.25, LowerDiameter = 0.05, LowerLength = 0.22, ClosedLength = 0.30, ExtendedLength = 0.60 },
        Mounts = new DamperMounts { AxleEndHeight = 0.3, BodyEndHeight = 0.75 },
        Rail = new KeepOut { Name = "frame rail", MovesWithAxle = false, Inner = 0.36, Outer = 0.42, Bottom = 0.55, Top = 0.70, Clearance = 0.010 },
        KeepOuts = [new KeepOut { Name = "tyre", MovesWithAxle = true, Inner = 0.66, Outer = 0.9, Bottom = 0, Top = 0.72, Clearance = 0.015 }],
        ClearanceBetweenDampers = 0.02,
        SearchTo = 0.7,
    };

    /// <summary>Random rooms with dampers inclined both ways and bushes wider than their tubes.</summary>
    private static readonly Gen<PackagingSpace> Rooms =
        from lean in Gen.Double[-0.12, 0.06]
        from forward in Gen.Double[-0.15, 0.15]
        from bush in Gen.Double[0.04, 0.09]
        from rail in Gen.Double[0.30, 0.42]
        from tyre in Gen.Double[0.62, 0.70]
        from top in Gen.Double[0.62, 0.75]
        from roll in Gen.Double[0.03, 0.12]
        select Space(Articulated with { Roll = roll }) with
        {
            SearchFrom = 0.06,
            Mounts = new DamperMounts { AxleEndHeight = 0.3, BodyEndHeight = 0.75, BodyEndOutboard = lean, BodyEndForward = forward },
            Damper = Space(Still).Damper with { UpperBush = bush, LowerBush = bush + 0.01 },
            Rail = new KeepOut { Name = "frame rail", MovesWithAxle = false, Inner = rail - 0.03, Outer = rail + 0.03, Bottom = 0.55, Top = 0.70, Clearance = 0.008 },
            KeepOuts =
            [
                new KeepOut { Name = "tyre", MovesWithAxle = true, Inner = tyre, Outer = 0.9, Bottom = 0, Top = top, Clearance = 0.012 },
                new KeepOut { Name = "differential", MovesWithAxle = true, Inner = -0.12, Outer = 0.12, Bottom = 0.2, Top = 0.45, Clearance = 0.01 },
            ],
        };

    private static PlacementBands Find(PackagingSpace space) => BandSearch.Find(space, TestContext.Current.CancellationToken);

    [Fact]
    public void AtRest_BandsAreSumsOfDiametersAndClearances()
    {
        var found = Find(Space(Still));

        Assert.Empty(found.Shortfalls);
        var (inboard, outboard) = (found.On(RailSide.Inboard)!, found.On(RailSide.Outboard)!);
        Assert.Equal(2, found.Bands.Length);

        // Inboard: half of 20 mm between the dampers and half of 70 mm; then the rail's face less 10 mm and 35 mm.
        Assert.Equal(0.045, inboard.Inner, Edge);
        Assert.Equal(0.315, inboard.Outer, Edge);
        Assert.Equal("upper tube to the other damper", inboard.InnerLimit!.Text);
        Assert.Equal("upper tube to frame rail", inboard.OuterLimit!.Text);
        Assert.Equal(0.270, inboard.Width, 2 * Edge);

        // A tenth of a millimetre beyond its edges the two dampers lack two tenths and the rail lacks one.
        Assert.Equal(-2e-4, inboard.InnerLimit.Margin, 1e-9);
        Assert.Equal(-1e-4, inboard.OuterLimit.Margin, 1e-9);

        // Outboard: the rail's face and 45 mm; then the tyre, as high as 720 mm, meets the upper tube: less 15 mm and 35 mm.
        Assert.Equal(0.465, outboard.Inner, Edge);
        Assert.Equal(0.610, outboard.Outer, Edge);
        Assert.Equal("upper tube to tyre", outboard.OuterLimit!.Text);
    }

    [Fact] // At the inner edge the two dampers have just their 20 mm; a millimetre further in they lack two.
    public void Broken_NamesWhatLacksClearance_NotWhatIsJustMet()
    {
        Assert.Empty(FitCheck.Broken(Space(Still), 0.045, TestContext.Current.CancellationToken));
        var contact = Assert.Single(FitCheck.Broken(Space(Still), 0.044, TestContext.Current.CancellationToken));
        Assert.Equal("upper tube to the other damper", contact.Text);
        Assert.Equal(-0.002, contact.Margin, 1e-9);
    }

    [Fact]
    public void DrawnAtAnotherRideHeight_TheSameTravelLeavesTheSameRoom()
    {
        // The body 45 mm and the axle 8 mm down, the roll centre with the axle: the same parts meet at the same places.
        var laden = Space(Articulated).Redrawn(new RideHeightChange(-0.045, -0.008, -0.008));
        Assert.Equal(0.043, laden.Travel.Range.Bump, 1e-15);
        Assert.Equal(0.127, laden.Travel.Range.Rebound, 1e-15);
        Assert.Equal(0.505, laden.Rail!.Bottom, 1e-15);
        Assert.Equal(0.712, laden.KeepOuts[0].Top, 1e-15);
        var (found, again) = (Find(Space(Articulated)), Find(laden));
        Assert.Equal(found.Bands.Length, again.Bands.Length);
        foreach (var (band, same) in found.Bands.Zip(again.Bands))
        {
            Assert.Equal(band.Inner, same.Inner, 2 * Edge);
            Assert.Equal(band.Outer, same.Outer, 2 * Edge);
        }
    }

    [Fact]
    public void InHeave_OfAnUprightDamper_NothingComesCloserSideways()
    {
        // Heave moves tyre and damper up and down only; the tyre reaches the upper tube at every heave.
        var still = Find(Space(Still)).On(RailSide.Outboard)!;
        var heaved = Find(Space(Articulated with { Roll = 0 }) with { SearchFrom = 0.4 }).On(RailSide.Outboard)!;
        Assert.Equal(still.Inner, heaved.Inner, Edge);
        Assert.Equal(still.Outer, heaved.Outer, Edge);
    }

    [Fact]
    public void InRoll_TheTyresUpperCornerSwingsIn()
    {
        // A slender damper far above: its upper tube stands still about the body end (0.69 to 1.0 m), the tyre's corner at
        // (0.66, 0.72) goes round the roll centre (0, 0.5): by hand to 0.66 cos r − 0.22 sin r, least at full roll.
        var space = Space(Articulated with { Bump = 0, Rebound = 0 }) with
        {
            Rail = null,
            Damper = new DamperEnvelope { UpperDiameter = 1e-6, UpperLength = 0.1, LowerDiameter = 1e-6, LowerLength = 1e-6, ClosedLength = 0.1, ExtendedLength = 5 },
            Mounts = new DamperMounts { AxleEndHeight = 1.0, BodyEndHeight = 1.6 },
            KeepOuts = [new KeepOut { Name = "bracket", MovesWithAxle = true, Inner = 0.66, Outer = 0.9, Bottom = 1.55, Top = 1.58, Clearance = 0.0 }],
        };

        // The body end is a fixed point at (y, 1.6); the damper's line runs down from it to the axle end, which turns with the
        // bracket: the angle of the line is what brings it closest. Brute force over roll of the line against the inner face.
        var band = Find(space).On(RailSide.Across)!;
        double outer = Enumerable.Range(0, 20001).Select(i => -0.1 + (i * 1e-5)).Min(r => OuterBySolvingTheTouch(r));
        Assert.Equal(outer, band.Outer, Edge + 1e-6); // half a micrometre of tube, and the sampling of roll

        static double OuterBySolvingTheTouch(double r)
        {
            // Touch where the line passes through one of the inner face's corners, or none of them lies between its ends.
            double best = double.PositiveInfinity;
            foreach (double corner in (ReadOnlySpan<double>)[1.55, 1.58])
            {
                double cy = (0.66 * Math.Cos(r)) - ((corner - 0.5) * Math.Sin(r)), cz = 0.5 + (0.66 * Math.Sin(r)) + ((corner - 0.5) * Math.Cos(r));
                double ay0 = -0.5 * Math.Sin(r);
                double lo = 0, hi = 0.8;
                for (int i = 0; i < 60; i++)
                {
                    double y = (lo + hi) / 2;
                    double ay = (y * Math.Cos(r)) + ay0, az = 0.5 + (y * Math.Sin(r)) + (0.5 * Math.Cos(r));
                    double at = ay + ((y - ay) * (cz - az) / (1.6 - az));
                    if (at < cy)
                        lo = y;
                    else
                        hi = y;
                }

                double azAt = 0.5 + (lo * Math.Sin(r)) + (0.5 * Math.Cos(r));
                if (cz > azAt && cz < 1.6)
                    best = Math.Min(best, lo);
            }

            return best;
        }
    }

    [Fact]
    public void Bands_AgreeWithDenseSamplingByAnIndependentDistance()
    {
        // Each room is sampled at 21 × 21 combinations of heave and roll.
        Rooms.SampleSame(3, space =>
        {
            var found = Find(space);
            foreach (var band in found.Bands)
            {
                // Inside, every sample keeps its clearance; a little outside each edge it is broken where the limit is said to be.
                foreach (double share in (ReadOnlySpan<double>)[0, 0.5, 1])
                    Assert.True(Sampled(space, band.Inner + (share * band.Width), 21) >= -Margin);
                if (band.InnerLimit is { } inner)
                    Assert.True(At(space, band.Inner - Step, inner.Heave, inner.Roll) < 0);
                if (band.OuterLimit is { } outer)
                    Assert.True(At(space, band.Outer + Step, outer.Heave, outer.Roll) < 0);
            }

            // Outside of all bands nothing fits; half a millimetre beside an edge an even grid may miss the worst combination.
            for (double y = 0.0605; y < 0.7; y += 0.008)
            {
                if (!found.Bands.Any(band => y >= band.Inner - 5e-4 && y <= band.Outer + 5e-4))
                    Assert.Contains(Grid(space, 21, (0.5, 0.5), 0.5), at => At(space, y, at.Heave, at.Roll) < 0);
            }
        });
    }

    [Fact]
    public void BandOfFourTenthsOfAMillimetre_OverTheWholeTravel_IsFound()
    {
        var space = Space(Articulated) with { SearchFrom = 0.4 };
        var wide = Find(space).On(RailSide.Outboard)!;
        Assert.True(wide.Width > 0.01);

        // Move the tyre in until 0.4 mm are left. It turns with the axle, so its face moves by cos(roll) of that: try, correct, confirm.
        const double Narrow = 4e-4;
        double inward = wide.Width - Narrow;
        for (int i = 0; i < 4; i++)
        {
            if (Find(WithTyreAt(space, 0.66 - inward)).On(RailSide.Outboard) is { } now)
                inward += now.Width - Narrow;
            else
                inward -= Narrow;
        }

        var narrow = Find(WithTyreAt(space, 0.66 - inward));
        var band = narrow.On(RailSide.Outboard)!;
        Assert.Equal(Narrow, band.Width, Edge);
        Assert.True(Sampled(narrow.Space, (band.Inner + band.Outer) / 2, 41) >= 0);
    }

    [Fact]
    public void ClosedSlot_AtRest_LacksExactlyWhatTheWallsTake()
    {
        // 70 mm of tube, 10 and 15 mm of clearance between faces 88.5 mm apart: 6.5 mm are missing, whichever wall moves.
        var found = Find(WithTyreAt(Space(Still), 0.42 + 0.0885));
        var shortfall = Assert.Single(found.Shortfalls);
        Assert.Equal(RailSide.Outboard, shortfall.Side);
        Assert.Equal(["frame rail", "tyre"], shortfall.Walls.Select(wall => wall.Wall).Order());
        Assert.All(shortfall.Walls, wall => Assert.Equal(0.0065, wall.Distance, Edge));
        Assert.Equal([WallDirection.Inboard, WallDirection.Outboard], shortfall.Walls.OrderBy(wall => wall.Wall, StringComparer.Ordinal).Select(wall => wall.Direction));
    }

    [Fact]
    public void ClosedSlot_WithAWallThatIsInTheWayInBumpOnly_NamesItToo()
    {
        // The spring seat moves with the axle. At ride height it stands beside the lower tube and leaves it room; only in full bump does it reach
        // the upper tube, which ends 500 mm above the road. By hand the upper tube needs y ≥ 0.42 + 0.010 + 0.035 = 0.465 m for the rail and
        // y ≤ 0.496 − 0.035 = 0.461 m for the seat: 4 mm are missing, whichever of the two moves.
        var space = Space(Still with { Bump = 0.05 }) with
        {
            KeepOuts = [new KeepOut { Name = "spring seat", MovesWithAxle = true, Inner = 0.496, Outer = 0.9, Bottom = 0.2, Top = 0.47, Clearance = 0 }],
        };

        var shortfall = Find(space).Shortfalls.Single(slot => slot.Side == RailSide.Outboard);

        Assert.Equal(["frame rail", "spring seat"], shortfall.Walls.Select(wall => wall.Wall).Order());
        Assert.All(shortfall.Walls, wall => Assert.Equal(0.004, wall.Distance, Edge));

        // Without bump the slot is open.
        Assert.NotNull(Find(space with { Travel = TravelEnvelope.All(Still) }).On(RailSide.Outboard));
    }

    [Fact]
    public void ClosedSlot_InRoll_OpensWhenItsWallGoesAsFarAsReported()
    {
        const double tyre = 0.53;
        var space = WithTyreAt(Space(Articulated), tyre) with { SearchFrom = 0.2 };
        var shortfall = Find(space).Shortfalls.Single(slot => slot.Side == RailSide.Outboard);
        double distance = shortfall.Walls.Single(wall => wall.Wall == "tyre").Distance;

        Assert.NotNull(Find(WithTyreAt(space, tyre + distance)).On(RailSide.Outboard));
        Assert.Null(Find(WithTyreAt(space, tyre + distance - Step)).On(RailSide.Outboard));

        // A wall 5 mm nearer must go 5 mm farther.
        var nearer = Find(WithTyreAt(space, tyre - 0.005)).Shortfalls.Single(slot => slot.Side == RailSide.Outboard);
        Assert.Equal(distance + 0.005, nearer.Walls.Single(wall => wall.Wall == "tyre").Distance, Edge);
    }

    [Fact]
    public void DamperLength_InRoll_LimitsHowFarOutItMaySit()
    {
        // Nothing stands around. Upright and with its axle end at the roll centre's height the length at full bump and roll is by
        // hand √((y − y cos r)² + (0.45 − bump − y sin r)²), and must not fall below the closed length.
        var space = Space(Articulated) with
        {
            SearchFrom = 0.2,
            RollCentreHeight = 0.3,
            Rail = null,
            KeepOuts = [],
            Damper = Space(Still).Damper with { ClosedLength = 0.32, ExtendedLength = 0.9 },
        };
        var band = Find(space).On(RailSide.Across)!;
        double y = band.Outer;
        double length = Math.Sqrt(Math.Pow(y - (y * Math.Cos(0.1)), 2) + Math.Pow(0.45 - 0.08 - (y * Math.Sin(0.1)), 2));
        Assert.Equal(0.32, length, Edge);
        Assert.Equal("the damper's closed length", band.OuterLimit!.Text);
        Assert.Equal(0.08, band.OuterLimit.Heave, 1e-12);
        Assert.Equal(0.1, band.OuterLimit.Roll, 1e-12);
    }

    [Fact]
    public void DamperLength_InRebound_LimitsHowFarOutItMaySit()
    {
        // As above at full rebound, with the wheel rolled down: √((y − y cos r)² + (0.45 + rebound + y sin r)²) must not exceed the extended length.
        var space = Space(Articulated) with
        {
            SearchFrom = 0.2,
            RollCentreHeight = 0.3,
            Rail = null,
            KeepOuts = [],
            Damper = Space(Still).Damper with { ClosedLength = 0.1, ExtendedLength = 0.59 },
        };
        var band = Find(space).On(RailSide.Across)!;
        double y = band.Outer;
        double length = Math.Sqrt(Math.Pow(y - (y * Math.Cos(0.1)), 2) + Math.Pow(0.45 + 0.09 + (y * Math.Sin(0.1)), 2));
        Assert.Equal(0.59, length, Edge);
        Assert.Equal("the damper's extended length", band.OuterLimit!.Text);
        Assert.Equal(-0.09, band.OuterLimit.Heave, 1e-12);
        Assert.Equal(-0.1, band.OuterLimit.Roll, 1e-12);
    }

    [Fact]
    public void Bushes_AtRest_TakeTheRoomOfDiscs()
    {
        // A bush of 90 mm at the body end, 0.75 m high, stands beside the tyre's side up to 0.80 m: its radius replaces that of the tube.
        var space = Space(Still) with
        {
            Damper = Space(Still).Damper with { UpperBush = 0.09 },
            KeepOuts = [Space(Still).KeepOuts[0] with { Top = 0.80 }],
        };
        var band = Find(space).On(RailSide.Outboard)!;
        Assert.Equal(0.66 - 0.015 - 0.045, band.Outer, Edge);
        Assert.Equal("upper bush to tyre", band.OuterLimit!.Text);

        // Above the rail, whose top is at 0.70 m, it hangs with its centre 50 mm higher: 10 mm of clearance and 45 mm of radius leave
        // √(55² − 50²) mm from the rail's side, less than the tube below takes.
        Assert.Equal(0.465, band.Inner, Edge);
    }

    [Theory] // A length or a clearance that is just met at every position neither ends the band nor makes the search creep along it.
    [InlineData(0)]
    [InlineData(1e-6)]
    [InlineData(-1e-6)]
    public void WhatIsJustMet_AtEveryPosition_IsKeptAndProvenForLongRangesAtOnce(double more)
    {
        // Without roll the length is the same at every position: 450 mm less 80 mm of bump is just the closed length. And the seat, whose top
        // moves with the axle 290 mm above the road, is just its clearance below the end of the lower tube.
        var space = Space(Articulated with { Roll = 0 }) with
        {
            SearchFrom = 0.05,
            SearchTo = 0.6,
            Rail = null,
            Damper = Space(Still).Damper with { ClosedLength = 0.45 - 0.08 - more, UpperDiameter = 1e-3, UpperLength = 1e-3 },
            Mounts = new DamperMounts { AxleEndHeight = 0.3, BodyEndHeight = 0.75, BodyEndForward = 0 },
            KeepOuts = [new KeepOut { Name = "seat", MovesWithAxle = true, Inner = 0, Outer = 0.9, Bottom = 0.1, Top = 0.29 - more, Clearance = 0.010 }],
        };

        Assert.Equal(FitCheck.Fit.Everywhere, FitCheck.OfDamper(space, TestContext.Current.CancellationToken).Judge(position: 0.325, half: 0.275));
        var band = Assert.Single(Find(space).Bands);
        Assert.Equal((0.05, 0.6), (band.Inner, band.Outer));
        Assert.Null(band.InnerLimit); // the search ends there, nothing stands in the way
        Assert.Null(band.OuterLimit);
    }

    [Fact]
    public void WhatIsJustMissed_AtEveryPosition_IsSettledForLongRangesAtOnce()
    {
        // A floor 0.05 mm too low for the upper bush, wherever the damper stands.
        var space = Space(Articulated) with
        {
            Damper = Space(Still).Damper with { UpperBush = 0.04 },
            KeepOuts = [new KeepOut { Name = "floor", MovesWithAxle = false, Inner = 0, Outer = 0.9, Bottom = 0.75 + 0.02 + 0.01 - 5e-5, Top = 1, Clearance = 0.010 }],
        };

        Assert.Equal(FitCheck.Fit.Nowhere, FitCheck.OfDamper(space, TestContext.Current.CancellationToken).Judge(position: 0.325, half: 0.275));
    }

    [Fact] // A floor 5 mm too low for the upper bush need not go sideways until it is out of the way.
    public void ClosedSlot_UnderAFloor_OpensWhenTheFloorGoesUp()
    {
        var space = Space(Articulated) with
        {
            SearchFrom = 0.2,
            Damper = Space(Still).Damper with { UpperBush = 0.04 },
            KeepOuts = [new KeepOut { Name = "floor", MovesWithAxle = false, Inner = -0.9, Outer = 0.9, Bottom = 0.75 + 0.02 + 0.01 - 0.005, Top = 1, Clearance = 0.010 }],
        };

        var wall = Assert.Single(Find(space).Shortfalls.Single(slot => slot.Side == RailSide.Outboard).Walls);

        Assert.Equal(("floor", WallDirection.Up), (wall.Wall, wall.Direction));
        Assert.Equal(0.005, wall.Distance, Edge);
    }

    [Fact]
    public void ClosedSlot_ClosestPosition_IsTheBestAndNotOnlyTheBestOfASample()
    {
        // 70 mm of tube between faces 88.7 mm apart that ask for 25 mm: by hand 6.3 mm are missing. Both sides lack the same, 3.15 mm, at
        // 0.42 + 0.010 + 0.035 − 0.00315 = 0.46185 m; of the tenths of a millimetre beside it either lacks 3.2 mm.
        var found = Find(WithTyreAt(Space(Still), 0.42 + 0.0887));

        var shortfall = Assert.Single(found.Shortfalls);
        Assert.Equal(0.46185, shortfall.Position, (Step / 2) + 1e-9);
        Assert.Equal(-0.0032, shortfall.Worst.Margin, 1e-9);
    }

    [Theory] // Between full rebound, rest and full bump: at 33 mm of heave the lower bush passes the corners of a plate of no height.
    [InlineData(0.010)]
    [InlineData(0.0)]
    public void PlateThatTheBushPassesOnItsWay_LimitsTheBand(double clearance)
    {
        var space = Space(Still with { Bump = 0.08, Rebound = 0.09 }) with
        {
            SearchFrom = 0.05,
            Rail = null,
            Damper = Space(Still).Damper with { UpperDiameter = 1e-6, LowerDiameter = 1e-6, LowerBush = 0.05 },
            KeepOuts = [new KeepOut { Name = "plate", MovesWithAxle = false, Inner = 0.4, Outer = 0.8, Bottom = 0.333, Top = 0.333, Clearance = clearance }],
        };

        var band = Assert.Single(Find(space).Bands);

        Assert.Equal(0.4 - 0.025 - clearance, band.Outer, Edge);
        Assert.Equal("lower bush to plate", band.OuterLimit!.Text);
        Assert.Equal(0.033, band.OuterLimit.Heave, 2e-3); // a tenth of a millimetre farther out it is met within √(2 · 35 · 0.1) mm of that height
    }

    [Fact]
    public void EdgesOfBands_AreWhereAFinerGridFindsThemToo()
    {
        // 31 × 31 combinations, and as many again between the neighbours of the worst.
        Rooms.SampleSame(3, space =>
        {
            foreach (var band in Find(space).Bands)
            {
                foreach (double edge in (ReadOnlySpan<double>)[band.Inner, band.Outer])
                    Assert.True(SampledAgain(space, edge) >= -Margin);
                if (band.OuterLimit is { } outer)
                    Assert.Equal(SampledAgain(space, band.Outer + Step), outer.Margin, Margin);
                if (band.InnerLimit is { } inner)
                    Assert.Equal(SampledAgain(space, band.Inner - Step), inner.Margin, Margin);
            }
        });
    }

    [Fact]
    public void WallMovedAsFarAsReported_OpensTheSlot_AndByTwoTenthsLessDoesNot()
    {
        // The tyre of each room comes so far in that nothing fits outboard of the rail. A move may be a tenth more than is needed.
        Rooms.SampleSame(2, room =>
        {
            var space = room with { KeepOuts = room.KeepOuts.Replace(room.KeepOuts[0], room.KeepOuts[0] with { Inner = room.Rail!.Outer + 0.04 }) };
            var slot = Find(space).Shortfalls.Single(shortfall => shortfall.Side == RailSide.Outboard);
            Assert.NotEmpty(slot.Walls);
            foreach (var move in slot.Walls)
            {
                var wall = space.AllKeepOuts.Single(keepOut => keepOut.Name == move.Wall);
                Assert.True(IsOpen(wall.Moved(move.Distance, move.Direction)));
                Assert.False(IsOpen(wall.Moved(move.Distance - (2 * Step), move.Direction)));

                bool IsOpen(KeepOut moved)
                {
                    var changed = wall == space.Rail ? space with { Rail = moved } : space with { KeepOuts = space.KeepOuts.Replace(wall, moved) };
                    return BandSearch.Bands(changed, TestContext.Current.CancellationToken).Any(band => band.Side != RailSide.Inboard);
                }
            }
        });
    }

    [Fact]
    public void Find_IsStopped() =>
        Assert.ThrowsAny<OperationCanceledException>(() => BandSearch.Find(Space(Articulated), new CancellationToken(canceled: true)));

    [Fact]
    public void DamperInclinedForeAndAft_TakesNoLessRoomThanItsRearView()
    {
        // The rectangle around the foreshortened tube and its elliptic end is as wide as the tube: at rest the side limits stay.
        var space = Space(Still) with { Mounts = new DamperMounts { AxleEndHeight = 0.3, BodyEndHeight = 0.75, BodyEndForward = 0.1 } };
        var band = Find(space).On(RailSide.Outboard)!;
        Assert.Equal(0.465, band.Inner, Edge);
        Assert.Equal(0.610, band.Outer, Edge);
    }

    [Fact]
    public void Contradictions_AreRefusedWithTheirMillimetres()
    {
        var space = Space(Still);
        var lengths = Assert.Throws<ArgumentException>(() => Find(space with { Damper = space.Damper with { ClosedLength = 0.7 } }));
        Assert.Contains("closed length (700 mm) must be less than its extended length (600 mm)", lengths.Message, StringComparison.Ordinal);
        var faces = Assert.Throws<ArgumentException>(() => Find(space with { Rail = space.Rail! with { Outer = 0.3 } }));
        Assert.Contains("outer face of “frame rail” (300 mm) lies inboard of its inner face (360 mm)", faces.Message, StringComparison.Ordinal);
        Assert.Contains("closed length (600 mm) must be less than its extended length (600 mm)", Refusal(space with { Damper = space.Damper with { ClosedLength = 0.6 } }), StringComparison.Ordinal);
        Assert.Contains("must end (700 mm) outboard of where it begins (700 mm)", Refusal(space with { SearchFrom = 0.7 }), StringComparison.Ordinal);
        Assert.Contains("top of “frame rail” (500 mm) lies below its bottom (550 mm)", Refusal(space with { Rail = space.Rail! with { Top = 0.5 } }), StringComparison.Ordinal);
        Assert.Contains("body end (300 mm high) must lie above its axle end (300 mm)", Refusal(space with { Mounts = space.Mounts with { BodyEndHeight = 0.3 } }), StringComparison.Ordinal);

        static string Refusal(PackagingSpace contradictory) => Assert.Throws<ArgumentException>(() => Find(contradictory)).Message;
    }

    private static PackagingSpace WithTyreAt(PackagingSpace space, double inner) =>
        space with { KeepOuts = [space.KeepOuts[0] with { Inner = inner, Outer = inner + 0.24 }] };

    /// <summary>The least margin over an even grid of heave and roll, with distances between polygons from their edges, pair by pair.</summary>
    private static double Sampled(PackagingSpace space, double y, int points) => Sampled(space, y, points, (0.5, 0.5), 0.5).Margin;

    /// <summary>The same, and once more around the worst.</summary>
    private static double SampledAgain(PackagingSpace space, double y)
    {
        const int Points = 31;
        var (margin, worst) = Sampled(space, y, Points, (0.5, 0.5), 0.5);
        return Math.Min(margin, Sampled(space, y, Points, worst, 1.0 / (Points - 1)).Margin);
    }

    /// <summary>The least margin and where it is; heave and roll as shares of the way from one end of the travel to the other.</summary>
    private static (double Margin, (double Heave, double Roll) At) Sampled(PackagingSpace space, double y, int points, (double Heave, double Roll) middle, double half)
    {
        (double Margin, (double, double)) least = (double.PositiveInfinity, (0, 0));
        foreach (var (share, heave, roll) in Grid(space, points, middle, half))
        {
            double margin = At(space, y, heave, roll);
            if (margin < least.Margin)
                least = (margin, share);
        }

        return least;
    }

    /// <summary>Combinations of heave and roll, and both as shares of the way from one end of the travel to the other.</summary>
    private static IEnumerable<((double Heave, double Roll) Share, double Heave, double Roll)> Grid(PackagingSpace space, int points, (double Heave, double Roll) middle, double half)
    {
        for (int i = 0; i < points; i++)
        {
            for (int j = 0; j < points; j++)
            {
                double heave = Math.Clamp(middle.Heave + (half * ((2.0 * i / (points - 1)) - 1)), 0, 1), roll = Math.Clamp(middle.Roll + (half * ((2.0 * j / (points - 1)) - 1)), 0, 1);
                double q = -space.Travel.Range.Rebound + ((space.Travel.Range.Bump + space.Travel.Range.Rebound) * heave);
                yield return ((heave, roll), q, space.Travel.RollAt(q) * ((2 * roll) - 1));
            }
        }
    }

    /// <summary>The least margin at one combination of heave and roll.</summary>
    private static double At(PackagingSpace space, double y, double q, double r)
    {
        var (parts, length) = Damper(space, y, q, r);
        var (others, _) = Damper(space, y, q, -r);
        double least = Math.Min(length - space.Damper.ClosedLength!.Value, space.Damper.ExtendedLength!.Value - length);
        foreach (var keepOut in space.Rail is { } rail ? space.KeepOuts.Add(rail) : space.KeepOuts)
        {
            (double Y, double Z)[] corners = [(keepOut.Inner, keepOut.Bottom), (keepOut.Outer, keepOut.Bottom), (keepOut.Outer, keepOut.Top), (keepOut.Inner, keepOut.Top)];
            if (keepOut.MovesWithAxle)
                corners = [.. corners.Select(c => OnAxle(space, c, q, r))];
            foreach (var (part, radius) in parts)
                least = Math.Min(least, Distance(part, corners) - radius - keepOut.Clearance);
        }

        foreach (var (part, radius) in parts)
        {
            foreach (var (other, otherRadius) in others)
                least = Math.Min(least, Distance(part, [.. other.Select(c => (-c.Y, c.Z))]) - radius - otherRadius - space.ClearanceBetweenDampers);
        }

        return least;
    }

    private static (double Y, double Z) OnAxle(PackagingSpace space, (double Y, double Z) p, double q, double r)
    {
        double zeta = p.Z - space.RollCentreHeight;
        return ((p.Y * Math.Cos(r)) - (zeta * Math.Sin(r)), space.RollCentreHeight + q + (p.Y * Math.Sin(r)) + (zeta * Math.Cos(r)));
    }

    /// <summary>
    /// Tubes, rod and bushes in the rear view, each a polygon and a radius around it. A tube is a cylinder in space: in the rear view it
    /// reaches along a direction as far as its axis does and, at its ends, the support of a disc, <c>radius·√(1 − (d·axis)²)</c>.
    /// </summary>
    private static (((double Y, double Z)[] Polygon, double Radius)[] Parts, double Length) Damper(PackagingSpace space, double y, double q, double r)
    {
        var (damper, mounts) = (space.Damper, space.Mounts);
        var axle = OnAxle(space, (y, mounts.AxleEndHeight), q, r);
        (double Y, double Z) body = (y + mounts.BodyEndOutboard, mounts.BodyEndHeight);
        double x = mounts.AxleEndForward - mounts.BodyEndForward;
        double length = Math.Sqrt((x * x) + Math.Pow(axle.Y - body.Y, 2) + Math.Pow(axle.Z - body.Z, 2));
        (double Y, double Z) axis = ((axle.Y - body.Y) / length, (axle.Z - body.Z) / length);
        double inView = Math.Sqrt((axis.Y * axis.Y) + (axis.Z * axis.Z));
        (double Y, double Z) t = (axis.Y / inView, axis.Z / inView);
        (double Y, double Z)[] Tube((double Y, double Z) from, double sign, double tube, double radius)
        {
            double disc = radius * Math.Sqrt(Math.Max(0, 1 - (inView * inView)));
            (double near, double far) = (sign * -disc, sign * ((tube * inView) + disc));
            (double Y, double Z) At(double along, double across) => (from.Y + (along * t.Y) - (across * t.Z), from.Z + (along * t.Z) + (across * t.Y));
            return [At(near, radius), At(near, -radius), At(far, -radius), At(far, radius)];
        }

        return (
            [
                (Tube(body, 1, damper.UpperLength, damper.UpperDiameter / 2), 0), (Tube(axle, -1, damper.LowerLength, damper.LowerDiameter / 2), 0), ([axle, body], 0),
                ([body], damper.UpperBush / 2), ([axle], damper.LowerBush / 2),
            ],
            length);
    }

    /// <summary>Distance of two polygons: the least between a corner of one and an edge of the other; negative where they meet.</summary>
    private static double Distance((double Y, double Z)[] a, (double Y, double Z)[] b)
    {
        double least = double.PositiveInfinity;
        if ((a.Length == 1 && IsInside(a[0], b)) || (b.Length == 1 && IsInside(b[0], a)))
            return -1;
        for (int i = 0; i < a.Length; i++)
        {
            for (int j = 0; j < b.Length; j++)
            {
                var (a0, a1, b0, b1) = (a[i], a[(i + 1) % a.Length], b[j], b[(j + 1) % b.Length]);
                if (Cross(a0, a1, b0) * Cross(a0, a1, b1) < 0 && Cross(b0, b1, a0) * Cross(b0, b1, a1) < 0)
                    return -1;
                least = Math.Min(least, Math.Min(ToSegment(a0, b0, b1), ToSegment(b0, a0, a1)));
            }
        }

        return least;
    }

    /// <summary>Whether a point lies inside a convex polygon: on the same side of all its edges.</summary>
    private static bool IsInside((double Y, double Z) p, (double Y, double Z)[] polygon)
    {
        if (polygon.Length < 3)
            return false;
        var sides = polygon.Select((corner, i) => Math.Sign(Cross(corner, polygon[(i + 1) % polygon.Length], p))).Distinct().ToArray();
        return sides.Length == 1;
    }

    private static double Cross((double Y, double Z) o, (double Y, double Z) a, (double Y, double Z) b) => ((a.Y - o.Y) * (b.Z - o.Z)) - ((a.Z - o.Z) * (b.Y - o.Y));

    private static double ToSegment((double Y, double Z) p, (double Y, double Z) a, (double Y, double Z) b)
    {
        double y = b.Y - a.Y, z = b.Z - a.Z;
        double square = (y * y) + (z * z);
        double share = square == 0 ? 0 : Math.Clamp((((p.Y - a.Y) * y) + ((p.Z - a.Z) * z)) / square, 0, 1);
        return Math.Sqrt(Math.Pow(p.Y - a.Y - (share * y), 2) + Math.Pow(p.Z - a.Z - (share * z), 2));
    }
}
