namespace RollRide.Modes;

/// <summary>Names the modes of a vehicle where damping is small, by the motion that holds most of the kinetic energy.</summary>
internal static class VehicleModeNaming
{
    // Of two shapes that hold a motion alike, the one of lower frequency gets the name that comes first.
    private const double Preference = 1e-9;

    /// <summary>Gives each swinging pair a name, so that the shares of the motions they are named after add up to most.</summary>
    /// <param name="system">The eigenvalues.</param>
    /// <param name="coordinates">For each name the weighted coordinate that it is about.</param>
    /// <exception cref="UnnamedModesException">Not every motion swings.</exception>
    public static (int First, int Second)[] Pairs(EigenSystem system, int[] coordinates)
    {
        int[] upper = [.. Enumerable.Range(0, system.Values.Length).Where(k => system.Values[k].Imaginary > 0).OrderBy(k => system.Values[k].Magnitude)];
        if (upper.Length != coordinates.Length)
            throw new UnnamedModesException();

        // Over sets of names given away: the best that the modes of lowest frequency reach with just these.
        var sets = 1 << coordinates.Length;
        var (best, last) = (new double[sets], new int[sets]);
        Array.Fill(best, double.NegativeInfinity);
        best[0] = 0;
        for (var given = 0; given < sets; given++)
        {
            var mode = int.PopCount(given);
            for (var name = 0; name < coordinates.Length; name++)
            {
                if ((given & (1 << name)) != 0)
                    continue;
                var share = EigenSystem.MagnitudeSquared(system.Weighted[upper[mode]][coordinates[name]]) + (Preference * mode * name);
                var next = given | (1 << name);
                if (best[given] + share > best[next])
                    (best[next], last[next]) = (best[given] + share, name);
            }
        }

        var pairs = new (int First, int Second)[coordinates.Length];
        for (var given = sets - 1; given != 0; given &= ~(1 << last[given]))
        {
            var k = upper[int.PopCount(given) - 1];
            pairs[last[given]] = (k, system.ConjugateOf(k));
        }

        return pairs;
    }
}
