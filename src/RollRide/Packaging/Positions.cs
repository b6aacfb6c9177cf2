namespace RollRide.Packaging;

/// <summary>Neighbouring lateral positions of the damper, counted in steps of a tenth of a millimetre.</summary>
/// <param name="First">The most inboard one.</param>
/// <param name="Last">The most outboard one.</param>
internal readonly record struct Positions(int First, int Last)
{
    private const double StepsPerMetre = 1e4;

    /// <summary>The middle, m.</summary>
    public double Middle => (First + Last) / (2 * StepsPerMetre);

    /// <summary>Half the width, m; 0 for a single position.</summary>
    public double Half => (Last - First) / (2 * StepsPerMetre);

    public bool IsEmpty => Last < First;

    public bool IsSingle => Last == First;

    /// <summary>All whole steps between two ends, m.</summary>
    public static Positions Between(double from, double to)
    {
        // What rounding alone keeps from being a whole number of steps is one.
        const double Rounding = 1e-6;
        return new((int)Math.Ceiling((from * StepsPerMetre) - Rounding), (int)Math.Floor((to * StepsPerMetre) + Rounding));
    }

    /// <summary>A number of steps, m.</summary>
    public static double Metres(int steps) => steps / StepsPerMetre;

    /// <summary>The least number of steps that is no shorter than a distance, m.</summary>
    public static int StepsIn(double distance) => (int)Math.Ceiling(distance * StepsPerMetre);

    /// <summary>Both halves, the inner one first.</summary>
    public (Positions Inner, Positions Outer) Halves()
    {
        int middle = First + ((Last - First) / 2);
        return (this with { Last = middle }, this with { First = middle + 1 });
    }

    /// <summary>Those that fit, as long ranges, from inboard outward.</summary>
    public IEnumerable<Positions> ThatFit(FitCheck check)
    {
        var open = new Stack<Positions>(IsEmpty ? [] : [this]);
        Positions? fitting = null;
        while (open.TryPop(out var range))
        {
            var fit = check.Judge(range.Middle, range.Half);
            if (fit == FitCheck.Fit.Everywhere)
            {
                fitting = fitting is { } before ? before with { Last = range.Last } : range;
            }
            else if (fit == FitCheck.Fit.Undecided)
            {
                var (inner, outer) = range.Halves();
                open.Push(outer);
                open.Push(inner);
            }
            else if (fitting is { } done)
            {
                yield return done;
                fitting = null;
            }
        }

        if (fitting is { } last)
            yield return last;
    }
}
