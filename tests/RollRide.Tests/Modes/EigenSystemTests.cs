using System.Numerics;
using MathNet.Numerics.LinearAlgebra;
using RollRide.Dynamics;
using RollRide.Modes;

namespace RollRide.Tests.Modes;

public sealed class EigenSystemTests
{
    [Theory] // Two frequencies are far apart where their difference is more than half their sum: from three times on.
    [InlineData(10, 15, false)]
    [InlineData(10, 29, false)]
    [InlineData(10, 31, true)]
    [InlineData(31, 10, true)]
    [InlineData(15, 10, false)]
    public void Modes_that_one_damper_couples_are_well_separated_from_three_times_the_frequency_on(double first, double second, bool separated) =>
        Assert.Equal(separated, EigenSystem.Solve(new TwoOscillators(first, second), 0.01).IsWellSeparated);

    [Fact]
    public void Modes_that_nothing_couples_are_well_separated_however_close() =>
        Assert.True(EigenSystem.Solve(new TwoOscillators(10, 10.1), 0).IsWellSeparated);

    [Fact] // c/2 = 200 1/s is far beyond either frequency.
    public void Mode_that_no_longer_swings_is_not_well_separated() =>
        Assert.False(EigenSystem.Solve(new TwoOscillators(10, 40), 400).IsWellSeparated);

    [Fact] // det(λ² + c λ d dᵀ + Ω²) = (λ² + 100)(λ² + 1600) + c λ (2 λ² + 1700), with d = (1, 1).
    public void Eigenvalues_solve_the_characteristic_equation()
    {
        var system = EigenSystem.Solve(new TwoOscillators(10, 40), 0.5);

        Assert.Equal(4, system.Values.Length);
        foreach (var s in system.Values)
        {
            var square = s * s;
            var characteristic = ((square + 100) * (square + 1600)) + (0.5 * s * ((2 * square) + 1700));
            Assert.InRange(characteristic.Magnitude, 0, 1e-7); // terms up to 2e6
            Assert.True(s.Real < 0);
        }
    }

    [Fact]
    public void Naming_setting_brakes_no_motion_by_more_than_about_a_hundredth_and_one_by_nearly_that()
    {
        var linear = LinearHalfCar.AtRest(ReferenceCars.Mod10);
        var ratios = EigenSystem.Solve(linear, ModeNaming.Coefficient(linear)).Values.Select(value => -value.Real / value.Magnitude).ToArray();

        Assert.InRange(ratios.Max(), 0.005, 0.015); // the estimate takes each coordinate as a motion of its own
    }

    [Fact] // At the centre roll moves no damper: the difference of the two strokes relaxes by itself, and moves nothing else.
    public void Shape_of_a_top_mounts_own_relaxation_is_zero_and_no_other_is()
    {
        var mounted = ReferenceCars.LiveAxle(ReferenceCars.Mod20 with { DamperPosition = 0 }, new RollRide.Damping.Damper("mounted", RollRide.Damping.ForceVelocityCurve.Linear(2500)) { TopMountStiffness = 400e3 });

        var shapes = EigenSystem.Solve(LinearHalfCar.AtRest(mounted), 2500).Weighted;

        Assert.Single(shapes, shape => shape.All(value => value == Complex.Zero));
        Assert.All(shapes.Where(shape => shape.Any(value => value != Complex.Zero)), shape => Assert.Equal(1, shape.Sum(EigenSystem.MagnitudeSquared), 1e-12));
    }

    /// <summary>Two unit masses, each on a spring of its own, and one damper that both move: <c>ẍ + c d dᵀ ẋ + Ω² x = 0</c>.</summary>
    private sealed class TwoOscillators(double first, double second) : ILinearMotion
    {
        public int Coordinates => 2;

        public Matrix<double> Motion(double coefficient) => Matrix<double>.Build.DenseOfArray(new[,]
        {
            { 0, 0, 1, 0 },
            { 0, 0, 0, 1 },
            { -first * first, 0, -coefficient, -coefficient },
            { 0, -second * second, -coefficient, -coefficient },
        });

        public void Weigh(Span<Complex> displacements)
        {
        }

        public void Unweigh(Span<Complex> weighted)
        {
        }
    }
}
