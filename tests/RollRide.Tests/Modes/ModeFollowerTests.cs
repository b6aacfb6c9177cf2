using RollRide.Damping;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;

namespace RollRide.Tests.Modes;

public sealed class ModeFollowerTests
{
    // The rows give nine digits; their last one is rounded.
    private const double RowTolerance = 1e-8;

    // Barton & Fieldhouse, Automotive Chassis Engineering, Springer 2018, p. 209, eq. 3.81-3.84, as the heave half of a
    // symmetric half car. Its printed 7.87 rad/s is a slip of the source (4786 for 4782.948); the recomputed values stand here.
    // Data from memory of Jazar, Vehicle Dynamics, quarter-car chapter; frequencies derived.
    [Theory]
    [InlineData(317.5, 45.4, 22e3, 192e3, 1.253923532, 10.93531696)]
    [InlineData(375, 75, 35e3, 193e3, 1.411242671, 8.796400096)]
    public void Undamped_heave_and_hop_are_those_of_the_quarter_car(double ms, double mu, double ks, double kt, double heave, double hop)
    {
        var modes = Solve(ReferenceCars.HalfCar(2 * ms, 250, 0.75, mu, ks, kt, 0, 0), 0);

        var (id, source) = ms == 375
            ? ("quarter car after Jazar", Evidence.Derived + "quarter car with the data of Jazar, Vehicle Dynamics (remembered)")
            : ("quarter car of the book", Evidence.Derived + "the example of Barton and Fieldhouse, Automotive Chassis Engineering, Springer 2018, p. 209, recomputed");
        Validation.Row($"{id}, heave", "undamped natural frequency of heave, Hz", source, heave, modes.Heave.NaturalFrequency, RowTolerance * heave);
        Validation.Row($"{id}, hop", "undamped natural frequency of hop, Hz", source, hop, modes.Hop.NaturalFrequency, RowTolerance * hop);
        Assert.Equal(0, modes.Heave.DampingRatio);
        Assert.Equal(0, modes.Tramp.DampingRatio);
        Assert.Equal(modes.Heave.NaturalFrequency, modes.Heave.DampedFrequency);
    }

    [Fact] // Amplitude ratios zu/zs: same source.
    public void Undamped_shapes_have_the_quarter_cars_amplitude_ratio()
    {
        var modes = Solve(ReferenceCars.HalfCar(635, 250, 0.75, 45.4, 22e3, 192e3, 0, 0), 0);

        const string Source = Evidence.Derived + "the example of Barton and Fieldhouse, Automotive Chassis Engineering, Springer 2018, p. 209, recomputed";
        Validation.Row("quarter car of the book", "wheel over body in heave", Source, 0.1041756, (modes.Heave.Shape[2] / modes.Heave.Shape[0]).Real, 1e-7);
        const string book = Evidence.Printed + "Barton and Fieldhouse, Automotive Chassis Engineering, Springer 2018, p. 209";
        Validation.Row("quarter car of the book, heave", "natural frequency, Hz", book, 1.25, modes.Heave.NaturalFrequency, 0.005);
        Validation.Row("quarter car of the book, hop", "natural frequency, Hz", book, 10.9, modes.Hop.NaturalFrequency, 0.05);
        Validation.Row("quarter car of the book, heave", "wheel over body", book, 0.104, (modes.Heave.Shape[2] / modes.Heave.Shape[0]).Real, 5e-4);
        Validation.Row("quarter car of the book", "wheel over body in hop", Source, -67.130808, (modes.Hop.Shape[2] / modes.Hop.Shape[0]).Real, 6.7e-6);
    }

