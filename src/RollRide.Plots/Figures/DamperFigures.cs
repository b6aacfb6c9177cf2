using RollRide.Damping;
using RollRide.Findings;
using RollRide.Numerics;
using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>The figures of a dynamometer's record.</summary>
public static class DamperFigures
{
    private const int FinePoints = 161;

    /// <summary>Builds the figures.</summary>
    /// <param name="reduction">The reduced record.</param>
    /// <param name="fit">The valving fitted.</param>
    /// <param name="source">Where the data come from, for the footer.</param>
    public static IReadOnlyList<Figure> All(DynoReduction reduction, ValvingFit fit, string source)
    {
        ArgumentNullException.ThrowIfNull(reduction);
        ArgumentNullException.ThrowIfNull(fit);
        string footer = $"{source} · RollRide {Provenance.ProgramVersion}\n{Cautions.OneLine}";
        return [ForceVelocity(reduction, fit, footer), Coefficient(reduction, fit, footer)];
    }

    private static Figure ForceVelocity(DynoReduction reduction, ValvingFit fit, string footer)
    {
        double fastest = Math.Min(reduction.Curve.MaximumVelocity, -reduction.Curve.MinimumVelocity);
        double At(DampingDirection direction) => Math.Abs(reduction.Curve.Force(direction == DampingDirection.Compression ? fastest : -fastest));
        PeakMark Mark(DampingDirection direction, int sign) => new(sign * fastest, Unit.Kilonewton.Of(reduction.Curve.Force(sign * fastest)), FigureParts.Text($"{At(direction):F0} N at {fastest:0.##} m/s"), OtherStyles.Measured);
        var panel = new CurvePanel(null, "Damper velocity, compression positive", "m/s", "Damper force", "kN", Curves(reduction, fit))
        {
            Runs = [.. reduction.Speeds.Where(speed => speed.Loop.Length > 1).Select(speed => new PlotSeries(
                speed.Name, OtherStyles.Ground, [.. speed.Loop.Select(p => p.Velocity)], [.. speed.Loop.Select(p => Unit.Kilonewton.Of(p.Force))]))],
            RunThickness = 1.8,
            Peaks = [Mark(DampingDirection.Rebound, -1), Mark(DampingDirection.Compression, 1)],
            Labels = LabelPlacement.AbovePanels,
        };
        var widest = reduction.Speeds.Max(speed => speed.Hysteresis);
        string title = FigureParts.Text($"Compression gives {At(DampingDirection.Compression):F0}\u00a0N and rebound {At(DampingDirection.Rebound):F0}\u00a0N at {fastest:0.##}\u00a0m/s");
        string pale = panel.Runs.Count == 0 ? "" : " Grey: one loop per speed as measured"
            + (reduction.Friction is { } friction ? FigureParts.Text($", including friction of {friction:F0} N and gas force of {reduction.GasForce:F0} N") : "")
            + (widest is { } width ? FigureParts.Text($"; the widest is {width:F0} N wide.") : ".");
        return new Figure("force-velocity.png", title, $"Damper force over velocity.{pale}", footer, [new Panel(panel.Build())]);
    }

    private static Figure Coefficient(DynoReduction reduction, ValvingFit fit, string footer)
    {
        var curve = reduction.Curve;
        double fastest = Math.Min(curve.MaximumVelocity, -curve.MinimumVelocity), slowest = fastest / 40;
        double[] velocities = [.. Enumerable.Range(0, FinePoints).Select(i => slowest * Math.Pow(fastest / slowest, i / (FinePoints - 1.0)))];
        PlotSeries Of(string name, SeriesStyle style, DampingDirection direction) =>
            new(name, style, velocities, [.. velocities.Select(v => Unit.KilonewtonSecondPerMetre.Of(curve.EquivalentCoefficient(v, direction)))]);
        var panel = new CurvePanel(null, "Velocity amplitude at the damper", "m/s", "Equivalent damping coefficient", "kN·s/m",
            [Of("Rebound", OtherStyles.First, DampingDirection.Rebound), Of("Both", OtherStyles.Second, DampingDirection.Both), Of("Compression", OtherStyles.Third, DampingDirection.Compression)])
        {
            LogarithmicX = true,
            Peaks = [Mark(2 * slowest), Mark(fastest)],
        };
        PeakMark Mark(double velocity) => new(velocity, Unit.KilonewtonSecondPerMetre.Of(curve.EquivalentCoefficient(velocity)), FigureParts.Text($"{curve.EquivalentCoefficient(velocity):F0} N·s/m at {velocity:F2} m/s"), OtherStyles.Second);
        double slow = curve.EquivalentCoefficient(slowest * 2), fast = curve.EquivalentCoefficient(fastest);
        return new Figure(
            "coefficient.png",
            FigureParts.Text($"The damping coefficient goes from {slow:F0} N·s/m at {2 * slowest:F2} m/s to {fast:F0} N·s/m at {fastest:F2} m/s"),
            "The linear damper of the same energy per cycle" + (reduction.Friction is null ? "" : ", without friction"),
            footer,
            [new Panel(panel.Build())]);
    }

    private static string CurveName(DynoReduction reduction) => (reduction.Friction, reduction.GasForce) switch
    {
        (null, null) => "Curve (friction and gas unknown)",
        (null, _) => "Curve (gas out, friction unknown)",
        _ => "Curve (friction and gas out)",
    };

    private static IReadOnlyList<PlotSeries> Curves(DynoReduction reduction, ValvingFit fit)
    {
        var points = reduction.Curve.Points;
        double[] fine = EvenSteps.Of(reduction.Curve.MinimumVelocity, reduction.Curve.MaximumVelocity, FinePoints - 1);
        return
        [
            new PlotSeries(CurveName(reduction), OtherStyles.Measured, [.. points.Select(p => p.Velocity)], [.. points.Select(p => Unit.Kilonewton.Of(p.Force))]).Marked,
            new PlotSeries("Valving fitted", OtherStyles.Second, fine, [.. fine.Select(v => Unit.Kilonewton.Of(fit.Valving.Force(v)))]),
        ];
    }
}
