using System.Collections.Immutable;
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
    public static LoadState? Of(ReadingContext context, string name, LoadStateFile file) =>
        context.Vehicle?.SecondAxle is { } second && Bare(context, second.Vehicle.Body) is { } bare ? Combined(context, name, file, bare) : null;

    /// <summary>The body on the other axle at the design load of the file; null after a fault.</summary>
    /// <param name="context">The file.</param>
    /// <param name="written">That body as written.</param>
    public static SprungBody? Design(ReadingContext context, SprungBody written) => DesignState(context) is not var (name, state) ? written
        : Combined(context, name, state, written)?.Of(written) is { } body ? Level(context, name, body) : null;

    /// <summary>Refuses a design load that an estimate of the other axle cannot be of.</summary>
    /// <param name="context">The file.</param>
    /// <param name="estimated">The body as estimated.</param>
    public static void CheckEstimate(ReadingContext context, SprungBody estimated)
    {
        if (DesignState(context) is not var (name, state))
            return;
        if (state.OtherAxle is not null)
            context.Refuse($"{LoadStateReader.PathOf(name)}.otherAxle", $"this is the design load, and axleLoad_kg of the estimate says what the other axle carries there; leave this key out");
        else if (Bare(context, estimated) is { } bare)
            Level(context, name, bare);
    }

    /// <summary>Pitch inertia of the body at the design load, kg·m²; null where the file gives none.</summary>
    /// <param name="context">The file.</param>
    /// <param name="other">The body on the other axle at the design load.</param>
    public static double? DesignPitchInertia(ReadingContext context, SprungBody other) => DesignState(context) is var (_, state)
        ? PitchInertia(context, state, VehicleReader.WrittenBody(context.File.Vehicle.Body), other)
        : context.File.WholeVehicle!.PitchInertia;

    /// <summary>
    /// Pitch inertia of the body with the payload, about the centre of gravity of both, kg·m²: parallel axes, payload as points; null where the file
    /// gives none, or for one axle.
    /// </summary>
    /// <param name="context">The file.</param>
    /// <param name="file">The load state.</param>
    /// <param name="studied">The body on the studied axle as written.</param>
    public static double? PitchInertia(ReadingContext context, LoadStateFile file, SprungBody studied) =>
        context.Vehicle?.SecondAxle is { } second ? PitchInertia(context, file, studied, second.Vehicle.Body) : null;

    private static double? PitchInertia(ReadingContext context, LoadStateFile file, SprungBody studied, SprungBody otherAtDesign)
    {
        if (context.File.WholeVehicle is not { PitchInertia: { } inertia } whole || Bare(context, otherAtDesign) is not { } body)
            return null;
        var length = whole.WheelbaseMm * Unit.Millimetre.InSi;
        var (own, other) = whole.StudiedAxle == Axle.Front ? (0.0, length) : (length, 0.0);
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

    private static (string Name, LoadStateFile State)? DesignState(ReadingContext context) =>
        context.File.DesignLoad is { } name && context.File.LoadStates.TryGetValue(name, out var state) ? (name, state) : null;

    /// <summary>The body on the other axle without payload; null after a fault.</summary>
    private static SprungBody? Bare(ReadingContext context, SprungBody atDesign)
    {
        if (context.File.WholeVehicle!.OtherAxle.Vehicle is { } written)
            return VehicleReader.WrittenBody(written.Body);

        // An estimate holds at the design load: what the payload there weighs is in it already.
        if (DesignState(context) is not var (name, state))
            return atDesign;
        try
        {
            return new LoadState { Name = name, Masses = Masses(context, state, -1) }.Of(atDesign);
        }
        catch (ArgumentException)
        {
            var payload = Masses(context, state, 1).Sum(part => part.Mass);
            context.Refuse("wholeVehicle.otherAxle.estimate.axleLoad_kg", $"at the design load “{name}” it holds {payload:F1} kg of payload, and no plausible body is left of {atDesign.Mass:F1} kg without it; more load is needed, or less payload on this axle");
            return null;
        }
    }

    private static SprungBody? Level(ReadingContext context, string name, SprungBody body)
    {
        if (Math.Abs(body.CgOffset) < LoadStateReader.Centred)
            return body with { CgOffset = 0 };
        context.Refuse("designLoad", $"the vehicle stands level at its design load, but load state “{name}” puts more on one side of the other axle than on the other; balance the payload there, or let another load be the design load");
        return null;
    }

    private static LoadState? Combined(ReadingContext context, string name, LoadStateFile file, SprungBody bare)
    {
        var path = LoadStateReader.PathOf(name);
        var state = context.Make(path, () => new LoadState
        {
            Name = name,
            BodyMass = file.OtherAxle?.MassKg,
            RollInertia = file.OtherAxle?.RollInertia,
            CgHeight = file.OtherAxle?.CgHeightMm * Unit.Millimetre.InSi,
            Masses = Masses(context, file, 1),
        });
        return state is null || context.Make(path, () => state.Of(bare)) is not { } body ? null : new LoadState
        {
            Name = name,
            BodyMass = body.Mass,
            CgHeight = body.CgHeight,
            RollInertia = body.RollInertia,
            CgOffset = Math.Abs(body.CgOffset) < LoadStateReader.Centred ? 0 : body.CgOffset,
        };
    }

    private static ImmutableArray<LoadedMass> Masses(ReadingContext context, LoadStateFile of, double sign) =>
        [.. of.Payload.Where(part => part.BehindFrontAxleMm is not null).Select(part => LoadStateReader.Mass(part, sign * Share(context.File.WholeVehicle, part)))];
}
