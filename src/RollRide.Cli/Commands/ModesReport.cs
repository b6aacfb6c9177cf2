using System.Globalization;
using RollRide.Cli.Terminals;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Cli.Commands;

/// <summary>Prints the modes: one row per quantity, one column per layout, then the conclusions.</summary>
internal static class ModesReport
{
    public static void Write(TextWriter output, IReadOnlyList<ModesResult> states, WrittenFolder folder)
    {
        var study = states[0].Study;
        output.WriteLine($"{study.Provenance.Scenario} — {study.Vehicle.Name}");
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Damper velocity amplitude {study.Analysis.ReferenceVelocity:0.###} m/s; friction {(study.Analysis.IncludeFriction ? "counted" : "left out of the linear ratios")}."));
        StudyReport.WriteStates(output, states, result => result.Study, result => WriteTable(output, result), ModesConclusions.Of);
        StudyReport.WriteEnd(output, folder);
    }

    private static void WriteTable(TextWriter output, ModesResult result)
    {
        var table = new TextTable(["", "unit", .. result.Layouts.Select(layout => layout.Name)]);
        void Add(string label, string unit, int decimals, Func<LayoutModes, double?> value) =>
            table.Add([label, unit, .. result.Layouts.Select(layout => value(layout) is { } number ? number.ToString($"F{decimals}", CultureInfo.InvariantCulture) : "–")]);

        var hasUnlikeSides = result.Layouts.Any(layout => layout.Car.HasUnlikeSides);
        Add(result.Layouts.Any(layout => layout.Car.Layout.RightSide is { } right && right.Damper != layout.Car.Layout.Damper) ? "Coefficient of a damper, mean" : "Coefficient of each damper", "N·s/m", 0, layout => layout.Reference.Coefficient);
        foreach (var name in Enum.GetValues<ModeName>())
        {
            table.AddGap();
            table.Add($"[{Heading(name)}]");
            Add("Natural frequency", "Hz", 2, layout => layout.Reference[name].NaturalFrequency);
            Add("Damped frequency", "Hz", 2, layout => layout.Reference[name].DampedFrequency);
            Add("Damping ratio, linear", "", 3, layout => layout.Reference[name].DampingRatio);
            Add("  compression alone", "", 3, layout => layout.ReferenceCompression[name].DampingRatio);
            Add("  rebound alone", "", 3, layout => layout.ReferenceRebound[name].DampingRatio);
            Add("Decay per cycle", "%", 0, layout => 100 * layout.Reference[name].DecayPerCycle);
            if (hasUnlikeSides)
            {
                Add("Kinetic energy in heave", "%", 0, layout => 100 * layout.Reference[name].HeaveShare);
                Add("  in roll", "%", 0, layout => 100 * layout.Reference[name].RollShare);
            }

            Add("Measured decay, released at", "m/s", 3, layout => layout.Decays[(int)name].ReleaseVelocity);
            Add("  ratio over the first cycle", "", 3, layout => layout.Decays[(int)name].DecrementRatio);
            Add("  ratio of the fit, three cycles", "", 3, layout => layout.Decays[(int)name].FittedRatio);
            Add("  mean damper velocity", "m/s", 3, layout => layout.Decays[(int)name].MeanVelocity);
            Add("  linear ratio at that velocity", "", 3, layout => layout.Decays[(int)name].LinearRatioAtMeanVelocity);
        }

        table.Write(output);
        foreach (var layout in result.Layouts)
        {
            if (layout.OnVehicle is { } vehicle)
                WriteVehicle(output, layout.Name, result.Study.Vehicle, vehicle.Modes);
        }

        WriteFriction(output, result);
    }

    /// <summary>The modes of the whole vehicle: what moves in them, and whose dampers stop it.</summary>
    private static void WriteVehicle(TextWriter output, string layout, HalfCar vehicle, VehicleModeSet modes)
    {
        var other = VehicleConclusions.OtherAxle(vehicle);
        var own = other == "front axle" ? "rear" : "front";
        output.WriteLine();
        output.WriteLine($"“{layout}” on the whole vehicle, with {VehicleConclusions.Frame(vehicle)}; the modes above are those of this axle alone");
        var table = new TextTable(["Mode", "|λ|/2π [Hz]", "damping ratio", "energy in that motion [%]", $"damped by {own} [%]", $"by {other.Split(' ')[0]} [%]", "tyres, frame [%]"]);
        foreach (var mode in modes.All)
        {
            var shares = mode.DampingShares;
            table.Add(
            [
                VehicleModeNames.Words(mode.Name),
                TextTable.Number(mode.NaturalFrequency, 2),
                TextTable.Number(mode.DampingRatio, 3),
                TextTable.Number(100 * mode.Participation[mode.Name], 0),
                TextTable.Number(100 * shares?.Own, 0),
                TextTable.Number(100 * shares?.Second, 0),
                TextTable.Number(100 * shares?.Rest, 0),
            ]);
        }

        table.Write(output);
    }

    /// <summary>The friction of the springs over amplitude, with the dampers of each layout beside it.</summary>
    private static void WriteFriction(TextWriter output, ModesResult result)
    {
        var loops = result.Layouts.SelectMany(layout => SpringFrictionLoops.SidesOf(layout.Car).Select(side => (layout.Name, Side: side.Name, Loops: SpringFrictionLoops.Of(layout.Car, side.Side, result.Study.Analysis.IncludeFriction))))
            .Where(at => at.Loops.Length > 0).ToArray();
        foreach (var spring in loops.GroupBy(at => at.Side))
        {
            string[] Row(IEnumerable<SpringFrictionLoop> of, string format, Func<SpringFrictionLoop, double> value) => [.. of.Select(loop => value(loop).ToString(format, CultureInfo.InvariantCulture))];
            var first = spring.First().Loops;
            var table = new TextTable([$"{(spring.Key is { } side ? $"{char.ToUpperInvariant(side[0])}{side[1..]} spring" : "Spring")} with its friction", "unit", .. first.Select(loop => string.Create(CultureInfo.InvariantCulture, $"±{Unit.Millimetre.Of(loop.Amplitude):0.#} mm"))]);
            table.Add(["Heat in a cycle", Unit.Joule.Symbol, .. Row(first, "G3", loop => loop.Energy)]);
            table.Add(["Stiffness that friction adds", Unit.NewtonPerMillimetre.Symbol, .. Row(first, "F1", loop => Unit.NewtonPerMillimetre.Of(loop.AddedStiffness))]);
            table.Add(["Damping ratio by friction alone", "", .. Row(first, "F3", loop => loop.FrictionRatio)]);
            foreach (var layout in spring)
            {
                table.Add([$"  by the damper alone, {layout.Name}", "", .. Row(layout.Loops, "F3", loop => loop.DamperRatio)]);
                table.Add([$"  by both together, {layout.Name}", "", .. Row(layout.Loops, "F3", loop => loop.Together)]);
            }

            output.WriteLine();
            table.Write(output);
        }

        if (loops.Length > 0)
            output.WriteLine("These ratios are those of half the body in heave on one spring with its friction, on rigid tyres. The modes above are without this friction; the measured decays have it.");
    }

    private static string Heading(ModeName name) => name switch
    {
        ModeName.Hop => "hop: wheels together",
        ModeName.Tramp => "tramp: wheels against each other",
        _ => ModeNames.Key(name),
    };
}
