namespace RollRide.Plots;

/// <summary>How text is written into a vector picture.</summary>
public enum SvgText
{
    /// <summary>As outlines: the picture stands alone and looks the same everywhere, but its text cannot be searched.</summary>
    Outlines,

    /// <summary>As text in the family <see cref="WebFont.Family"/>, which the page around the picture provides with <see cref="WebFont.Rules"/>.</summary>
    Letters,
}
