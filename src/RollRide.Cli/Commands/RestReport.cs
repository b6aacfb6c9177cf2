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

        // Sides that are the same are told once.
        var isAlike = cars.All(car => car.Rest.IsAlike);
        void Side(string label, Unit unit, int decimals, Func<SideAtRest, double?> value)
        {
            Row(isAlike ? label : $"{label}, left", unit, decimals, car => value(car.Rest.Left));
            if (!isAlike)
                Row($"{label}, right", unit, decimals, car => value(car.Rest.Right));
        }

        void Stop(string name, Func<SideAtRest, StopAtRest?> stop)
        {
            Side($"{name} stop, clearance", Unit.Millimetre, 2, side => stop(side)?.Clearance);
            if (!cars.Any(car => car.Rest.Sides.Any(side => stop(side.Side)?.Compression > 0)))
                return;
            Side($"{name} stop, compression", Unit.Millimetre, 2, side => stop(side)?.Compression);
            Side($"{name} stop, force", Unit.Newton, 0, side => stop(side)?.Force);
        }

        Row("Body, height change", Unit.Millimetre, 2, car => car.Rest.BodyHeave);
        Row($"{study.Vehicle.Suspension.UnsprungPart}, height change", Unit.Millimetre, 2, car => car.Rest.UnsprungHeave);
        if (!isAlike)
        {
            Row("Body, roll angle", Unit.Degree, 2, car => car.Rest.BodyRoll);
            Row($"{study.Vehicle.Suspension.UnsprungPart}, roll angle", Unit.Degree, 2, car => car.Rest.UnsprungRoll);
        }

        Row("Centre of gravity above roll centre", Unit.Millimetre, 1, car => car.Car.Vehicle.RollArm);
        Side("Spring force", Unit.Newton, 0, side => side.Spring.Force);
        Side("Tyre load of a side", Unit.Newton, 0, side => side.TyreLoad);
        Stop("Bump", side => side.BumpStop);
        Stop("Rebound", side => side.ReboundStop);
        Side("Damper stroke remaining, compression", Unit.Millimetre, 2, side => side.LeftToClosed);
        Side("Damper stroke remaining, extension", Unit.Millimetre, 2, side => side.LeftToExtended);
        Side("Damper motion ratio, heave", Unit.One, 4, side => side.Damper.HeaveRatio);
        Side("Damper motion ratio, roll", Unit.One, 4, side => side.Damper.RollRatio);
        table.Write(output);
        output.WriteLine();
    }
}
