using RollRide.Modes;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;
using static System.FormattableString;

namespace RollRide.Findings;

/// <summary>What the vehicle around the axle changes, in words: what the other axle makes up for, and which axle carries the load while roll settles.</summary>
public static class VehicleConclusions
{
    // Share of the load transfer, as a ratio: less is not felt at the steering wheel; common practice, no source.
    private const double Noticeable = 0.01;

    /// <summary>The caution about load transfer.</summary>
    public const string TyreCaution = "The tyres' side forces are not solved for here.";

    /// <summary>What a comparison says of the vehicle; nothing where the axle is looked at by itself.</summary>
    /// <param name="result">What the layouts did.</param>
    public static IEnumerable<string> Of(ComparisonResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var layouts = result.Layouts.Where(layout => layout.OnVehicle is not null).Select(layout => (layout.Name, Vehicle: layout.OnVehicle!)).ToArray();
        return layouts.Length == 0 ? [] : [.. OnDamping(result.Study, layouts), .. OnWindow([.. layouts.Select(layout => (layout.Name, layout.Vehicle.Window, layout.Vehicle.Modes.RollsInParts))]), .. OnTransfer(layouts)];
    }

    /// <summary>What the modes say of the vehicle; nothing where the axle is looked at by itself.</summary>
    /// <param name="result">The modes.</param>
    public static IEnumerable<string> Of(ModesResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        var layouts = result.Layouts.Where(layout => layout.OnVehicle is not null).Select(layout => (layout.Name, Vehicle: layout.OnVehicle!)).ToArray();
        return layouts.Length == 0 ? [] : OnDamping(result.Study, layouts);
    }

    /// <summary>What the windows say of the vehicle; nothing where the axle is looked at by itself.</summary>
    /// <param name="result">The windows.</param>
    public static IEnumerable<string> Of(SettingWindowResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        return result.Study.Vehicle.SecondAxle is null ? []
            : ["The windows above are those of this axle alone.", .. OnWindow([.. result.Layouts.Select(layout => (layout.Name, layout.OnVehicle, layout.RollsInParts))])];
    }

