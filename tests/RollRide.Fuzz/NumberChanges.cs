using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace RollRide.Fuzz;

/// <summary>Other numbers: ordinary ones, those at the limits of their key, and absurd ones.</summary>
internal sealed class NumberChanges(KeyLimits limits)
{
    private static readonly double[] Absurd =
        [0, -1, 1, 5e-324, 1e-320, 1e-300, 1e-12, 1e-6, 1e6, -1e6, 1e9, 3e11, 1e15, -1e15, 1e100, 1e300, -1e300, double.MaxValue];

    private static readonly double[] Factors = [-1, 1e-6, 1e-3, 0.01, 0.1, 0.5, 0.999, 1.001, 2, 10, 100, 1e3, 1e6];

    /// <summary>A change of one number to anything.</summary>
    public Change? Any(CaseInput input, Random random) => At(Pick(input, random), random, Value);

    /// <summary>A change of one number to one like it, with few or many decimals.</summary>
    public static Change? Ordinary(CaseInput input, Random random) => At(Pick(input, random), random, (_, number, r) => Near(number, r));

    /// <summary>Changes of all numbers of one object, each to one of its limits or absurd.</summary>
    public IEnumerable<Change> Together(CaseInput input, Random random)
    {
        if (Pick(input, random) is not { } first)
            return [];
        var holder = first.Place[..first.Place.LastIndexOf('/')];
        return Numbers(input).Where(number => number.Place.StartsWith(holder + "/", StringComparison.Ordinal))
            .Select(number => At(number, random, (key, value, r) => r.Next(3) == 0 ? value : Limit(key, r) ?? value)).OfType<Change>();
    }

    /// <summary>Changes of the numbers that say when things happen, each to one like it.</summary>
    public static IEnumerable<Change> Times(CaseInput input, Random random) =>
        Numbers(input).Where(number => number.Place.StartsWith("/manoeuvre", StringComparison.Ordinal) && !number.Place.Contains("singleTrack", StringComparison.Ordinal))
            .Select(number => At(number, random, (_, value, r) => Near(value, r))).OfType<Change>();

    private double Value(string key, double number, Random random) => random.Next(4) switch
    {
        0 => Absurd[random.Next(Absurd.Length)],
        1 => number * Factors[random.Next(Factors.Length)],
        2 => Limit(key, random) ?? number * Factors[random.Next(Factors.Length)],
        _ => Near(number, random),
    };

    private double? Limit(string key, Random random) =>
        limits.Of(key) is { Count: > 0 } of ? of[random.Next(of.Count)] : Absurd[random.Next(Absurd.Length)];

    private static double Near(double number, Random random)
    {
        int[] decimals = [1, 2, 15];
        return Math.Round(number * (0.5 + random.NextDouble()), decimals[random.Next(decimals.Length)]);
    }

    private static (string Place, double Number)? Pick(CaseInput input, Random random)
    {
        var byKey = Numbers(input).GroupBy(number => JsonPlaces.KeyOf(number.Place)).ToArray();
        if (byKey.Length == 0)
            return null;
        var key = byKey[random.Next(byKey.Length)].ToArray();
        return key[random.Next(key.Length)];
    }

    private static IEnumerable<(string Place, double Number)> Numbers(CaseInput input) =>
        JsonPlaces.Below(input.Scenario).Where(entry => entry.Value?.GetValueKind() == JsonValueKind.Number && !entry.Place.StartsWith("/output", StringComparison.Ordinal))
            .Select(entry => (entry.Place, double.Parse(entry.Value!.ToJsonString(), CultureInfo.InvariantCulture)));

    private static Change? At((string Place, double Number)? from, Random random, Func<string, double, Random, double> choose)
    {
        if (from is not { } number)
            return null;
        var key = JsonPlaces.KeyOf(number.Place).Split('/')[^1];
        var value = choose(key, number.Number, random);
        if (!double.IsFinite(value))
            return null;

        // A whole number is written as one: some keys accept no other.
        JsonNode written = Math.Abs(value) < 1e15 && value == Math.Floor(value) ? JsonValue.Create((long)value) : JsonValue.Create(value);
        return new Change($"{number.Place}: {number.Number.ToString("R", CultureInfo.InvariantCulture)} -> {written.ToJsonString()}", input => JsonPlaces.Put(input.Scenario, number.Place, written.DeepClone()));
    }
}
