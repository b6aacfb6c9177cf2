using RollRide.Findings;
using RollRide.Mounting;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Tests.Scenarios;
using RollRide.Vehicle;

namespace RollRide.Tests.Studies;

public sealed class MountsStudyTests
{
    private static readonly StudyCase Case = ScenarioReader.Read(Shipped.PathOf("scenarios", "placement.json")).Study;

    [Fact]
    public void Reserve_of_an_upright_damper_is_stroke_less_bump_and_roll()
    {
        // Upright at 0.6 m with the axle end at the roll centre's height: at full bump and roll its length is by hand
        // √((y − y cos r)² + (L − bump − y sin r)²).
        var fitting = new LiveAxleMountFitting(new(0, 0.6, 0.5), new(0, 0.6, 0.97), 0.5, Case.Vehicle.HalfTrack);
        var layout = Case.Layouts[0] with { Fitting = fitting, CompressionTravel = 0.47 - 0.33, ReboundTravel = 0.57 - 0.47 };
        var travel = Case.Vehicle.Travel!;

        var mounts = Assert.Single(MountsStudy.Run(Case with { Layouts = [layout] }).Layouts);

        double shortest = Math.Sqrt(Math.Pow(0.6 * (1 - Math.Cos(travel.Roll)), 2) + Math.Pow(0.47 - travel.Bump - (0.6 * Math.Sin(travel.Roll)), 2));
        Assert.Equal(shortest - 0.33, mounts.ClosedReserve!.Value, 1e-12); // rounding of lengths below 1 m
        Assert.Equal(travel.Bump, mounts.Shortest.Heave, 1e-12);
        Assert.Equal(travel.Roll, mounts.Shortest.Roll, 1e-12);
        Assert.Null(mounts.OverCentre);
    }

    [Fact] // The right damper is that of a layout with it on both sides, seen in the mirror: its lengths are the same, at the opposite roll.
    public void Dampers_that_do_not_mirror_each_other_are_shown_each_for_itself()
    {
        var (here, there) = (new LiveAxleMountFitting(new(0, 0.6, 0.5), new(0, 0.58, 0.97), 0.5, Case.Vehicle.HalfTrack), new LiveAxleMountFitting(new(0, 0.4, 0.5), new(0, 0.34, 0.99), 0.5, Case.Vehicle.HalfTrack));
        var layout = Case.Layouts[0] with { Name = "Apart", Fitting = here, CompressionTravel = 0.14, ReboundTravel = 0.1 };
        var right = layout.On(Side.Left) with { Fitting = there, CompressionTravel = 0.15, ReboundTravel = 0.09 };
        var both = MountsStudy.Run(Case with { Layouts = [layout with { RightSide = right }] }).Layouts;
        var alone = new[] { layout, layout.With(right, null) }.Select(one => Assert.Single(MountsStudy.Run(Case with { Layouts = [one] }).Layouts)).ToArray();
        Assert.Equal(["Apart, left", "Apart, right"], both.Select(mounts => mounts.Name));
        Assert.Equal(alone.Select(mounts => (mounts.ClosedReserve, mounts.ExtendedReserve, mounts.Length)), both.Select(mounts => (mounts.ClosedReserve, mounts.ExtendedReserve, mounts.Length)));
        Assert.Equal(alone[1].InHeave, both[1].InHeave);
        Assert.Equal(alone[0].InRoll, both[0].InRoll);
        Assert.Equal((alone[1].Shortest.Heave, alone[1].Shortest.Roll), (both[1].Shortest.Heave, -both[1].Shortest.Roll));
        Assert.All(alone[1].InRoll.Reverse().Zip(both[1].InRoll), pair =>
        {
            // The steps of roll round differently from either end.
            Assert.Equal(-pair.First.Roll, pair.Second.Roll, 1e-15);
            Assert.Equal(pair.First.RollRatio, pair.Second.RollRatio, 1e-14);
            Assert.Equal(pair.First.Compression, pair.Second.Compression, 1e-14);
        });
    }

    [Fact]
    public void Damper_whose_ends_pass_each_other_goes_over_centre_where_they_are_level()
    {
        // The axle end starts 30 mm under the body end, 0.2 m beside it: level at 30 mm of bump.
        var fitting = new LiveAxleMountFitting(new(0, 0.6, 0.5), new(0, 0.4, 0.53), 0.5, Case.Vehicle.HalfTrack);
        var mounts = Assert.Single(MountsStudy.Run(Case with { Layouts = [Case.Layouts[0] with { Fitting = fitting }] }).Layouts);
        Assert.Equal(0.03, mounts.OverCentre!.Value, 1e-6);
    }