    [Fact] // Same source p. 213: body held (here: a body a million times as heavy), 14.25 Hz.
    public void Hop_with_the_body_held_is_that_of_the_wheel_between_tyre_and_spring()
    {
        var modes = Solve(ReferenceCars.HalfCar(8e7, 3e7, 0.75, 40, 20.63e3, 300e3, 0, 0), 0);

        // The body's share in the motion shifts the frequency by mu/ms × (ks/(ks+kt))² / 2 < 1e-8.
        Validation.Row("quarter car of the book, as printed", "natural frequency of hop with the body held, Hz",
            Evidence.Printed + "Barton and Fieldhouse, Automotive Chassis Engineering, Springer 2018, p. 213", 14.25, modes.Hop.NaturalFrequency, 0.005);
        Validation.Row("quarter car of the book", "natural frequency of hop with the body held, Hz", Evidence.Derived + "the example of Barton and Fieldhouse 2018, p. 213 (14.25 printed), recomputed", 14.24925680, modes.Hop.NaturalFrequency, 1e-7 * 14.25);
    }

    [Fact] // Same page: a car of 1140 kg, 42 % on the front axle; where m A ω² is the static load of a wheel it leaves the road.
    public void Hop_with_the_body_held_lifts_the_wheel_at_the_amplitude_of_its_static_load()
    {
        var hop = 2 * Math.PI * Solve(ReferenceCars.HalfCar(8e7, 3e7, 0.75, 40, 20.63e3, 300e3, 0, 0), 0).Hop.NaturalFrequency;
        var axle = ReferenceCars.HalfCar((0.42 * 1140) - 80, 250, 0.75, 40, 20.63e3, 300e3, 0, 0).Vehicle with { Gravity = 9.81 };

        Validation.Row("quarter car of the book", "static load of a wheel, N", Evidence.Printed + "Barton and Fieldhouse, Automotive Chassis Engineering, Springer 2018, p. 213", 2349, axle.StaticTyreLoad, 0.5);
        Near(2348.514, axle.StaticTyreLoad, 1e-6); // Recomputed, seven digits.
        Validation.Row("quarter car of the book", "amplitude of hop at which the wheel leaves the road, m", Evidence.Derived + "the same example: W/(m ω²)", 7.324686e-3, axle.StaticTyreLoad / (40 * hop * hop), 3e-9);
    }

    // J. Y. Wong, Theory of Ground Vehicles, ch. 7 example (from memory; its lower frequency, 5.58 rad/s, is sure, the rest
    // derived). The even car is an exercise without printed answers, derived. Frequencies and the node: bounce over pitch, m.
    [Theory]
    [InlineData("long car", 0.8886273, 1.0378565, -2.0953305, 0.8442105)]
    [InlineData("even car", 1.06549984, 1.63031882, -17.308143, 0.052143)]
    public void Body_on_rigid_tyres_has_two_modes_about_two_nodes(string id, double lower, double upper, double lowerNode, double upperNode)
    {
        var modes = ModeFollower.Solve(AsymmetricCars.Of(id).Linear, 0);

        // What is left of the tyre: k/kt = 4e-5, half of it in the frequency, some of it in the node (and half its last digit).
        const string Derived = Evidence.Derived + "body on rigid tyres, two degrees of freedom";
        Validation.Row($"{id}, lower", "lower natural frequency of a body on two unlike springs, Hz", Derived, lower, modes.Heave.NaturalFrequency, 4e-5 * lower);
        Validation.Row($"{id}, upper", "upper natural frequency of a body on two unlike springs, Hz", Derived, upper, modes.Roll.NaturalFrequency, 4e-5 * upper);
        Validation.Row($"{id}, lower node", "place of the lower mode's node, m", Derived, lowerNode, (modes.Heave.Shape[0] / modes.Heave.Shape[1]).Real, 2e-4 * Math.Abs(lowerNode));
        Validation.Row($"{id}, upper node", "place of the upper mode's node, m", Derived, upperNode, (modes.Roll.Shape[0] / modes.Roll.Shape[1]).Real, 2e-4 * upperNode);
        if (id == "long car")
            Validation.Row("long car", "lower natural frequency, rad/s", Evidence.Remembered + "Wong, Theory of Ground Vehicles, ch. 7, example", 5.58, 2 * Math.PI * modes.Heave.NaturalFrequency, 0.005);
    }

