using System.Collections.Immutable;
using RollRide.Damping;

namespace RollRide.Scenarios;

/// <summary>Turns the states of a damper of a file into their records.</summary>
internal static class DamperStateReader
{
    // Share by which a hotter or worn curve may be stiffer before it is told of; dynamometers repeat to about 1 %: common practice, no source.
    private const double Repeats = 0.02;

    // Words in the name of a state that say how old the damper is in it.
    private static readonly string[] Old = ["worn", "old", "used", "aged"], New = ["new", "fresh"];

    /// <summary>Reads the states; those with a fault are left out.</summary>
    /// <param name="context">The file.</param>
    /// <param name="path">Path of the damper.</param>
    /// <param name="file">The damper.</param>
    /// <param name="curve">Its curve as it is written, before any scale.</param>
    public static ImmutableArray<DamperState> Read(ReadingContext context, string path, DamperFile file, ForceVelocityCurve curve)
    {
        if (file.States.Count == 0 || context.Make(path, () => DamperState.Of("as written", curve, curve, file.Temperature)) is not { } written)
            return [];
        var measured = new Dictionary<string, DamperState>();
        foreach (var (name, state) in file.States)
        {
            var at = PathOf(path, name);
            if (string.IsNullOrWhiteSpace(name))
                context.Refuse(at, $"a state needs a name");
            else if (state is { Curve: null, Dyno: null, ForceScale: null, Temperature: null })
                context.Refuse(at, $"this state changes nothing: give curve, dyno, forceScale or temperature_degC");
            else if (HasCurve(state) && CurveOf(context, at, file, state, curve) is { } own && context.Make(at, () => DamperState.Of(name, curve, own, state.Temperature)) is { } read)
                measured.Add(name, read);
        }

        // The damper as written is one of the curves between which others lie.
        DamperState[] known = [.. measured.Values.Append(written).Where(state => state.Temperature is not null).OrderBy(state => state.Temperature)];
        WarnOfStifferWhenHot(context, path, known);
        foreach (var state in measured.Values.Where(state => state.Temperature is null || state.Temperature == written.Temperature))
            WarnOfStifferWhenWorn(context, PathOf(path, state.Name), state);
        var states = ImmutableArray.CreateBuilder<DamperState>();
        foreach (var (name, state) in file.States)
        {
            if (measured.TryGetValue(name, out var own))
                states.Add(own);
            else if (!HasCurve(state) && state.Temperature is { } temperature && Between(context, PathOf(path, name), name, temperature, known) is { } between)
                states.Add(between);
        }

        return states.ToImmutable();
    }

    private static bool HasCurve(DamperStateFile state) => state.Curve is not null || state.Dyno is not null || state.ForceScale is not null;

    /// <summary>Path of a state in the file.</summary>
    /// <param name="damper">Path of its damper.</param>
    /// <param name="name">Its name.</param>
    public static string PathOf(string damper, string name) => ReadingContext.PathOfEntry($"{damper}.states", name);

    private static ForceVelocityCurve? CurveOf(ReadingContext context, string path, DamperFile damper, DamperStateFile state, ForceVelocityCurve otherwise)
    {
        var own = state.Curve is null && state.Dyno is null ? otherwise : CurveReader.Read(context, path, state.Curve, state.Dyno, damper.Interpolation)?.Curve;
        return own?.Scaled(state.ForceScale ?? 1);
    }

    private static DamperState? Between(ReadingContext context, string path, string name, double temperature, DamperState[] known)
    {
        var key = $"{path}.temperature_degC";
        if (known.Length < 2)
        {
            context.Refuse(key, $"a state with a temperature alone lies between two curves whose temperatures are known, and there {(known.Length == 1 ? "is one" : "is none")}: give temperature_degC to the damper and to a state with a curve of its own");
            return null;
        }

        if (temperature < known[0].Temperature || temperature > known[^1].Temperature)
        {
            context.Refuse(key, $"the curves cover {known[0].Temperature} to {known[^1].Temperature} °C; beyond that the force is unknown");
            return null;
        }

        if (known.FirstOrDefault(state => known.Any(other => other != state && other.Temperature == state.Temperature)) is { } twice)
        {
            var same = Array.FindLast(known, other => other.Temperature == twice.Temperature)!;
            context.Refuse(key, $"for {twice.Temperature} °C there are two curves, “{twice.Name}” and “{same.Name}”, so that this state could lie between either and the rest; give it a curve or forceScale of its own");
            return null;
        }

        var above = Math.Max(1, Array.FindIndex(known, state => state.Temperature >= temperature));
        return context.Make(key, () => DamperState.Between(name, temperature, known[above - 1], known[above]));
    }

    private static void WarnOfStifferWhenHot(ReadingContext context, string path, DamperState[] known)
    {
        for (var i = 1; i < known.Length; i++)
        {
            var (cooler, hotter) = (known[i - 1], known[i]);
            if (cooler.Temperature == hotter.Temperature)
                continue;
            double[] stiffer = [.. hotter.Velocities.Where(velocity => hotter.RatioAt(velocity) > (1 + Repeats) * cooler.RatioAt(velocity))];
            if (stiffer.Length > 0)
                context.Warn(path, $"at {stiffer[0]:0.###} m/s the damper gives {100 * ((hotter.RatioAt(stiffer[0]) / cooler.RatioAt(stiffer[0])) - 1):F0} % more force at {hotter.Temperature} °C (“{hotter.Name}”) than at {cooler.Temperature} °C (“{cooler.Name}”); hot oil is thinner, and dampers lose force with it: are the two swapped?");
        }
    }

    /// <summary>A state whose name says that the damper is older in it than as written should not be stiffer, nor a newer one softer.</summary>
    private static void WarnOfStifferWhenWorn(ReadingContext context, string path, DamperState state)
    {
        var words = state.Name.Split([' ', ',', '-', '_'], StringSplitOptions.RemoveEmptyEntries);
        bool Says(string[] any) => words.Any(word => any.Contains(word, StringComparer.OrdinalIgnoreCase));
        var (isOld, isNew) = (Says(Old), Says(New));
        if (isOld == isNew)
            return;
        foreach (var velocity in state.Velocities)
        {
            var gain = state.RatioAt(velocity) - 1;
            if (isOld ? gain <= Repeats : gain >= -Repeats)
                continue;
            context.Warn(path, $"at {velocity:0.###} m/s the damper gives {100 * Math.Abs(gain):F0} % {(isOld ? "more" : "less")} force in this state than as written; wear takes force away: are the two swapped?");
            return;
        }
    }
}
