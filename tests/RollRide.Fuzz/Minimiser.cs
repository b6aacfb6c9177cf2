namespace RollRide.Fuzz;

/// <summary>Leaves out of a failing case whatever the failure does not need.</summary>
internal sealed class Minimiser(Func<FuzzCase, string?> signatureOf)
{
    // Each try runs the command; what fails slowly is left larger.
    private const int Tries = 120;

    /// <summary>The smallest case found that fails in the same way.</summary>
    public FuzzCase Minimise(FuzzCase failing, string signature, TimeSpan budget)
    {
        var end = DateTime.UtcNow + budget;
        var left = Tries;
        bool StillFails(FuzzCase tried) => left-- > 0 && DateTime.UtcNow < end && signatureOf(tried) == signature;

        for (var i = failing.Changes.Count - 1; i >= 0; i--)
        {
            var without = failing with { Changes = [.. failing.Changes.Where((_, k) => k != i)] };
            if (StillFails(without))
                failing = without;
        }

        // The largest parts first: once they are gone, what is in them need not be tried.
        var places = JsonPlaces.Below(failing.Seed.Input.Scenario)
            .OrderByDescending(entry => entry.Value?.ToJsonString().Length ?? 0).ThenBy(entry => entry.Place, StringComparer.Ordinal)
            .Select(entry => entry.Place).ToArray();
        foreach (var place in places)
        {
            if (left <= 0 || !JsonPlaces.Has(failing.Input().Scenario, place))
                continue;
            var smaller = failing.Seed.Input.Copy();
            JsonPlaces.Remove(smaller.Scenario, place);
            var without = failing with { Seed = new Seed(failing.Seed.Name, smaller) };
            if (StillFails(without))
                failing = without;
        }

        return failing;
    }
}
