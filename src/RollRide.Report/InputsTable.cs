using System.Collections.Immutable;
using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Plots;
using RollRide.Vehicle;
using static System.FormattableString;

namespace RollRide.Report;

/// <summary>The inputs of the study: vehicle, mounts and damper forces, as the scenario gives them.</summary>
internal static class InputsTable
{
    private static readonly Unit Millimetre = Unit.Millimetre;

    /// <summary>Writes the section.</summary>
    /// <param name="input">What the report is written from.</param>
    public static Html Write(ReportInput input) => Html.Of(
        $"""
        <section>
        <h2>The inputs</h2>
        <div class="pairs">
        <table class="trace"><caption>Vehicle</caption><tbody>
        {Html.Join(Rows(input.Study.Vehicle, input.Study.Loads))}</tbody></table>
        {OtherAxle(input.Study.Vehicle.SecondAxle, input.Study.Loads)}
        <div>
        {ValvingSheet.Write(input.Verdict, input.Studies.Tuning?.Found, input.Robust?.Found)}
        </div>
        <div>
        <table><caption>Mounts of the left damper</caption>
        <thead><tr><th scope="col">Layout</th><th scope="col">Damper</th><th scope="col">Axle or arm end, mm</th><th scope="col">Body end, mm</th><th scope="col">Ratio, heave</th><th scope="col">Ratio, roll</th><th scope="col">Stroke from ride height, mm</th></tr></thead><tbody>
        {Html.Join(input.Study.Layouts.Select(Mounts))}</tbody></table>
        <p class="note">Points of the left side at the design load: x forward from the axle, y to the left of the centre plane, z up from the road. Motion ratios: damper travel over wheel travel.</p>
        </div>
        </div>
        </section>

        """);

    /// <summary>The other axle and what joins it to this one; nothing where there is none.</summary>
    private static Html OtherAxle(SecondAxle? second, ImmutableArray<LoadState> loads)
    {
        if (second is null)
            return Html.Of($"");
        var (chassis, layout) = (second.Chassis, second.Layout);
        (string, string)[] joined =
        [
            ("Wheelbase", Invariant($"{Millimetre.Show(chassis.Wheelbase):0.#}")),
            ("Torsional stiffness of the frame", chassis.TorsionalStiffness is { } stiffness ? Invariant($"{Unit.NewtonMetrePerDegree.Show(stiffness):0.#}") : "does not twist"),
            ("Pitch inertia of the whole body", chassis.PitchInertia is { } inertia ? Invariant($"{inertia:0.#} kg·m²") : "dynamic index 1"),
            ("Dampers", $"{layout.DamperName}; {Ratios(layout.Fitting)}"),
        ];
        ImmutableArray<LoadState> states = loads.Any(load => load.OtherAxle is not null) ? [.. loads.Select(load => load.OtherAxle ?? LoadState.Design with { Name = load.Name })] : [];
        return Html.Of(
            $"""
            <table class="trace"><caption>Other axle, {(second.Place == Axle.Front ? "front" : "rear")}{(second.IsEstimated ? ", estimated" : "")}</caption><tbody>
            {Html.Join(joined.Select(Row))}{Html.Join(Rows(second.Vehicle, states))}</tbody></table>

            """);
    }

    private static Html Row((string Name, string Value) row) => Html.Of($"<tr><th scope=\"row\">{row.Name}</th><td>{row.Value}</td></tr>\n");

    private static IEnumerable<Html> Rows(HalfCar vehicle, ImmutableArray<LoadState> loads) => Vehicle(vehicle, loads).Select(Row);

