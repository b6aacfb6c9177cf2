using System.Globalization;
using System.Text.Json.Nodes;
using RollRide.Damping;
using RollRide.DataFiles;
using RollRide.Numerics;
using RollRide.Scenarios;

namespace RollRide.Live.Answers;

/// <summary>The force–velocity curves of a scenario, as they are drawn and dragged.</summary>
internal static class DamperAnswer
{
    private const int FinePoints = 81;

    // What makes the force beside the points of the curve. Written or not; the gas itself stands instead of its force.
    private static readonly string[] Settings = ["interpolation", "forceScale", "friction_N", "gasForce_N"];

    /// <summary>The dampers of a scenario that a layout uses.</summary>
    /// <param name="edited">The scenario.</param>
    public static JsonObject Of(EditedScenario edited)
    {
        var dampers = new JsonObject();
        var used = edited.Scenario.Study.Layouts.SelectMany(layout => new[] { layout.Damper, layout.On(Mounting.Side.Right).Damper });
        var nodes = edited.Root.Find("dampers")!;
        foreach (var damper in used)
        {
            // A damper in a state of its own has a name made of both.
            if (nodes.Find(damper.Name) is { } node && !dampers.ContainsKey(damper.Name))
                dampers[damper.Name] = Of(damper, node);
        }

        return dampers;
    }

    private static JsonObject Of(Damper damper, LocatedNode node)
    {
        var scale = node.Find("forceScale") is { } written ? Number(written) : 1;
        var curve = damper.Curve;
        double[] velocities = curve.Interpolation == CurveInterpolation.MonotoneCubic
            ? EvenSteps.Of(curve.MinimumVelocity, curve.MaximumVelocity, FinePoints - 1)
            : [.. curve.Points.Select(point => point.Velocity)];
        return new JsonObject
        {
            ["kind"] = node.Find("curve") is null ? "dyno" : "points",
            ["path"] = node.Path,
            ["file"] = node.Find("dyno")?.Text,
            ["forceScale"] = scale,
            ["points"] = node.Find("curve") is { } points
                ? new JsonArray([.. points.Find("velocity_m_per_s")!.Children.Zip(points.Find("force_N")!.Children, (velocity, force) => new JsonArray(Number(velocity), Number(force)))])
                : Points(curve.Points.Select(point => (point.Velocity, point.Force / scale))),
            ["drawn"] = Points(velocities.Select(velocity => (velocity, curve.Force(velocity)))),
            ["parameters"] = new JsonArray([.. Settings.Where(key => key != "gasForce_N" || node.Find("gas") is null).Select(key => JsonValue.Create($"{node.Path}.{key}"))]),
        };
    }

    private static double Number(LocatedNode node) => double.Parse(node.Text!, NumberStyles.Float, CultureInfo.InvariantCulture);

    /// <summary>Points of a file are given without the scale, as they stand there.</summary>
    private static JsonArray Points(IEnumerable<(double Velocity, double Force)> points) =>
        [.. points.Select(point => new JsonArray(Math.Round(point.Velocity, 6), Math.Round(point.Force, 3)))];
}
