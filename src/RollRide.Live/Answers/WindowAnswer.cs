using System.Collections.Immutable;
using System.Text.Json.Nodes;
using RollRide.Dynamics;
using RollRide.Findings;
using RollRide.Modes;
using RollRide.Scenarios;
using RollRide.Studies;

namespace RollRide.Live.Answers;

/// <summary>The setting windows of a case as the page draws them; coefficients in N·s/m, null where there is no end.</summary>
/// <remarks>Thread-safe. The windows of upright dampers depend on no layout, and stay while one is dragged.</remarks>
internal sealed class WindowAnswer
{
    private readonly Kept<UprightWindows> _upright = new(8);

    /// <summary>Adds the windows to an answer.</summary>
    /// <param name="answer">The answer.</param>
    /// <param name="edited">The scenario.</param>
    /// <param name="study">Its case in a load state.</param>
    /// <param name="targets">What is asked for.</param>
    /// <param name="cancellation">Stops the work.</param>
    /// <exception cref="StudyException">A layout has no damping to scale, or its body is unstable.</exception>
    public void Add(JsonObject answer, EditedScenario edited, StudyCase study, DampingTargets targets, CancellationToken cancellation)
    {
        ImmutableArray<AssembledHalfCar> cars = [.. study.Layouts.Select(study.Assemble)];
        var key = $"{edited.VehicleKey()}\n{edited.TextOf([edited.Root.Find("targets"), edited.Root.Find("analysis")])}\n{study.Load?.Name}";
        UprightWindows[] upright = [.. SettingWindowStudy.ByMount(study, [.. cars.Select(car => car.Layout)]).Select(mount =>
            _upright.Get(FormattableString.Invariant($"{key}\n{mount.Stiffness}"), () => SettingWindowStudy.OfUpright(study, targets, mount.Stiffness, mount.Layouts, cancellation)) with { Layouts = mount.Layouts })];
        answer["velocity_m_per_s"] = targets.Velocity;
        answer["layouts"] = new JsonArray([.. study.Layouts.Select((layout, i) => (JsonNode)OfLayout(study, cars[i], SettingWindowStudy.VerdictOf(study, layout, cars[i], targets)))]);
        answer["upright"] = new JsonArray([.. upright.Select(windows => (JsonNode)OfUpright(windows, study))]);
        answer["sentences"] = new JsonArray([.. WindowConclusions.OnPositions(study.Vehicle, upright).Select(sentence => JsonValue.Create(sentence))]);
    }

    private static JsonObject OfLayout(StudyCase study, AssembledHalfCar car, WindowVerdict verdict)
    {
        var json = OfWindow(verdict.Window);
        json["name"] = car.Layout.Name;
        json["position_mm"] = LayoutVariation.CanMove(car.Vehicle, car.Layout.Fitting) ? Drawing.Millimetres(LayoutVariation.PositionOf(car.Layout.Fitting, study.Vehicle.HalfTrack)) : null;
        json["present"] = verdict.Coefficient;
        return json;
    }

    private static JsonObject OfUpright(UprightWindows upright, StudyCase study) => new()
    {
        ["layouts"] = new JsonArray([.. upright.Layouts.Select(i => JsonValue.Create(study.Layouts[i].Name))]),
        ["closing_mm"] = upright.ClosingPosition is { } closing ? Drawing.Millimetres(closing) : null,
        ["byPosition"] = new JsonArray([.. upright.ByPosition.Select(at =>
        {
            var json = OfWindow(at.Window);
            json["position_mm"] = Drawing.Millimetres(at.Position);
            return (JsonNode)json;
        })]),
    };

    private static JsonObject OfWindow(SettingWindow window) => new()
    {
        ["isOpen"] = window.IsOpen,
        ["from"] = Finite(window.Lower.Coefficient),
        ["to"] = Finite(window.Upper.Coefficient),
    };

    private static double? Finite(double value) => double.IsFinite(value) ? value : null;
}