    [Fact] // Derived from the parameters of the reference quarter car of the roughness index (Sayers 1995), per unit mass.
    public void Damped_heave_and_hop_are_those_of_the_reference_quarter_car()
    {
        var modes = Solve(ReferenceCars.HalfCar(2, 1, 0.75, 0.15, 63.3, 653, 6, 0), 6);

        const string Source = Evidence.Derived + "the reference quarter car of the roughness index (Sayers 1995)";
        Validation.Row("reference quarter car", "natural frequency of heave, Hz", Source, 1.236303381, modes.Heave.NaturalFrequency, RowTolerance * 1.24);
        Validation.Row("reference quarter car", "natural frequency of hop, Hz", Source, 10.75543605, modes.Hop.NaturalFrequency, RowTolerance * 10.8);
        Validation.Row("reference quarter car", "damping ratio of heave", Source, 0.333431949, modes.Heave.DampingRatio, RowTolerance * 0.33);
        Validation.Row("reference quarter car", "damping ratio of hop", Source, 0.302018498, modes.Hop.DampingRatio, RowTolerance * 0.30);
    }

    // Derived: two quarter cars, heave/hop and roll/tramp. Order of the numbers: heave, roll, hop, tramp.
    [Theory]
    [InlineData("car A", 635, 250, 0.75, 45.4, 22e3, 192e3, 1500, 0, "1.27202176 1.53031011 10.77973011 10.71028678", "0.24295304 0.29150144 0.25011077 0.25398684")]
    [InlineData("car B", 635, 250, 0.75, 45.4, 22e3, 192e3, 1500, 8000, "1.27202176 1.72729131 10.77973011 10.91523300", "0.24295304 0.23970458 0.25011077 0.25215402")]
    [InlineData("car C", 750, 300, 0.70, 75, 35e3, 193e3, 2000, 12000, "1.43789877 1.79924142 8.63333042 8.87214668", "0.21496807 0.18656795 0.25915570 0.25994738")]
    public void Symmetric_half_car_is_two_quarter_cars(
        string id, double mass, double inertia, double b, double mu, double ks, double kt, double c, double bar, string frequencies, string ratios)
    {
        var modes = Solve(ReferenceCars.HalfCar(mass, inertia, b, mu, ks, kt, c, bar), c);

        const string Source = Evidence.Derived + "quarter cars in heave and hop, in roll and tramp";
        RowsOf(id, "symmetric half car: natural frequency, Hz", Source, Numbers(frequencies), modes.All, mode => mode.NaturalFrequency);
        RowsOf(id, "symmetric half car: damping ratio", Source, Numbers(ratios), modes.All, mode => mode.DampingRatio);
    }

    [Fact] // Derived.
    public void Anti_roll_bar_leaves_heave_and_hop_exactly_alone()
    {
        var without = Solve(ReferenceCars.Mod10, 1500);
        var with = Solve(ReferenceCars.HalfCar(635, 250, 0.75, 45.4, 22e3, 192e3, 1500, 8000), 1500);

        Assert.Equal(without.Heave.Eigenvalue, with.Heave.Eigenvalue);
        Assert.Equal(without.Hop.Eigenvalue, with.Hop.Eigenvalue);
        Assert.True(with.Roll.NaturalFrequency > without.Roll.NaturalFrequency);
    }

