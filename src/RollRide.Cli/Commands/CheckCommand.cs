using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using RollRide.Cli.Terminals;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Plots;
using RollRide.Results;
using RollRide.Scenarios;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Cli.Commands;

/// <summary>Reads a scenario and says what was understood.</summary>
internal static class CheckCommand
{
    public static Command Create()
    {
        var scenario = ScenarioInput.Scenario();
        var loads = ScenarioInput.Loads();
        var command = new Command("check",
            """
            Show how RollRide read a scenario: masses, static loads, motion ratios, ride height in each load state;
            ride frequency, damping, roll gradient and stroke compared with usual values; warnings. Nothing is simulated or written.

            Example:
              rollride check scenarios/bump-then-corner.json
            """)
        {
            scenario, loads,
        };
        command.SetAction((parsed, cancellation) =>
        {
            var read = ScenarioInput.Read(parsed, scenario, cancellation);
            var study = ScenarioInput.ChooseLoads(read.Study, parsed.GetValue(loads) ?? []);
            var template = ScenarioTemplate.Read(parsed.GetRequiredValue(scenario), cancellation);
            SweepPlanReader.Check(template);
            ScatterReader.Read(template);
            var remarks = Remarks(read).ToArray();
            ScenarioInput.ShowWarnings(parsed, remarks);
            Write(parsed.InvocationConfiguration.Output, study, read.Warnings.Length + remarks.Length);
            return Task.FromResult(ExitCode.Done);
        });
        return command;
    }

    /// <summary>What stops or spoils one command or figure only.</summary>
    private static IEnumerable<string> Remarks(Scenario scenario)
    {
        foreach (var fault in scenario.TuningFaults)
            yield return $"the command tune will refuse this: {fault}";
        var study = scenario.Study;
        string[] names = [study.Provenance.Scenario, .. study.Layouts.Select(layout => layout.Name), .. study.Loads.Select(load => load.Name)];
        foreach (var name in names.Where(name => !IsPlain(name) && !PlotFont.Covers(name)))
            yield return $"{study.Provenance.File}: the typeface of the figures lacks a character of “{name}” and draws a box in its place";
    }

    // The typeface has all of these, and to load it takes a quarter of this command's time.
    private static bool IsPlain(string name) => name.All(character => character is >= ' ' and <= '~');

    private static void Write(TextWriter output, StudyCase study, int warnings)
    {
        output.WriteLine($"{study.Provenance.Scenario} — {study.Vehicle.Name}");
        output.WriteLine();
        if (!study.Loads.IsEmpty)
        {
            output.WriteLine("At the design load");
            output.WriteLine();
        }

        WriteVehicle(output, study.Vehicle);
        output.WriteLine();
        WriteLayouts(output, study);
        output.WriteLine();
        var rows = new List<(StudyCase Study, ImmutableArray<UsualValues> Rows)>();
        foreach (var state in study.InEachLoad)
        {
            if (state.Load is { DamperState: not null } load && rows.Exists(earlier => earlier.Study.Load?.Weights == load.Weights))
                WriteDampersAlone(output, state);
            else if (state.Load is not null)
                RestReport.Write(output, state);
            rows.Add((state, UsualReport.Write(output, state)));
        }

        var unusual = UsualValues.Remarks(rows);

        WriteManoeuvre(output, study);
        output.WriteLine();
        foreach (var remark in unusual)
            output.WriteLine($"Unusual: {remark}");
        if (unusual.Count > 0)
            output.WriteLine();
        output.WriteLine(warnings + unusual.Count == 0
            ? "No faults, nothing unusual."
            : $"No faults; {string.Join(" and ", new[] { Count(warnings, "warning"), Count(unusual.Count, "unusual value") }.OfType<string>())} above.");
        output.WriteLine(study.Placement is null
            ? "Whether the dampers fit cannot be checked: the scenario gives no packaging."
            : "Whether the dampers fit is not checked here: rollride place checks it.");
    }

    /// <summary>Dampers in another state let the vehicle stand where it does without: only their forces differ.</summary>
    private static void WriteDampersAlone(TextWriter output, StudyCase state)
    {
        output.WriteLine(LoadStates.Heading(state));
        output.WriteLine();
    }

    private static string? Count(int count, string what) => count == 0 ? null : $"{count} {what}{(count == 1 ? "" : "s")}";

