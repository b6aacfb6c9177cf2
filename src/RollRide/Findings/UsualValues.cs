using System.Collections.Immutable;
using System.Globalization;
using RollRide.Dynamics;
using RollRide.Modes;
using RollRide.Mounting;
using RollRide.Numerics;
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
            Row("Damper stroke left at rest, compression", UsualRange.StrokeLeft, one => Least(one.Car.Layout, side => side.CompressionTravel)),
            Row("Damper stroke left at rest, extension", UsualRange.StrokeLeft, one => Least(one.Car.Layout, side => side.ReboundTravel)),
        ];
    }

    /// <summary>What is unusual: one sentence for each quantity and all layouts with the same values in the same load states.</summary>
    /// <param name="states">The case in each load state, with the quantities found there.</param>
    public static IReadOnlyList<string> Remarks(IReadOnlyList<(StudyCase Study, ImmutableArray<UsualValues> Rows)> states)
    {
        ArgumentNullException.ThrowIfNull(states);
        var (first, layouts) = (states[0].Rows, states[0].Study.Layouts);
        return
        [
            .. Enumerable.Range(0, first.Length).SelectMany(row => Enumerable.Range(0, layouts.Length)
                .Select(layout => (layouts[layout].Name, Found: Unusual(row, layout)))
                .Where(layout => layout.Found is not null)
                .GroupBy(layout => layout.Found, layout => $"“{layout.Name}”")
                .Select(same => $"{first[row].Quantity}{same.Key!.Value.In}: {same.Key.Value.Values} with {string.Join(", ", same)}; usual for {first[row].Range.Whose}: {first[row].Range.Words}{WithUnit(first[row].Range.Unit)} ({first[row].Range.Source}).")),
        ];

        (string In, string Values)? Unusual(int row, int layout)
        {
            var range = first[row].Range;
            (string? Load, double Value)[] found = [.. states.Where(state => state.Rows[row].Values[layout] is { } value && !range.Holds(value)).Select(state => (state.Study.Load?.Name, state.Rows[row].Values[layout]!.Value))];
            if (found.Length == 0)
                return null;
            var loads = found[0].Load is null ? "" : $", load state{(found.Length > 1 ? "s" : "")} {string.Join(", ", found.Select(state => $"“{state.Load}”"))}";
            return (loads, Text(found.Min(state => state.Value), found.Max(state => state.Value), range));
        }

        static string Text(double lowest, double highest, UsualRange range)
        {
            string Number(double value) => range.Unit.Of(value).ToString($"F{range.Decimals}", CultureInfo.InvariantCulture);
            return $"{(Number(lowest) == Number(highest) ? Number(lowest) : $"{Number(lowest)} to {Number(highest)}")}{WithUnit(range.Unit)}";
        }

        static string WithUnit(Unit unit) => unit.Symbol.Length == 0 ? "" : $" {unit.Symbol}";
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