    // Derived. |λ| in rad/s; order heave, roll, hop, tramp.
    [Theory]
    [InlineData("axle A", "1.234694105 1.179529026 8.486331535 10.782108486", "7.916583171 7.437157210 52.251808546 67.509533126", "0.240740355 0.122797157 0.277177925 0.128118768")]
    [InlineData("axle B", "1.234694105 1.179529026 8.486331535 10.782108486", "7.916583171 7.571941660 52.251808546 66.307828769", "0.240740355 0.301376347 0.277177925 0.314546339")]
    [InlineData("axle C", "1.372125784 0.983946560 10.191231749 13.815448727", "8.854207130 6.196625661 62.349167958 86.604604504", "0.284904203 0.156603136 0.331867859 0.102858145")]
    public void Live_axle_is_a_quarter_car_in_heave_and_one_in_roll(string id, string undamped, string damped, string ratios)
    {
        var row = id switch
        {
            "axle A" => ReferenceCars.Mod20,
            "axle B" => ReferenceCars.Mod20 with { DamperPosition = 0.70 },
            _ => ReferenceCars.Mod22,
        };
        var car = ReferenceCars.LiveAxle(row);
        var modes = Solve(car, row.Damping);

        const string Source = Evidence.Derived + "a quarter car in heave and one in roll";
        RowsOf(id, "live axle: undamped natural frequency, Hz", Source, Numbers(undamped), Solve(car, 0).All, mode => mode.NaturalFrequency);
        RowsOf(id, "live axle: modulus of the eigenvalue, rad/s", Source, Numbers(damped), modes.All, mode => mode.NaturalFrequency * 2 * Math.PI);
        foreach (var (expected, mode) in Numbers(ratios).Zip(modes.All))
            Validation.Row($"{id}, {mode.Name}", $"live axle: damping ratio of {mode.Name.ToString().ToLowerInvariant()}", Source, expected, mode.DampingRatio, RowTolerance * expected);
    }

    // Derived, g = 9.81: gravity's moment on the leaning body lowers the roll frequency.
    [Theory]
    [InlineData("axle D", 1.05620273, 10.78209106, 0.02699723, 0.00400009)]
    [InlineData("axle E", 0.80220564, 13.81544594, 0.05309150, 0.00341113)]
    public void Gravity_softens_roll(string id, double roll, double tramp, double bodyRollPerAy, double axleRollPerAy)
    {
        var row = id == "axle D" ? ReferenceCars.Mod23 : ReferenceCars.Mod24;
        var linear = LinearHalfCar.AtRest(ReferenceCars.LiveAxle(row));
        var modes = ModeFollower.Solve(linear, 0);
        var steady = linear.Stiffness.Solve(linear.LateralInput);

        Validation.Row($"{id}, Roll", "live axle, gravity's moment included: natural frequency of roll, Hz", Evidence.Derived + "the stiffness matrix", roll, modes.Roll.NaturalFrequency, RowTolerance * roll);
        Validation.Row($"{id}, Tramp", "live axle, gravity's moment included: natural frequency of tramp, Hz", Evidence.Derived + "the stiffness matrix", tramp, modes.Tramp.NaturalFrequency, RowTolerance * tramp);
        Near(bodyRollPerAy, steady[HalfCarState.BodyRoll], 5e-7); // The rows give seven digits.
        Near(axleRollPerAy, steady[HalfCarState.UnsprungRoll], 2e-6); // Six digits.
    }

    [Theory] // Derived, after a full car remembered from Jazar; the dampers are invented.
    [InlineData("uneven car A", "0.78581228 1.07223630 10.01980036 10.02115302", "0.78944744 1.08172678 9.93323287 9.97366226", "0.21236181 0.29074014 0.13875974 0.13706578")]
    [InlineData("uneven car B", "1.07095388 1.36874513 10.02115082 10.58553340", "1.08083936 1.37290857 9.93329663 10.54939438", "0.29013017 0.09809997 0.13875765 0.13279845")]
    [InlineData("uneven car C", "1.29222058 1.73082428 10.74544497 11.06100649", "1.31299532 1.76799180 10.56574294 10.83840106", "0.24876737 0.24730835 0.26481112 0.25540397")]
    public void Asymmetric_half_car_has_the_rows_modes(string id, string undamped, string damped, string ratios)
    {
        var (linear, c) = AsymmetricCars.Of(id);
        var free = ModeFollower.Solve(linear, 0).All.OrderBy(mode => mode.NaturalFrequency).ToArray();
        var modes = ModeFollower.Solve(linear, c).All.OrderBy(mode => mode.NaturalFrequency).ToArray();

        const string Source = Evidence.Derived + "a full car with the data of Jazar, Vehicle Dynamics (remembered); dampers invented";
        RowsOf(id, "half car of unlike ends: undamped natural frequency, Hz", Source, Numbers(undamped), free, mode => mode.NaturalFrequency);
        RowsOf(id, "half car of unlike ends: natural frequency, Hz", Source, Numbers(damped), modes, mode => mode.NaturalFrequency);
        RowsOf(id, "half car of unlike ends: damping ratio", Source, Numbers(ratios), modes, mode => mode.DampingRatio);
    }

