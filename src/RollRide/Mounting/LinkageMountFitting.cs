namespace RollRide.Mounting;

/// <summary>An element between the body and a part of a wheel's linkage, from its mount points, with its exact length at every travel.</summary>
public sealed class LinkageMountFitting : WheelTravelFitting, IMountedElement
{
    private readonly SpaceVector _linkageEnd, _bodyEnd;

    /// <summary>Makes a fitting from the left side's points at ride height.</summary>
    /// <param name="linkage">The wheel's linkage.</param>
    /// <param name="part">The part that carries the outer end.</param>
    /// <param name="linkageEnd">The element's mount on that part.</param>
    /// <param name="bodyEnd">The element's mount on the body.</param>
    /// <exception cref="ArgumentException">The linkage has no such part, or the mounts coincide.</exception>
    public LinkageMountFitting(WheelLinkage linkage, LinkagePart part, Point3 linkageEnd, Point3 bodyEnd)
        : base((linkage ?? throw new ArgumentNullException(nameof(linkage))).HalfTrack)
    {
        ArgumentNullException.ThrowIfNull(linkageEnd);
        ArgumentNullException.ThrowIfNull(bodyEnd);
        if (!linkage.Parts.Contains(part))
            throw new ArgumentException($"The linkage has no {part}; it has {string.Join(", ", linkage.Parts)}.", nameof(part));
        (Linkage, Part, LinkageEnd, BodyEnd) = (linkage, part, linkageEnd, bodyEnd);
        (_linkageEnd, _bodyEnd) = (SpaceVector.Of(linkageEnd), SpaceVector.Of(bodyEnd));
        Length = (_linkageEnd - _bodyEnd).Length;
        MountLength.Require(Length, LiveAxleMountFitting.ShortestLength, nameof(bodyEnd));
    }

    /// <summary>The wheel's linkage.</summary>
    public WheelLinkage Linkage { get; }

    /// <summary>The part that carries the outer end.</summary>
    public LinkagePart Part { get; }

    /// <summary>The element's mount on that part.</summary>
    public Point3 LinkageEnd { get; }

    /// <summary>The element's mount on the body.</summary>
    public Point3 BodyEnd { get; }

    /// <inheritdoc/>
    public double Length { get; }

    /// <inheritdoc/>
    /// <exception cref="UnreachableTravelException">The linkage cannot reach the travel.</exception>
    public override double Compression(double travel) => CompressionAndRatio(travel).Compression;

    /// <inheritdoc/>
    /// <exception cref="UnreachableTravelException">The linkage cannot reach the travel.</exception>
    public override double Ratio(double travel) => CompressionAndRatio(travel).Ratio;

    /// <inheritdoc/>
    /// <exception cref="UnreachableTravelException">The linkage cannot reach the travel.</exception>
    public override double RatioSlope(double travel)
    {
        // L² = D·D, differentiated twice.
        var m = Linkage.PointAt(Part, _linkageEnd, travel);
        var d = m.Position - _bodyEnd;
        double length = d.Length;
        double rate = d.Dot(m.First) / length;
        return -(m.First.Dot(m.First) + d.Dot(m.Second) - (rate * rate)) / length;
    }

    /// <inheritdoc/>
    public override IFitting Redrawn(RideHeightChange change)
    {
        var end = Linkage.PointAt(Part, _linkageEnd, change.Travel).Position;
        return new LinkageMountFitting(
            Linkage.Redrawn(change), Part, new Point3(end.X, end.Y, end.Z + change.Body), BodyEnd with { Z = BodyEnd.Z + change.Body });
    }

    /// <inheritdoc/>
    protected internal override (double Compression, double Ratio) CompressionAndRatio(double travel)
    {
        var m = Linkage.PointAt(Part, _linkageEnd, travel);
        var d = m.Position - _bodyEnd;
        double length = d.Length;
        return (Length - length, -d.Dot(m.First) / length);
    }
}
