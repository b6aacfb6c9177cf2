using RollRide.Cli.Terminals;
using RollRide.Dynamics;
using RollRide.Results;
using RollRide.Studies;

namespace RollRide.Cli.Commands;

/// <summary>Prints where the vehicle stands at rest in a load state: one row per quantity, one column per layout.</summary>
internal static class RestReport
{
    private const double Mm = 1e3;

    /// <summary>Prints the table.</summary>
    /// <param name="output">Where it goes.</param>
    /// <param name="study">The case in a load state.</param>
    public static void Write(TextWriter output, StudyCase study)
    {
        LoadedHalfCar[] cars = [.. study.Layouts.Select(layout => study.Settle(layout)!)];
        output.WriteLine($"{LoadStates.Heading(study)} at rest; height changes count from the design position");
        output.WriteLine();
        var table = new TextTable(["", "unit", .. study.Layouts.Select(layout => layout.Name)]);
        void Row(string label, string unit, int decimals, double scale, Func<LoadedHalfCar, double?> value)
        {
            double?[] values = [.. cars.Select(value)];
            if (values.Any(known => known is not null))
                table.Add([label, unit, .. values.Select(known => TextTable.Number(known * scale, decimals))]);
        }

        void Stop(string name, Func<SideAtRest, StopAtRest?> stop)
        {
            Row($"{name} stop, clearance", "mm", 2, Mm, car => stop(car.Rest.Side)?.Clearance);
            if (!cars.Any(car => stop(car.Rest.Side)?.Compression > 0))
                return;
            Row($"{name} stop, compression", "mm", 2, Mm, car => stop(car.Rest.Side)?.Compression);
            Row($"{name} stop, force", "N", 0, 1, car => stop(car.Rest.Side)?.Force);
        }

        Row("Body, height change", "mm", 2, Mm, car => car.Rest.BodyHeave);
        Row($"{study.Vehicle.Suspension.UnsprungPart}, height change", "mm", 2, Mm, car => car.Rest.UnsprungHeave);
        Row("Centre of gravity above roll centre", "mm", 1, Mm, car => car.Car.Vehicle.RollArm);
        Row("Spring force", "N", 0, 1, car => car.Rest.Side.Spring.Force);
        Row("Tyre load of a side", "N", 0, 1, car => car.Rest.Side.TyreLoad);
        Stop("Bump", side => side.BumpStop);
        Stop("Rebound", side => side.ReboundStop);
        Row("Damper stroke left, compression", "mm", 2, Mm, car => car.Rest.Side.LeftToClosed);
        Row("Damper stroke left, extension", "mm", 2, Mm, car => car.Rest.Side.LeftToExtended);
        Row("Damper motion ratio, heave", "", 4, 1, car => car.Rest.Side.Damper.HeaveRatio);
        Row("Damper motion ratio, roll", "", 4, 1, car => car.Rest.Side.Damper.RollRatio);
        table.Write(output);
        output.WriteLine();
    }
}