    private static List<(string Name, string Value)> Vehicle(HalfCar vehicle, ImmutableArray<LoadState> loads)
    {
        SprungBody[] bodies = loads.IsEmpty ? [vehicle.Body] : [.. loads.Select(load => load.Of(vehicle.Body))];
        var names = loads.IsEmpty ? "" : $" ({string.Join(" · ", loads.Select(load => load.Name))})";
        string OfBodies(Func<SprungBody, double> value, string unit) => $"{string.Join(" · ", bodies.Select(body => PlotText.Number(value(body), 0)))} {unit}";
        List<(string, string)> rows =
        [
            ($"Sprung mass{names}", OfBodies(body => body.Mass, "kg")),
            ($"Roll inertia about its centre of gravity{names}", OfBodies(body => body.RollInertia, "kg·m²")),
            ($"Height of its centre of gravity{names}", OfBodies(body => Millimetre.Of(body.CgHeight), "mm")),
            ("Unsprung mass", Invariant($"{vehicle.Unsprung.Mass:0.#} kg, centre of gravity {Millimetre.Show(vehicle.Unsprung.CgHeight):F0} high{(vehicle.Unsprung.AxleRollInertia is { } inertia ? Invariant($", roll inertia {inertia:0.#} kg·m²") : "")}")),
            ("Track, roll centre height", Invariant($"{Millimetre.Show(vehicle.Track):0.#}, {Millimetre.Show(vehicle.RollCentreHeight):0.#}")),
        ];
        foreach (var (name, side) in vehicle.RightSide is null ? [("", vehicle.On(Side.Left))] : ((string, SuspensionSide)[])[(", left", vehicle.On(Side.Left)), (", right", vehicle.On(Side.Right))])
        {
            rows.Add(($"Spring{(name.Length > 0 ? name : ", each side")}", $"{Spring(side.Spring.Characteristic)}; {Ratios(side.Spring.Fitting)}{(side.Spring.PreloadChange != 0 ? Invariant($"; {side.Spring.PreloadChange:+0;-0} N of preload beyond what holds the body level") : "")}{(side.Spring.Friction is { } friction ? Invariant($"; {friction.Force:0.#} N of friction, built up over {Millimetre.Show(friction.BuildUp):0.#}") : "")}"));
            if (side.BumpStop is { } bump)
                rows.Add(($"Bump stop{name}", Stop(bump)));
            if (side.ReboundStop is { } rebound)
                rows.Add(($"Rebound stop{name}", Stop(rebound)));
        }

        rows.Add(("Anti-roll bar", Invariant($"{Unit.NewtonMetrePerDegree.Show(vehicle.AntiRollBar):0.#}")));
        rows.Add(("Tyre, each", Invariant($"{Unit.NewtonPerMillimetre.Show(vehicle.Tyre.Stiffness):0.#}, {vehicle.Tyre.Damping:0.#} N·s/m{(vehicle.Tyre.DualSpacing is { } spacing ? Invariant($"; dual, {Millimetre.Show(spacing):0.#} apart") : "")}")));
        if (vehicle.Travel is { } travel)
            rows.Add(("Travel", Invariant($"bump {Millimetre.Show(travel.Bump):0.#}, rebound {Millimetre.Show(travel.Rebound):0.#}, roll {Unit.Degree.Show(travel.Roll):0.#}")));
        if (vehicle.SeatOffset != 0)
            rows.Add(("Seat, left of the centre", Invariant($"{Millimetre.Show(vehicle.SeatOffset):0.#}")));
        return rows;
    }

    private static string Spring(SpringCharacteristic spring)
    {
        string Table(PiecewiseLinear curve) => string.Join(", ", curve.X.Zip(curve.Y, (x, y) => Invariant($"{Millimetre.Show(x):0.#} {y:F0} N")));
        return spring switch
        {
            LinearSpring linear => Invariant($"{Unit.NewtonPerMillimetre.Show(linear.Rate):0.##}"),
            FreeLengthSpringTable free => $"from free length {Table(free.Curve)}",
            RideHeightSpringTable table => $"from ride height {Table(table.Curve)}",
            _ => "as in the scenario",
        };
    }

    private static string Stop(TravelStop stop) => Invariant($"{Millimetre.Show(stop.Clearance):0.#} clearance, {stop.Force(0.01):F0} N at 10 mm, {stop.Force(0.03):F0} N at 30 mm of compression; {Ratios(stop.Fitting)}");

    private static string Ratios(IFitting fitting) => Invariant($"ratio {fitting.HeaveRatio:F3} in heave, {fitting.RollRatio:F3} in roll");

    private static Html Mounts(DamperLayout layout) => layout.RightSide is { } right
        ? Html.Of($"{Mounts($"{layout.Name}, left", layout.On(Side.Left))}{Mounts($"{layout.Name}, right", right)}")
        : Mounts(layout.Name, layout.On(Side.Left));

    private static Html Mounts(string name, DamperSide layout)
    {
        static string Listed(params double[] coordinates) => string.Join(", ", coordinates.Select(coordinate => Invariant($"{Millimetre.Of(coordinate):0.#}").Replace('-', '−')));
        static string At(Point3 point) => Listed(point.X, point.Y, point.Z);
        static string InView(RearViewPoint point) => Listed(point.Y, point.Z);
        var (lower, upper) = layout.Fitting switch
        {
            LiveAxleMountFitting mounts => (At(mounts.AxleEnd), At(mounts.BodyEnd)),
            LinkageMountFitting mounts => (At(mounts.LinkageEnd), At(mounts.BodyEnd)),
            ArmMountFitting arm => (InView(arm.LowerMount), InView(arm.UpperMount)),
            _ => ("–", "–"),
        };
        return Html.Of($"<tr><th scope=\"row\">{name}</th><td>{layout.Damper.Name}</td><td>{lower}</td><td>{upper}</td><td>{Invariant($"{layout.Fitting.HeaveRatio:F3}")}</td><td>{Invariant($"{layout.Fitting.RollRatio:F3}")}</td><td>{Stroke(layout)}</td></tr>\n");
    }

    private static string Stroke(DamperSide layout)
    {
        string[] known =
        [
            .. layout.CompressionTravel is { } closing ? [Invariant($"{Millimetre.Of(closing):0.#} to closed")] : Array.Empty<string>(),
            .. layout.ReboundTravel is { } opening ? [Invariant($"{Millimetre.Of(opening):0.#} to extended")] : Array.Empty<string>(),
        ];
        return known.Length == 0 ? "not given" : string.Join(", ", known);
    }
}
