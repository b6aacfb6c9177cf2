using System.Globalization;

namespace RollRide.Fuzz;

/// <summary>Makes the cases of a seed number: case n is the same in every run.</summary>
internal sealed class CaseMaker(IReadOnlyList<Seed> seeds, KeyLimits limits, int seed)
{
    // Runs of at most this length, s, are simulated: what takes long by right is only read.
    private const double LongestRun = 30;

    private readonly NumberChanges _numbers = new(limits);

    /// <summary>Makes one case.</summary>
    public FuzzCase Make(int number)
    {
        var random = new Random(HashCodeOf(seed, number));
        var of = seeds[random.Next(seeds.Count)];
        var words = CommandWords.Pick(random);
        var changes = Changes(of.Input, random).OfType<Change>().ToList();
        var made = new FuzzCase(of, words, changes);
        return IsLong(made.Input()) ? made with { Words = ["check", CaseInput.ScenarioName] } : made;
    }

    private Change?[] Changes(CaseInput input, Random random)
    {
        switch (random.Next(20))
        {
            case < 8:
                return Enumerable.Range(0, random.Next(1, 4)).Select(_ => _numbers.Any(input, random)).ToArray();
            case < 10:
                return _numbers.Together(input, random).ToArray();
            case < 13:
                return NumberChanges.Times(input, random).ToArray();
            case < 14:
                return Enumerable.Range(0, random.Next(1, 6)).Select(_ => NumberChanges.Ordinary(input, random)).ToArray();
            case < 17:
                return Enumerable.Range(0, random.Next(1, 4)).Select(_ => StructureChanges.Any(input, random)).ToArray();
            case < 19:
                return Enumerable.Range(0, random.Next(1, 3)).Select(_ => TableChanges.Any(input, random)).ToArray();
            default:
                return Enumerable.Range(0, random.Next(1, 3)).Select(_ => CommandWords.Any(random)).ToArray();
        }
    }

    private static bool IsLong(CaseInput input) =>
        double.TryParse(JsonPlaces.At(input.Scenario, "/manoeuvre/duration_s")?.ToJsonString(), CultureInfo.InvariantCulture, out var duration) && duration > LongestRun;

    // Two numbers into one, well mixed: HashCode of the framework differs from run to run.
    private static int HashCodeOf(int seed, int number)
    {
        var mixed = ((ulong)(uint)seed << 32 | (uint)number) * 0x9E3779B97F4A7C15;
        mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9;
        return (int)((mixed ^ (mixed >> 27)) >> 33);
    }
}
