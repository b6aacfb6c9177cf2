namespace RollRide.Packaging;

/// <summary>A range of lateral positions in which a damper keeps every clearance over the whole travel.</summary>
/// <param name="Side">Where it lies by the frame rail.</param>
/// <param name="Inner">Its most inboard position, m from the centre plane to the axle end.</param>
/// <param name="Outer">Its most outboard position, m.</param>
/// <param name="InnerLimit">What limits it inboard; null where the search begins.</param>
/// <param name="OuterLimit">What limits it outboard; null where the search ends.</param>
public sealed record Band(RailSide Side, double Inner, double Outer, Contact? InnerLimit, Contact? OuterLimit)
{
    /// <summary>Its width, m.</summary>
    public double Width => Outer - Inner;
}
