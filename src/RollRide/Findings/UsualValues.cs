using System.Collections.Immutable;
using System.Globalization;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Studies;
using RollRide.Vehicle;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>A quantity of every layout beside what is usual.</summary>
/// <param name="Quantity">Name of the quantity.</param>
/// <param name="Range">What is usual.</param>
/// <param name="Values">Its value with each layout, SI, in the order of the case; null where there is none.</param>
public sealed record UsualValues(string Quantity, UsualRange Range, ImmutableArray<double?> Values)
{
    /// <summary>Lateral acceleration at which the roll gradient is taken, m/s²: gentle, so that nothing reaches its stops.</summary>
    private const double Gentle = 1;

    /// <summary>The quantities that a colleague looks at first, in one load state.</summary>
    /// <param name="study">The case in its load state.</param>
    /// <exception cref="NoRestPositionException">The vehicle cannot stand under the load.</exception>
    public static ImmutableArray<UsualValues> Of(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        ImmutableArray<(AssembledHalfCar Car, ModeSet? Free, ModeSet? Damped)> all = [.. study.Layouts.Select(layout => WithModes(study, layout))];
        var velocity = study.Analysis.ReferenceVelocity;
        UsualValues Row(string quantity, UsualRange range, Func<(AssembledHalfCar Car, ModeSet? Free, ModeSet? Damped), double?> value) => new(quantity, range, [.. all.Select(value)]);
        return
        [
            Row("Ride frequency", UsualRange.RideFrequency, one => one.Free?.Heave.NaturalFrequency),
            Row(Invariant($"Heave damping ratio at {velocity:0.###} m/s"), UsualRange.HeaveDamping, one => one.Damped?.Heave.DampingRatio),
            Row(Invariant($"Roll damping ratio at {velocity:0.###} m/s"), UsualRange.RollDamping, one => one.Damped?.Roll.DampingRatio),
            Row(Invariant($"Roll gradient at {Gentle:0.#} m/s²"), UsualRange.RollGradient, one => RollGradient(one.Car)),
            Row("Damper stroke left, compression", UsualRange.StrokeLeft, one => Least(one.Car.Layout, side => side.CompressionTravel)),
            Row("Damper stroke left, extension", UsualRange.StrokeLeft, one => Least(one.Car.Layout, side => side.ReboundTravel)),
        ];
    }

    /// <summary>What is unusual, one sentence for all layouts with the same value.</summary>
    /// <param name="study">The case in its load state.</param>
    public IEnumerable<string> Remarks(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        return
            from layout in study.Layouts.Zip(Values, (layout, value) => (layout.Name, Value: value))
            where layout.Value is { } value && !Range.Holds(value)
            group layout.Name by Range.Unit.Show(layout.Value!.Value).ToString($"F{Range.Decimals}", CultureInfo.InvariantCulture) into same
            select $"{Quantity}{(study.Load is { } load ? $", load state “{load.Name}”" : "")}: {same.Key} with {string.Join(", ", same.Select(name => $"“{name}”"))}; usual for {Range.Whose}: {Range.Words}{(Range.Unit.Symbol.Length == 0 ? "" : " ")}{Range.Unit.Symbol} ({Range.Source}).";
    }

    private static (AssembledHalfCar Car, ModeSet? Free, ModeSet? Damped) WithModes(StudyCase study, DamperLayout layout)
    {
        var car = study.Assemble(layout);
        try
        {
            var linear = LinearHalfCar.AtRest(car);
            return (car, ModeFollower.Solve(linear, 0), ModeFollower.Solve(linear, car.Layout, study.Analysis.ReferenceVelocity, study.Analysis.IncludeFriction));
        }
        catch (Exception e) when (e is UnstableBodyException or UnnamedModesException)
        {
            return (car, null, null); // the commands that need modes say why there are none
        }
    }

    /// <summary>Half the change of roll from a gentle right-hand to a gentle left-hand corner: a lean at rest does not count.</summary>
    private static double? RollGradient(AssembledHalfCar car) =>
        StaticEquilibrium.TryFind(car, Gentle, out var left) && StaticEquilibrium.TryFind(car, -Gentle, out var right)
            ? (left.BodyRoll - right.BodyRoll) / (2 * Gentle)
            : null;

    private static double? Least(DamperLayout layout, Func<DamperSide, double?> stroke) => new[] { stroke(layout.On(Side.Left)), stroke(layout.On(Side.Right)) }.Min();
}
