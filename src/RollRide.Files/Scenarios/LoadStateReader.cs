using System.Collections.Immutable;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Studies;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Turns the load states of a file into those of the study.</summary>
internal static class LoadStateReader
{
    private const string States = "loadStates", Design = "designLoad";

    // An offset below this, m, is rounding of payloads that balance each other.
    public const double Centred = 1e-9;

    /// <summary>The body at the design load: as written, or in the load state that the file names; null after a fault.</summary>
    /// <param name="context">The file.</param>
    /// <param name="written">The body as the file describes it.</param>
    public static SprungBody? DesignBody(ReadingContext context, SprungBody written)
    {
        if (context.File.DesignLoad is not { } name)
            return written;
        if (context.File.LoadStates.TryGetValue(name, out var state))
        {
            if (Make(context, name, state, written) is not { } load || context.Make(PathOf(name), () => load.Of(written)) is not { } body)
                return null;
            if (Math.Abs(body.CgOffset) < Centred)
                return body with { CgOffset = 0 };
            context.Refuse(Design, $"the vehicle stands level at its design load, but with load state “{name}” the body's centre of gravity is {Unit.Millimetre.Show(Math.Abs(body.CgOffset)):F1} {(body.CgOffset > 0 ? "left" : "right")} of the centre plane; balance the payload there, or let another load be the design load");
            return null;
        }

        context.Refuse(Design, $"there is no load state “{name}”; {(context.File.LoadStates.Count == 0 ? "loadStates holds none" : $"known: {string.Join(", ", context.File.LoadStates.Keys)}")}");
        return null;
    }

    /// <summary>The load states, each as what the body weighs in it.</summary>
    /// <param name="context">The file.</param>
    /// <param name="written">The body as the file describes it.</param>
    public static ImmutableArray<LoadState> Read(ReadingContext context, SprungBody written)
    {
        var states = ImmutableArray.CreateBuilder<LoadState>();
        foreach (var (name, file) in context.File.LoadStates)
        {
            if (string.IsNullOrWhiteSpace(name))
                context.Refuse(PathOf(name), $"a load state needs a name");
            else if (Make(context, name, file, written) is { } state && context.Make(PathOf(name), () => state.Of(written)) is { } body)
            {
                states.Add(new LoadState
                {
                    Name = name,
                    BodyMass = body.Mass,
                    CgHeight = body.CgHeight,
                    RollInertia = body.RollInertia,
                    CgOffset = Math.Abs(body.CgOffset) < Centred ? 0 : body.CgOffset,
                    OtherAxle = OtherAxleLoad.Of(context, name, file),
                    PitchInertia = OtherAxleLoad.PitchInertia(context, file, written),
                });
            }
        }

        return [.. states, .. InDamperStates(context, states.ToImmutable())];
    }

    /// <summary>Each load, or the design load alone, with the dampers in each of their states.</summary>
    private static IEnumerable<LoadState> InDamperStates(ReadingContext context, ImmutableArray<LoadState> loads)
    {
        var names = context.File.Dampers.Where(damper => context.File.Layouts.Any(layout => LayoutReader.DampersOf(layout).Contains(damper.Key)))
            .SelectMany(damper => damper.Value.States.Keys).Distinct().ToArray();
        if (names.Length == 0)
            yield break;
        if (loads.IsEmpty)
            yield return LoadState.Design;
        foreach (var name in names)
        {
            foreach (var load in loads.DefaultIfEmpty(LoadState.Design))
            {
                var joined = loads.IsEmpty ? name : $"{load.Name}, {name}";
                if (loads.IsEmpty && joined == load.Name)
                    context.Refuse(DamperStateReader.PathOf(ReadingContext.PathOfEntry("dampers", context.File.Dampers.First(damper => damper.Value.States.ContainsKey(name)).Key), name), $"this is the name of the damper without a state; give this state another name");
                if (loads.Any(other => other.Name == joined))
                    context.Refuse(PathOf(joined), $"load state “{load.Name}” with dampers in state “{name}” would have the same name; rename one of them");
                yield return load with { Name = joined, DamperState = name };
            }
        }
    }

    /// <summary>Refuses a load under which the vehicle cannot stand, and warns of what is unusual about where it stands.</summary>
    public static void Check(ReadingContext context, StudyCase study)
    {
        if (!study.Vehicle.IsLevelAtDesign)
            Check(context, study, "vehicle.springs");
        foreach (var load in study.Loads.Where(load => context.File.LoadStates.ContainsKey(load.Name)))
            Check(context, study with { Load = load }, PathOf(load.Name));
    }

    private static void Check(ReadingContext context, StudyCase study, string path)
    {
        foreach (var layout in study.Layouts)
        {
            try
            {
                if (context.Make(path, () => study.Settle(layout)) is { } settled)
                {
                    foreach (var warning in RestWarnings.Of(settled))
                        context.Warn(path, $"{warning}");
                }
            }
            catch (NoRestPositionException e)
            {
                context.Refuse(path, $"{e.Reason}");
            }
        }
    }

    /// <summary>Path of a load state in the file.</summary>
    /// <param name="name">Its name.</param>
    public static string PathOf(string name) => ReadingContext.PathOfEntry(States, name);

    private static LoadState? Make(ReadingContext context, string name, LoadStateFile file, SprungBody written) => !OtherAxleLoad.Check(context, PathOf(name), file) ? null : context.Make(PathOf(name), () => new LoadState
    {
        Name = name,
        BodyMass = file.MassKg ?? written.Mass,
        RollInertia = file.RollInertia ?? written.RollInertia,
        CgHeight = (file.CgHeightMm * Unit.Millimetre.InSi) ?? written.CgHeight,
        Masses = [.. file.Payload.Select(part => Mass(part, 1 - OtherAxleLoad.Share(context.File.WholeVehicle, part)))],
    });

    /// <summary>The share of a payload that an axle carries.</summary>
    public static LoadedMass Mass(PayloadFile part, double share) => new()
    {
        Mass = share * part.MassKg,
        Height = part.HeightMm * Unit.Millimetre.InSi,
        Offset = part.LateralOffsetMm * Unit.Millimetre.InSi,
        RollInertia = share * part.RollInertia,
    };
}
