using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Scenarios;

/// <summary>Turns the friction of a spring of a file, or the loop it was measured in, into its record.</summary>
internal static class SpringFrictionReader
{
    private const string Deflection = "deflection_mm", Force = "force_N";

    // A loop counts as closed if its ends differ by no more than this share of its size; common practice, no source.
    private const double Gap = 0.03;

    // Rates of one spring, from two measurements, differ by less than this share; common practice, no source.
    private const double SameRate = 0.15;

    /// <summary>Reads the friction; null after a fault, or without one.</summary>
    public static SpringFriction? Read(ReadingContext context, string path, SpringFrictionFile? file, SpringCharacteristic spring)
    {
        if (file is null)
            return null;
        if (file.Force == 0)
        {
            if (file.BuildUpMm is not null)
                context.Refuse($"{path}.buildUp_mm", $"with a force_N of 0 there is no friction that builds up; leave it out");
            return null;
        }

        if (file.Loop is { } loop)
        {
            if (file.BuildUpMm is null)
                return ReadLoop(context, $"{path}.loop", loop, spring);
            context.Refuse($"{path}.buildUp_mm", $"the build-up follows from the loop{context.LineOf($"{path}.loop")}; leave out one of the two");
            return null;
        }

        if (file.BuildUpMm is { } buildUp)
            return context.Make(path, () => new SpringFriction(file.Force!.Value, buildUp * Unit.Millimetre.InSi));
        context.Refuse($"{path}.force_N", $"a friction force also needs buildUp_mm, the deflection over which it builds up after a reversal: millimetres for most leaf springs");
        return null;
    }

    private static SpringFriction? ReadLoop(ReadingContext context, string path, string name, SpringCharacteristic spring)
    {
        var meanSlope = 0.0;
        if (context.Table(path, name, [Deflection, Force]) is not { } table || context.Make(path, () => OfLoop(table, out meanSlope)) is not { } friction)
            return null;
        var amplitude = 0.5 * (table.Column(Deflection).Max() - table.Column(Deflection).Min()) * Unit.Millimetre.InSi;
        var added = friction.StiffnessAt(amplitude);
        var (left, (least, greatest)) = (meanSlope - added, spring.Rates);
        if (left < (1 - SameRate) * least || left > (1 + SameRate) * greatest)
        {
            string Rate(double rate) => FormattableString.Invariant($"{Unit.NewtonPerMillimetre.Of(rate):0.#}");
            context.Warn(path, $"from tip to tip the loop rises by {Rate(meanSlope)} N/mm, of which its friction makes {Rate(added)}: that leaves {Rate(left)} N/mm for the spring, which is given with {(least == greatest ? Rate(least) : $"{Rate(least)} to {Rate(greatest)}")} N/mm; were both measured on the same spring, and at the spring?");
        }

        return friction;
    }

    private static SpringFriction OfLoop(NumericTable table, out double meanSlope)
    {
        DataFileException Refused(int row, string column, FormattableString reason) => new(table.FaultAt(row, column, FormattableString.Invariant(reason)));
        double[] x = [.. table.Column(Deflection).Select(mm => mm * Unit.Millimetre.InSi)], force = [.. table.Column(Force)];
        var (low, high) = (Array.IndexOf(x, x.Min()), Array.IndexOf(x, x.Max()));
        var (amplitude, span) = ((x[high] - x[low]) / 2, force.Max() - force.Min());
        if (!(amplitude > 0) || !(span > 0))
            throw Refused(0, Deflection, $"every row has the same deflection or the same force; a loop goes up and comes back");
        meanSlope = (force[high] - force[low]) / (2 * amplitude);
        var last = x.Length - 1;
        if (Math.Abs(x[last] - x[0]) > Gap * 2 * amplitude || Math.Abs(force[last] - force[0]) > Gap * span)
            throw Refused(last, Deflection, $"the loop is open: it begins at {Unit.Millimetre.Of(x[0]):G4} mm, {force[0]:G4} N and ends at {Unit.Millimetre.Of(x[last]):G4} mm, {force[last]:G4} N; one full turn is needed that ends within {100 * Gap:F0} % of its size from where it began");

        // One way up and one way down: the turning points part the loop.
        var up = Branch(x, force, low, high);
        var down = Branch(x, force, high, low);
        if (FirstBack(up, 1) is { } risen)
            throw Refused(risen, Deflection, $"on the way from the least to the largest deflection it goes back here; one turn with two reversals is needed");
        if (FirstBack(down, -1) is { } fallen)
            throw Refused(fallen, Deflection, $"on the way from the largest to the least deflection it goes on again here; one turn with two reversals is needed");
        var area = Area(up) + Area(down);
        if (area <= 0)
            throw Refused(0, Force, $"the loop runs the wrong way round: it would give out {-area:G4} J a turn, and friction takes energy up. On the way into compression the force must be the higher one; turn the sign of deflections and forces, or the order of the rows");
        var middle = 0.5 * (x[low] + x[high]);
        var halfWidth = 0.5 * (At(up, middle) - At(down, middle));
        if (halfWidth <= 0)
            throw Refused(0, Force, $"in the middle of the stroke the force on the way into compression is not above that on the way back ({At(up, middle):G4} N against {At(down, middle):G4} N): the branches cross");
        try
        {
            return SpringFriction.OfLoop(amplitude, area, halfWidth);
        }
        catch (ArgumentException e)
        {
            throw Refused(0, Force, $"{e.Message}");
        }
    }

    private static (int Row, double X, double Force)[] Branch(double[] x, double[] force, int from, int to)
    {
        // The last row repeats the first one.
        var turn = x.Length - 1;
        var count = ((to - from + turn) % turn) + 1;
        return [.. Enumerable.Range(0, count).Select(i => (from + i) % turn).Select(row => (row, x[row], force[row]))];
    }

    private static int? FirstBack((int Row, double X, double Force)[] branch, int way)
    {
        for (var i = 1; i < branch.Length; i++)
        {
            if (way * (branch[i].X - branch[i - 1].X) < 0)
                return branch[i].Row;
        }

        return null;
    }

    private static double Area((int Row, double X, double Force)[] branch) =>
        branch.Skip(1).Zip(branch, (b, a) => 0.5 * (a.Force + b.Force) * (b.X - a.X)).Sum();

    private static double At((int Row, double X, double Force)[] branch, double x)
    {
        var after = Array.FindIndex(branch, 1, point => (point.X - x) * (branch[0].X - x) <= 0);
        var (a, b) = (branch[after - 1], branch[after]);
        return b.X == a.X ? b.Force : a.Force + ((b.Force - a.Force) * (x - a.X) / (b.X - a.X));
    }
}
