using RollRide.Cli.Terminals;
using RollRide.Dynamics;
using RollRide.Numerics;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Prints where the vehicle stands at rest in a load state: one row per quantity, one column per layout.</summary>
internal static class RestReport
{
    /// <summary>Prints the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="study">The case in a load state.</param>
    public static void Write(TextWriter output, StudyCase study)
    {
        LoadedHalfCar[] cars = [.. study.Layouts.Select(layout => study.Settle(layout)!)];
        output.WriteLine($"{LoadStates.Heading(study)} at rest; height changes count from the design position");
        output.WriteLine();
        var table = new TextTable(["", "unit", .. study.Layouts.Select(layout => layout.Name)]);
        void Row(string label, Unit unit, int decimals, Func<LoadedHalfCar, double?> value)
        {
            double?[] values = [.. cars.Select(value)];
            if (values.Any(known => known is not null))
                table.Add([label, unit.Symbol, .. values.Select(known => TextTable.Number(unit.Of(known), decimals))]);
        }

        void Stop(string name, Func<SideAtRest, StopAtRest?> stop)
        {
            Row($"{name} stop, clearance", Unit.Millimetre, 2, car => stop(car.Rest.Side)?.Clearance);
            if (!cars.Any(car => stop(car.Rest.Side)?.Compression > 0))
                return;
            Row($"{name} stop, compression", Unit.Millimetre, 2, car => stop(car.Rest.Side)?.Compression);
            Row($"{name} stop, force", Unit.Newton, 0, car => stop(car.Rest.Side)?.Force);
        }

        Row("Body, height change", Unit.Millimetre, 2, car => car.Rest.BodyHeave);
        Row($"{study.Vehicle.Suspension.UnsprungPart}, height change", Unit.Millimetre, 2, car => car.Rest.UnsprungHeave);
        Row("Centre of gravity above roll centre", Unit.Millimetre, 1, car => car.Car.Vehicle.RollArm);
        Row("Spring force", Unit.Newton, 0, car => car.Rest.Side.Spring.Force);
        Row("Tyre load of a side", Unit.Newton, 0, car => car.Rest.Side.TyreLoad);
        Stop("Bump", side => side.BumpStop);
        Stop("Rebound", side => side.ReboundStop);
        Row("Damper stroke left, compression", Unit.Millimetre, 2, car => car.Rest.Side.LeftToClosed);
        Row("Damper stroke left, extension", Unit.Millimetre, 2, car => car.Rest.Side.LeftToExtended);
        Row("Damper motion ratio, heave", Unit.One, 4, car => car.Rest.Side.Damper.HeaveRatio);
        Row("Damper motion ratio, roll", Unit.One, 4, car => car.Rest.Side.Damper.RollRatio);
        table.Write(output);
        output.WriteLine();
    }
}