    [Fact] // Derived: (z, φ, z1, z2) of the two body modes, the largest 1.
    public void Asymmetric_half_car_has_the_rows_shapes()
    {
        var (linear, _) = AsymmetricCars.Of("uneven car A");
        var modes = ModeFollower.Solve(linear, 0);

        Near([0.054077492, 1, 0.036130748, -0.033344319], AsymmetricCars.AtWheels(modes.Roll), 1e-7);
        Near([1, -0.055396455, 0.046302902, 0.050172218], AsymmetricCars.AtWheels(modes.Heave), 1e-7);
    }

    [Fact] // Symmetry: seen from the other end (turned about the vertical; in the roll plane the mirror image) the wheels change places.
    public void Mirrored_vehicle_keeps_its_modes_and_their_names()
    {
        var modes = ModeFollower.Solve(AsymmetricCars.Of("uneven car C").Linear, 1500);
        var mirrored = ModeFollower.Solve(AsymmetricCars.Of("uneven car C", mirrored: true).Linear, 1500);

        // In these coordinates the third and fourth mode are those of wheel 1 and of wheel 2.
        foreach (var (name, other) in new[] { (ModeName.Heave, ModeName.Heave), (ModeName.Roll, ModeName.Roll), (ModeName.Hop, ModeName.Tramp), (ModeName.Tramp, ModeName.Hop) })
        {
            Near(modes[name].NaturalFrequency, mirrored[other].NaturalFrequency, 1e-10);
            Near(modes[name].DampingRatio, mirrored[other].DampingRatio, 1e-10);
        }
    }