    /// <summary>The other axle's name.</summary>
    public static string OtherAxle(HalfCar vehicle)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        return vehicle.SecondAxle is { Place: Axle.Front } ? "front axle" : "rear axle";
    }

    /// <summary>The frame in words.</summary>
    /// <param name="vehicle">The vehicle, with two axles.</param>
    public static string Frame(HalfCar vehicle)
    {
        ArgumentNullException.ThrowIfNull(vehicle);
        return vehicle.SecondAxle!.Chassis.TorsionalStiffness switch
        {
            null => "a frame that does not twist",
            0 => "no torsional stiffness between the axles",
            { } stiffness => Invariant($"a frame of {Unit.NewtonMetrePerDegree.Show(stiffness):F0}"),
        };
    }

    private static IEnumerable<string> OnDamping(StudyCase study, (string Name, LayoutOnVehicle Vehicle)[] layouts)
    {
        var best = LayoutOnVehicle.ReferenceOf(layouts.Select(layout => layout.Vehicle));
        var reference = layouts.First(layout => layout.Vehicle == best);
        var worst = layouts.MinBy(layout => layout.Vehicle.Alone.Roll.DampingRatio);
        var (other, frame) = (OtherAxle(study.Vehicle), Frame(study.Vehicle));
        var (alone, onVehicle) = (worst.Vehicle.Alone.Roll.DampingRatio, worst.Vehicle.Modes.Roll.DampingRatio);
        if (worst.Vehicle.Modes is { RollsInParts: true } soft)
        {
            yield return Invariant($"With {frame} the two ends of the body roll nearly independently: they twist against each other at {soft[VehicleModeName.Twist]!.NaturalFrequency:F1} Hz and roll together at {soft.Roll.NaturalFrequency:F1} Hz. So there is no single number for what the {other} makes up; look at the roll of this axle over time.");
            yield break;
        }

        if (worst.Vehicle.MadeUpAgainst(reference.Vehicle) is { } madeUp)
        {
            yield return Invariant($"Both axles damp roll. On the whole vehicle, with {frame}, the roll damping ratio falls from {Ratio(reference.Vehicle.Modes.Roll.DampingRatio)} with “{reference.Name}” to {Ratio(onVehicle)} with “{worst.Name}”, on the axle alone from {Ratio(reference.Vehicle.Alone.Roll.DampingRatio)} to {Ratio(alone)}: the {other} makes up {100 * madeUp:F0} % of the loss.");
        }
        else
        {
            yield return Invariant($"On the whole vehicle, with {frame}, the roll damping ratio is {Ratio(onVehicle)} with “{worst.Name}”; on the axle alone it would be {Ratio(alone)}.");
        }

        var shared = (layouts.Length > 1 && reference.Name != worst.Name ? [reference, worst] : new[] { worst })
            .Select(layout => (layout.Name, Shares: layout.Vehicle.Modes.Roll.DampingShares)).Where(layout => layout.Shares is not null).ToArray();
        if (shared.Length == 0)
            yield break;
        string Each(Func<DampingShares, double> share) => string.Join(" and ", shared.Select(layout => Invariant($"{100 * share(layout.Shares!):F0} %")));
        yield return $"Of the roll mode's damping this axle's dampers give {string.Join(" and ", shared.Select(layout => Invariant($"{100 * layout.Shares!.Own:F0} % with “{layout.Name}”")))}; those of the {other} {Each(shares => shares.Second)}, tyres and frame {Each(shares => shares.Rest)}.";
    }

    private static IEnumerable<string> OnWindow((string Name, WindowVerdict? Verdict, bool RollsInParts)[] layouts)
    {
        if (layouts.All(layout => layout.Verdict is null))
            yield break;
        if (layouts.Any(layout => layout.RollsInParts))
        {
            yield return "With so soft a frame the roll mode is mostly that of one end of the body, so a window on the whole vehicle would say little about this axle's dampers. Go by the window of this axle alone.";
            yield break;
        }

        var open = layouts.Where(layout => layout.Verdict is { Window.IsOpen: true }).ToArray();
        yield return open.Length == 0
            ? "On the whole vehicle (roll of both axles; neither bounce nor pitch damped too much) no setting of any layout meets all targets."
            : $"On the whole vehicle (roll of both axles; neither bounce nor pitch damped too much) the setting window is open with {string.Join(", ", open.Select(layout => Invariant($"“{layout.Name}” ({Unit.KilonewtonSecondPerMetre.Of(layout.Verdict!.Window.Lower.Coefficient):F2} to {Unit.KilonewtonSecondPerMetre.Show(layout.Verdict.Window.Upper.Coefficient):F2})")))}.";
    }

    private static IEnumerable<string> OnTransfer((string Name, LayoutOnVehicle Vehicle)[] layouts)
    {
        var driven = layouts.Where(layout => layout.Vehicle.Transfer is { LargestDeviation: not null }).ToArray();
        if (driven.Length == 0)
            yield break;
        var (name, vehicle) = driven.MaxBy(layout => Math.Abs(layout.Vehicle.Transfer!.LargestDeviation!.Value));
        var transfer = vehicle.Transfer!;
        var (steady, deviation) = (transfer.Steady!.Value, transfer.LargestDeviation!.Value);
        yield return Math.Abs(deviation) < Noticeable
            ? Invariant($"In the corner from rest the front axle carries {100 * steady:F0} % of the load transfer, while roll settles too{(driven.Length > 1 ? ", with all layouts" : "")}. {TyreCaution}")
            : Invariant($"In the corner from rest the front axle carries {100 * steady:F0} % of the load transfer once roll has settled; while it settles, this share is {100 * (steady + deviation):F0} % after {transfer.LargestDeviationTime:F2} s with “{name}”: {(deviation > 0 ? "more than steady, towards understeer" : "less than steady, towards oversteer")} at that instant. {TyreCaution}");
    }

    private static string Ratio(double ratio) => Conclusions.Ratio(ratio);
}
