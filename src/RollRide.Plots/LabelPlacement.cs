namespace RollRide.Plots;

/// <summary>Where the names of a panel's layouts are written.</summary>
public enum LabelPlacement
{
    /// <summary>At the right ends of the curves; above the panels where there are too many or no room.</summary>
    AtCurveEnds,

    /// <summary>In one row of keys above all panels of the figure.</summary>
    AbovePanels,

    /// <summary>Nowhere: another panel of the figure names them.</summary>
    None,
}
