using RollRide.Studies;

namespace RollRide.Plots.Figures;

/// <summary>The styles of a case's layouts.</summary>
public static class StudyStyles
{
    /// <summary>The styles, by the layouts' places in the scenario.</summary>
    /// <param name="study">The case.</param>
    public static LayoutStyles Of(StudyCase study)
    {
        ArgumentNullException.ThrowIfNull(study);
        return new LayoutStyles(study.ScenarioLayouts, [.. study.Layouts.Select(layout => layout.Name)]);
    }
}