    private static void WriteVehicle(TextWriter output, HalfCar vehicle)
    {
        var table = new TextTable("Vehicle", "value", "unit");
        void Row(string label, double value, int decimals, string unit) => table.Add(label, value.ToString($"F{decimals}", CultureInfo.InvariantCulture), unit);
        void Length(string label, double value, int decimals) => Row(label, Unit.Millimetre.Of(value), decimals, Unit.Millimetre.Symbol);
        table.Add("Suspension", vehicle.Suspension.Name);
        Length("Track", vehicle.Track, 0);
        Row("Sprung mass", vehicle.Body.Mass, 0, "kg");
        Row("Unsprung mass", vehicle.Unsprung.Mass, 0, "kg");
        Length("Centre of gravity above roll centre", vehicle.RollArm, 0);
        Row("Roll inertia about roll centre", vehicle.BodyRollInertia, 0, "kg·m²");
        Row("Unsprung roll inertia", vehicle.UnsprungRollInertia, 1, "kg·m²");
        Row(vehicle.Tyre.DualSpacing is null ? "Static load of a tyre" : "Static load of a tyre (four)", vehicle.StaticTyreLoad, 0, "N");
        Length("Tyre deflection at rest", vehicle.StaticTyreLoad / vehicle.Tyre.Stiffness, 1);
        Row("Spring motion ratio, heave", vehicle.Spring.Fitting.HeaveRatio, 3, "");
        Row("Spring motion ratio, roll", vehicle.Spring.Fitting.RollRatio, 3, "");
        table.Add("Spring friction", Friction(vehicle));
        if (vehicle.SecondAxle is { } second)
            AddSecond(second);
        table.Write(output);
        if ((vehicle.Spring.Friction ?? vehicle.On(Mounting.Side.Right).Spring.Friction) is null)
            output.WriteLine(Assumptions.NoSpringFriction);

        void AddSecond(SecondAxle axle)
        {
            var other = axle.Vehicle;
            table.AddGap();
            table.Add($"Other axle, {(axle.Place == Axle.Front ? "front" : "rear")}", other.Suspension.Name);
            Length("Wheelbase", axle.Chassis.Wheelbase, 0);
            Length("Body's centre of gravity behind front axle", axle.Place == Axle.Front ? axle.Chassis.Wheelbase - axle.CgFromStudied(vehicle) : axle.CgFromStudied(vehicle), 0);
            if (axle.Chassis.TorsionalStiffness is { } stiffness)
                Row("Torsional stiffness of the frame", Unit.NewtonMetrePerDegree.Of(stiffness), 0, Unit.NewtonMetrePerDegree.Symbol);
            else
                table.Add("Torsional stiffness of the frame", "does not twist");
            Row("Pitch inertia of the body", axle.PitchInertia(vehicle), 0, "kg·m²");
            Length("Track, other axle", other.Track, 0);
            Row("Sprung mass, other axle", other.Body.Mass, 0, "kg");
            Row("Unsprung mass, other axle", other.Unsprung.Mass, 0, "kg");
            Row("Anti-roll bar, other axle", Unit.NewtonMetrePerDegree.Of(other.AntiRollBar), 0, Unit.NewtonMetrePerDegree.Symbol);
            Row("Damper motion ratio, heave, other axle", axle.Layout.Fitting.HeaveRatio, 3, "");
            Row("Damper motion ratio, roll, other axle", axle.Layout.Fitting.RollRatio, 3, "");
        }
    }

    private static string Friction(HalfCar vehicle)
    {
        static string Of(Spring spring) => spring.Friction is { } friction
            ? string.Create(CultureInfo.InvariantCulture, $"{friction.Force:F0} N over {Unit.Millimetre.Show(friction.BuildUp):F1}")
            : "none given";
        var (left, right) = (vehicle.Spring, vehicle.On(Mounting.Side.Right).Spring);
        return left.Friction == right.Friction ? Of(left) : $"{Of(left)} left, {Of(right)} right";
    }

    private static void WriteLayouts(TextWriter output, StudyCase study)
    {
        var table = new TextTable("Layout", "heave ratio", "roll ratio", "spring preload [N]", "damper", "bump stroke remaining [mm]", "rebound stroke remaining [mm]");
        foreach (var layout in study.Layouts)
        {
            var car = study.Assemble(layout);
            table.Add(
                layout.Name,
                TextTable.Number(layout.Fitting.HeaveRatio, 4),
                TextTable.Number(layout.Fitting.RollRatio, 4),
                TextTable.Number(car.SpringPreload, 0),
                layout.DamperName,
                TextTable.Number(Unit.Millimetre.Of(layout.CompressionTravel), 1),
                TextTable.Number(Unit.Millimetre.Of(layout.ReboundTravel), 1));
        }

        table.Write(output);
    }

    private static void WriteManoeuvre(TextWriter output, StudyCase study)
    {
        var manoeuvre = study.Manoeuvre;
        var table = new TextTable("Phase", "from [s]", "to [s]");
        table.Add("whole run", "0.000", TextTable.Number(manoeuvre.Duration, 3));
        foreach (var phase in manoeuvre.Phases)
            table.Add(phase.Name, TextTable.Number(phase.Start, 3), TextTable.Number(phase.End, 3));
        table.Write(output);
        output.WriteLine();
        output.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Speed {Unit.KilometrePerHour.Show(manoeuvre.Road.Speed):F1}, {manoeuvre.Road.Speed * manoeuvre.Duration:F0} m of road; final lateral acceleration {manoeuvre.Cornering.FinalLateralAcceleration:F2} m/s²."));
    }
}