    [Fact] // Names follow the coordinate that moves, not the order of frequencies: here roll lies below heave, then above it.
    public void Names_follow_the_motion_when_frequencies_change_places()
    {
        var soft = Solve(ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { Bar = 0 }), 500);
        var stiff = Solve(ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { Bar = 60e3 }), 500);

        Assert.True(soft.Roll.NaturalFrequency < soft.Heave.NaturalFrequency);
        Assert.True(stiff.Roll.NaturalFrequency > stiff.Heave.NaturalFrequency);
        foreach (var modes in (ModeSet[])[soft, stiff])
            Assert.All(modes.All, mode => Assert.True(mode.Participation[(int)mode.Name] > 0.9));
    }

    [Fact] // Ix = m b² and no bar make roll and tramp the very same quarter car as heave and hop.
    public void Equal_frequencies_leave_heave_and_roll_pure()
    {
        var modes = Solve(ReferenceCars.HalfCar(635, 635 * 0.75 * 0.75, 0.75, 45.4, 22e3, 192e3, 1500, 0), 1500);

        Near(modes.Heave.NaturalFrequency, modes.Roll.NaturalFrequency, 1e-12);
        Near(modes.Hop.DampingRatio, modes.Tramp.DampingRatio, 1e-12);
        Assert.Equal(0, modes.Heave.Participation[HalfCarState.BodyRoll] + modes.Heave.Participation[HalfCarState.UnsprungRoll]);
        Assert.Equal(0, modes.Tramp.Participation[HalfCarState.BodyHeave] + modes.Tramp.Participation[HalfCarState.UnsprungHeave]);
    }

    [Fact] // Common practice, no source: roll damping goes with the square of the roll ratio, heave damping does not know it.
    public void Halving_the_roll_ratio_quarters_the_roll_damping()
    {
        var row = ReferenceCars.Mod20 with { DamperPosition = 0.60 };

        // At light damping, where the ratio is proportional to the coefficient: the error is of the order of ζ² = 1e-6.
        var full = Solve(ReferenceCars.LiveAxle(row), 10);
        var half = Solve(ReferenceCars.LiveAxle(row with { DamperPosition = 0.30 }), 10);

        Near(0.25, half.Roll.DampingRatio / full.Roll.DampingRatio, 1e-5);
        Assert.Equal(full.Heave.Eigenvalue, half.Heave.Eigenvalue);
    }

    [Fact] // Rigid tyres: ζ = c/√(2 ks ms) in heave and c yd²/√(kφ Is) in roll (derived: 0.298807 and 0.143910).
    public void Stiff_tyres_give_the_estimates_for_rigid_ones()
    {
        var modes = Solve(ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { TyreRate = 1e10, AxleMass = 1e-2, AxleInertia = 1e-2 }), 2500);

        // What is left of the tyre: ks/kt = 4e-6.
        Validation.Row("axle A", "live axle on rigid tyres: damping ratio of heave", Evidence.Derived + "c/√(2 ks ms)", 0.298807, modes.Heave.DampingRatio, 3e-6);
        Validation.Row("axle A", "live axle on rigid tyres: damping ratio of roll", Evidence.Derived + "c yd²/√(kφ Is)", 0.143910, modes.Roll.DampingRatio, 1.4e-6);
    }

    [Fact] // Quarter car with the damper locked: body and axle bounce on the tyres, f = √(2 kt/(ms+mu))/2π.
    public void Locked_suspension_bounces_on_its_tyres()
    {
        var row = ReferenceCars.Mod20;
        var modes = Solve(ReferenceCars.LiveAxle(row), 1e8);
        var bounce = Math.Sqrt(2 * row.TyreRate / (row.BodyMass + row.AxleMass)) / (2 * Math.PI);
        var swinging = modes.All.Where(mode => !mode.IsOverdamped).ToArray();

        // The locked damper still gives way by ω m/c, some 1e-4.
        Assert.Contains(swinging, mode => Math.Abs((mode.NaturalFrequency / bounce) - 1) < 1e-3 && mode.DampingRatio < 1e-3);
        Assert.Equal(2, swinging.Length);
    }

    [Theory]
    [InlineData(0.45)]
    [InlineData(0.70)]
    [InlineData(0.05)]
    public void Modes_keep_their_identity_in_a_sweep_as_when_asked_for_alone(double position)
    {
        var linear = LinearHalfCar.AtRest(ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { DamperPosition = position }));
        var fine = new ModeFollower(linear);
        for (var c = 50.0; c < 3e4; c *= 1.15)
        {
            var followed = fine.At(c);
            var direct = ModeFollower.Solve(linear, c);
            foreach (var name in Enum.GetValues<ModeName>())
                Near(followed[name].NaturalFrequency, direct[name].NaturalFrequency, 1e-6); // Near a double root rounding grows to its root.
        }
    }

    [Fact]
    public void Overdamped_mode_counts_as_ratio_one_and_keeps_its_name()
    {
        var linear = LinearHalfCar.AtRest(ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { DamperPosition = 0.70 }));
        var follower = new ModeFollower(linear);
        var before = 0.0;
        var overdamped = new HashSet<ModeName>();
        for (var c = 100.0; c < 2e4; c *= 1.05)
        {
            var modes = follower.At(c);
            foreach (var mode in modes.All.Where(mode => mode.IsOverdamped))
            {
                Assert.Equal(1, mode.DampingRatio);
                Assert.Equal(1, mode.DecayPerCycle);
                Assert.Equal(0, mode.DampedFrequency);
                Assert.True(mode.Eigenvalue.Real >= mode.Partner.Real);
                overdamped.Add(mode.Name);
            }

            // Hop damping grows without a jump until the pair is real, and stays there.
            Assert.True(modes.Hop.DampingRatio >= before);
            before = modes.Hop.DampingRatio;
        }

        Assert.Contains(ModeName.Hop, overdamped);
        Assert.Contains(ModeName.Tramp, overdamped);
    }

    [Fact]
    public void Decay_per_cycle_is_what_the_ratio_says()
    {
        var heave = Solve(ReferenceCars.Mod10, 1500).Heave;
        var zeta = heave.DampingRatio;

        Near(1 - Math.Exp(-2 * Math.PI * zeta / Math.Sqrt(1 - (zeta * zeta))), heave.DecayPerCycle, 1e-12);
        Near(heave.NaturalFrequency * Math.Sqrt(1 - (zeta * zeta)), heave.DampedFrequency, 1e-12);
    }

    [Fact] // A top mount so stiff that the damper hardly notices: the error is of the order of ω c/km = 1e-4.
    public void Stiff_top_mount_changes_nothing_and_a_setting_of_zero_is_undamped()
    {
        var rigid = ReferenceCars.LiveAxle(ReferenceCars.Mod20);
        var mounted = ReferenceCars.LiveAxle(
            ReferenceCars.Mod20, new Damper("mounted", ForceVelocityCurve.Linear(2500)) { TopMountStiffness = 1e9 });

        foreach (var name in Enum.GetValues<ModeName>())
            Near(Solve(rigid, 2500)[name].DampingRatio, Solve(mounted, 2500)[name].DampingRatio, 1e-3);
        Assert.All(Solve(mounted, 0).All, mode => Assert.Equal(0, mode.DampingRatio));
    }

    [Fact] // A damper that cannot move hands everything to its mount: the mount then acts as a spring of its own.
    public void Locked_damper_leaves_its_top_mount_as_a_spring()
    {
        var mounted = ReferenceCars.LiveAxle(
            ReferenceCars.Mod20, new Damper("mounted", ForceVelocityCurve.Linear(2500)) { TopMountStiffness = 20e3 });
        var stiffer = ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { SpringRate = 55e3 });

        // ω c/km: what the damper still moves.
        Near(Solve(stiffer, 0).Heave.NaturalFrequency, Solve(mounted, 1e9).Heave.NaturalFrequency, 1e-4);
    }

    [Fact]
    public void Unstable_body_is_refused_with_both_moments()
    {
        // ms g h = 1000 × 9.81 × 0.6 = 5886 N·m/rad = 103 N·m/deg; springs 2 × 3000 × 0.5² = 1500 N·m/rad.
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { RollArm = 0.6, Bar = 0, SpringRate = 3e3 });

        var e = Assert.Throws<UnstableBodyException>(() => Solve(car, 2500));

        Near(5886, e.GravityMoment, 1e-12);
        // Springs in series with the tyres, 2 kt T² = 247.5 kN·m/rad.
        Near(1 / ((1 / 1500.0) + (1 / 247_500.0)), e.RollStiffness, 1e-9);
        Assert.Contains("103 N·m per degree (ms g h)", e.Message, StringComparison.Ordinal);
        Assert.Contains("26 N·m per degree", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Missing_roll_stiffness_is_named()
    {
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { SpringPosition = 0, Bar = 0 });

        var e = Assert.Throws<UnstableBodyException>(() => Solve(car, 2500));

        Assert.Contains("no roll stiffness", e.Message, StringComparison.Ordinal);
    }

    [Fact] // Critical damping of hop between tyres and springs: 2 √((2 kt + 2 ks) mu) = 19 kN·s/m for both tyres together.
    public void Axle_that_does_not_swing_on_its_tyres_has_no_modes_to_name()
    {
        var car = ReferenceCars.LiveAxle(ReferenceCars.Mod20);
        var braked = new AssembledHalfCar(car.Vehicle with { Tyre = car.Vehicle.Tyre with { Damping = 12e3 } }, car.Layout);

        Assert.Contains("the axle does not swing", Assert.Throws<UnnamedModesException>(() => Solve(braked, 2500)).Message, StringComparison.Ordinal);
        Assert.False(ModeNaming.Swings(LinearHalfCar.AtRest(braked)));
        Assert.True(ModeNaming.Swings(LinearHalfCar.AtRest(car)));
    }

    [Fact]
    public void Missing_vehicle_or_frequencies_are_named()
    {
        var linear = LinearHalfCar.AtRest(ReferenceCars.Mod10);

        Assert.Throws<ArgumentNullException>("linear", () => new ModeFollower(null!));
        Assert.Throws<ArgumentNullException>("linear", () => FrequencyResponse.Of(null!, 0.75, 1500, [1]));
        Assert.Throws<ArgumentNullException>("frequencies", () => FrequencyResponse.Of(linear, 0.75, 1500, null!));
        Assert.Throws<ArgumentNullException>("linear", () => FrequencyResponse.SteadyRoll(null!));
        Refused.NumberIn("N·s/m", "coefficient", () => new ModeFollower(linear).At(-1));
    }

    [Fact]
    public void Settings_must_ascend()
    {
        var follower = new ModeFollower(LinearHalfCar.AtRest(ReferenceCars.Mod10));
        follower.At(2000);

        Assert.Throws<ArgumentException>(() => follower.At(1500));
        Assert.Throws<ArgumentOutOfRangeException>(() => follower.At(-1));
        Assert.Throws<ArgumentOutOfRangeException>(() => follower.At(double.NaN));
    }

    [Fact] // Common practice, no source: the roll ratio of a vertical damper on a live axle is its position over the half-track.
    public void Mount_points_give_the_modes_of_their_ratios()
    {
        var row = ReferenceCars.Mod20 with { DamperPosition = 0.53 * 0.75 };
        var byRatio = ReferenceCars.LiveAxle(row);
        var byMounts = ReferenceCars.Assemble(
            byRatio.Vehicle,
            new LiveAxleMountFitting(new Point3(0, row.DamperPosition, 0.3), new Point3(0, row.DamperPosition, 0.8), row.RollCentre, row.HalfTrack),
            byRatio.Layout.Damper);

        Near(Solve(byRatio, 2500).Roll.DampingRatio, Solve(byMounts, 2500).Roll.DampingRatio, 1e-12);
    }

    private static ModeSet Solve(AssembledHalfCar car, double coefficient) => ModeFollower.Solve(LinearHalfCar.AtRest(car), coefficient);

    private static double[] Numbers(string text) =>
        [.. text.Split(' ').Select(number => double.Parse(number, System.Globalization.CultureInfo.InvariantCulture))];

    private static void RowsOf(string id, string check, string source, IEnumerable<double> expected, IEnumerable<Mode> modes, Func<Mode, double> value)
    {
        foreach (var ((number, mode), i) in expected.Zip(modes).Select((pair, i) => (pair, i)))
            Validation.Row(FormattableString.Invariant($"{id}, {check[(check.IndexOf(':', StringComparison.Ordinal) + 2)..]}, {i + 1}"), check, source, number, value(mode), RowTolerance * Math.Max(1, Math.Abs(number)));
    }

    private static void Near(IEnumerable<double> expected, IEnumerable<double> actual, double tolerance = RowTolerance) =>
        Assert.All(expected.Zip(actual), pair => Assert.InRange(pair.Second - pair.First, -tolerance * Math.Max(1, Math.Abs(pair.First)), tolerance * Math.Max(1, Math.Abs(pair.First))));

    private static void Near(double expected, double actual, double relative = RowTolerance) =>
        Assert.InRange(actual / expected, 1 - relative, 1 + relative);
}
