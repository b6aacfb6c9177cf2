using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>What a load state puts on the other axle of a vehicle with two: payload that stands somewhere between them loads both, by its lever arms.</summary>
internal static class OtherAxleLoad
{
    /// <summary>The part of a payload that the other axle carries: 0 where the file does not say where it stands.</summary>
    /// <param name="file">The vehicle around the axle; null for one axle.</param>
    /// <param name="part">The payload.</param>
    public static double Share(WholeVehicleFile? file, PayloadFile part)
    {
        if (file is null || part.BehindFrontAxleMm is not { } behind)
            return 0;
        var rear = behind / file.WheelbaseMm;
        return file.StudiedAxle == Axle.Rear ? 1 - rear : rear;
    }

    /// <summary>Refuses what only a vehicle with two axles can have.</summary>
    public static bool Check(ReadingContext context, string path, LoadStateFile file)
    {
        if (context.File.WholeVehicle is not null)
            return true;
        var before = context.Faults.Count;
        if (file.OtherAxle is not null)
            context.Refuse($"{path}.otherAxle", $"this file has one axle only; give wholeVehicle, or leave this key out");
        for (var i = 0; i < file.Payload.Count; i++)
        {
            if (file.Payload[i].BehindFrontAxleMm is not null)
                context.Refuse($"{path}.payload[{i}].behindFrontAxle_mm", $"where a mass stands lengthwise counts with two axles only; give wholeVehicle, or this axle's share of the mass without this key");
        }

        return context.Faults.Count == before;
    }

    /// <summary>The load state of the other axle; null where there is none or after a fault.</summary>
    public static LoadState? Of(ReadingContext context, string name, LoadStateFile file)
    {
        if (context.File.WholeVehicle is not { } whole || context.Vehicle?.SecondAxle is not { } second)
            return null;
        if (whole.OtherAxle.Vehicle is { } written)
            return Combined(context, name, file, VehicleReader.WrittenBody(written.Body), null);

        // An estimate holds at the design load: what the payload there weighs is in it already.
        var design = context.File.DesignLoad is { } known && context.File.LoadStates.TryGetValue(known, out var state) ? state : null;
        return Combined(context, name, file, second.Vehicle.Body, design);
    }

    /// <summary>The body on the other axle at the design load of the file.</summary>
    /// <param name="context">The file.</param>
    /// <param name="written">That body as written.</param>
    public static SprungBody? Design(ReadingContext context, SprungBody written) =>
        context.File.DesignLoad is { } name && context.File.LoadStates.TryGetValue(name, out var state)
            ? Combined(context, name, state, written, null) is { } load ? load.Of(written) : null
            : written;

    /// <summary>
    /// Pitch inertia of the body with the payload, about the centre of gravity of both, kg·m²: parallel axes, payload as points; null where the file
    /// gives none, or for one axle.
    /// </summary>
    /// <param name="context">The file.</param>
    /// <param name="file">The load state.</param>
    /// <param name="studied">The body on the studied axle as written.</param>
    public static double? PitchInertia(ReadingContext context, LoadStateFile file, SprungBody studied)
    {
        if (context.File.WholeVehicle is not { PitchInertia: { } inertia } whole || context.Vehicle?.SecondAxle is not { } second)
            return null;
        var length = second.Chassis.Wheelbase;
        var (own, other) = second.StudiedPlace == Axle.Front ? (0.0, length) : (length, 0.0);
        var body = whole.OtherAxle.Vehicle is { } written ? VehicleReader.WrittenBody(written.Body) : second.Vehicle.Body;
        var (m1, m2) = (file.MassKg ?? studied.Mass, file.OtherAxle?.MassKg ?? body.Mass);
        var bare = (
            Mass: m1 + m2,
            X: ((m1 * own) + (m2 * other)) / (m1 + m2),
            Z: ((m1 * (file.CgHeightMm * Unit.Millimetre.InSi ?? studied.CgHeight)) + (m2 * (file.OtherAxle?.CgHeightMm * Unit.Millimetre.InSi ?? body.CgHeight))) / (m1 + m2));
        (double Mass, double X, double Z)[] parts = [bare, .. file.Payload.Select(part => (part.MassKg, part.BehindFrontAxleMm * Unit.Millimetre.InSi ?? own, part.HeightMm * Unit.Millimetre.InSi))];
        var mass = parts.Sum(part => part.Mass);
        var (x, z) = (parts.Sum(part => part.Mass * part.X) / mass, parts.Sum(part => part.Mass * part.Z) / mass);
        return inertia + parts.Sum(part => part.Mass * (((part.X - x) * (part.X - x)) + ((part.Z - z) * (part.Z - z))));
    }

    private static LoadState? Combined(ReadingContext context, string name, LoadStateFile file, SprungBody written, LoadStateFile? without)
    {
        var path = LoadStateReader.PathOf(name);
        var state = context.Make(path, () => new LoadState
        {
            Name = name,
            BodyMass = file.OtherAxle?.MassKg ?? written.Mass,
            RollInertia = file.OtherAxle?.RollInertia ?? written.RollInertia,
            CgHeight = file.OtherAxle?.CgHeightMm * Unit.Millimetre.InSi ?? written.CgHeight,
            Masses = [.. Masses(file, 1), .. without is null ? [] : Masses(without, -1)],
        });
        if (state is null || context.Make(path, () => state.Of(written)) is not { } body)
            return null;
        return new LoadState { Name = name, BodyMass = body.Mass, CgHeight = body.CgHeight, RollInertia = body.RollInertia, CgOffset = body.CgOffset };

        IEnumerable<LoadedMass> Masses(LoadStateFile of, double sign) =>
            of.Payload.Where(part => part.BehindFrontAxleMm is not null).Select(part => LoadStateReader.Mass(part, sign * Share(context.File.WholeVehicle, part)));
    }
}