    [Fact]
    public void Travel_without_a_given_one_ends_where_the_stops_touch()
    {
        // In roll a stop at the ratio 0.62 of the half-track touches when it has moved by its own clearance, not when the wheel has.
        var vehicle = WithStops(0.62);
        var travel = vehicle.Envelope!.Range;
        Assert.Equal(0.07, travel.Bump, 1e-8); // the accuracy of the root
        Assert.Equal(0.09, travel.Rebound, 1e-8);
        Assert.Equal(0.07 / (0.62 * vehicle.HalfTrack), travel.Roll, 1e-8);
        Assert.Null((vehicle with { BumpStop = null }).Envelope);
        Assert.Null(WithStops(0).Envelope); // no roll reaches stops at the centre
    }

    [Fact]
    public void Stop_touching_at_rest_leaves_only_the_travel_away_from_it()
    {
        var vehicle = WithStops(0.62);
        var travel = (vehicle with { BumpStop = vehicle.BumpStop! with { Clearance = -0.01 } }).Envelope!.Range;
        Assert.Equal(0, travel.Bump);
        Assert.Equal(0.09, travel.Rebound, 1e-8);
        Assert.Equal(0, travel.Roll);
    }

    [Fact]
    public void Heave_and_roll_combine_only_as_far_as_no_stop_is_past_its_contact()
    {
        // With bump and rebound clearances b, d and the stops' ratios 1 and Rs, what is free is |Rs T r| ≤ min(b − q, d + q): a rhombus.
        // A damper at the ratios 1 and Rr moves most in one of its corners: (b, 0) or ((b − d)/2, ±(b + d)/2).
        const double Rs = 0.62, Rr = 0.77, b = 0.07, d = 0.09;
        var vehicle = WithStops(Rs);
        var layout = Case.Layouts[0] with { Fitting = new FixedRatioFitting(1, Rr, vehicle.HalfTrack), CompressionTravel = 0.12, ReboundTravel = 0.12 };

        var mounts = Assert.Single(MountsStudy.Run(Case with { Vehicle = vehicle, Layouts = [layout] }).Layouts);

        double most = Math.Max(b, ((b - d) / 2) + (Rr / Rs * (b + d) / 2)), least = Math.Min(-d, ((b - d) / 2) - (Rr / Rs * (b + d) / 2));
        Assert.Equal(most, mounts.Shortest.Compression, 1e-8); // the accuracy of the root
        Assert.Equal(least, mounts.Longest.Compression, 1e-8);
        Assert.Equal(0.12 - most, mounts.ClosedReserve!.Value, 1e-8);
    }

    private static HalfCar WithStops(double rollRatio)
    {
        var fitting = new FixedRatioFitting(1, rollRatio, Case.Vehicle.HalfTrack);
        return Case.Vehicle with
        {
            Travel = null,
            BumpStop = new TravelStop { Clearance = 0.07, Stiffness = 1e5, Fitting = fitting },
            ReboundStop = new TravelStop { Clearance = 0.09, Stiffness = 1e5, Fitting = fitting },
        };
    }

    [Fact]
    public void Linkage_that_cannot_reach_the_travel_is_a_failure_that_says_so()
    {
        // Ratios alone reach anywhere; the wheel on its arm of 0.4 m does not rise by 0.9 m.
        var linkage = new TrailingArm(new(0.4, 0.3, 0.31), new(0.4, 0.7, 0.31), 0.31, Case.Vehicle.HalfTrack);
        var far = Case with
        {
            Vehicle = Case.Vehicle with { Linkage = linkage, Travel = new TravelRange { Bump = 0.9, Rebound = 0.05, Roll = 0 } },
            Layouts = [Case.Layouts[0] with { Fitting = new FixedRatioFitting(1, 0.5, Case.Vehicle.HalfTrack) }],
        };
        Assert.StartsWith("Linkage: ", Assert.Throws<StudyException>(() => MountsStudy.Run(far)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Conclusions_quote_layouts_and_say_of_independent_wheels_that_heave_goes_with_the_square_too()
    {
        var layouts = Case.Layouts.Take(1).Select(layout => layout with { Name = "Further out, standard", Fitting = new FixedRatioFitting(0.7, 0.7, Case.Vehicle.HalfTrack) }).ToArray();
        string Last(Suspension kind) => MountsConclusions.Of(MountsStudy.Run(Case with
        {
            Vehicle = Case.Vehicle with { Suspension = kind, Unsprung = Case.Vehicle.Unsprung with { AxleRollInertia = kind.HasAxle ? Case.Vehicle.Unsprung.AxleRollInertia : null } },
            Layouts = [.. layouts],
        }))[^1];

        Assert.Equal("In roll the dampers see 0.70 of the wheel travel with “Further out, standard”; roll damping scales with the square.", Last(new LiveAxleSuspension()));
        Assert.Equal("In heave and in roll the dampers see 0.70 of the wheel travel with “Further out, standard”; damping of both scales with the square.", Last(new IndependentSuspension()));
    }
}
