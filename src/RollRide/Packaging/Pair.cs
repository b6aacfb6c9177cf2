using System.Collections.Immutable;

namespace RollRide.Packaging;

/// <summary>Two things that must stay apart, or a length of the damper that must not be passed.</summary>
internal abstract record Pair
{
    /// <summary>The part of the damper; null for a length and where no damper is involved.</summary>
    public DamperPart? Part { get; init; }

    /// <summary>The keep-out that moves with the axle, where that and not the damper is looked at.</summary>
    public string? Name { get; init; }

    /// <summary>What is in the way.</summary>
    public required string Against { get; init; }

    /// <summary>The clearance to keep, m; for a length 0.</summary>
    public double Clearance { get; init; }

    /// <summary>The damper against keep-outs, the other damper and its own lengths, as far as these are known.</summary>
    public static ImmutableArray<Pair> OfDamper(PackagingSpace space)
    {
        var parts = Enum.GetValues<DamperPart>();
        var pairs = ImmutableArray.CreateBuilder<Pair>();
        pairs.AddRange(space.AllKeepOuts.SelectMany(OfKeepOut));
        pairs.AddRange(
            from part in parts
            from other in parts
            where other >= part // the mirrored pair is the same at the opposite roll
            select new PartToOtherDamper(other) { Part = part, Clearance = space.ClearanceBetweenDampers, Against = "the other damper" });
        if (space.Damper.ClosedLength is { } closed)
            pairs.Add(new LengthLimit(closed, IsMost: false) { Against = "the damper's closed length" });
        if (space.Damper.ExtendedLength is { } extended)
            pairs.Add(new LengthLimit(extended, IsMost: true) { Against = "the damper's extended length" });
        return pairs.ToImmutable();
    }

    /// <summary>The damper against one keep-out.</summary>
    public static IEnumerable<Pair> OfKeepOut(KeepOut keepOut) =>
        Enum.GetValues<DamperPart>().Select(part => new PartToKeepOut(keepOut) { Part = part, Clearance = keepOut.Clearance, Against = keepOut.Name });

    /// <summary>
    /// Keep-outs that move with the axle against those fixed to the body, on this side and on the other. They must not touch; a keep-out's
    /// clearance is that of the damper, so none applies between them.
    /// </summary>
    public static ImmutableArray<Pair> OfRooms(PackagingSpace space) =>
    [
        .. from axle in space.AllKeepOuts
           where axle.MovesWithAxle
           from body in space.AllKeepOuts
           where !body.MovesWithAxle
           from fixedRoom in (KeepOut[])[body, body.Mirrored()]
           select new RoomToRoom(axle, fixedRoom) { Name = axle.Name, Against = body.Name },
    ];

    /// <summary>
    /// Distance less the required clearance, m, with the damper slid sideways by up to <paramref name="slide"/> either way: a lower bound over
    /// these positions, or an upper bound if the slide is negative. Stretching and turning of the damper by the slide are not in it; they are
    /// bounded by <see cref="MotionBound"/>.
    /// </summary>
    /// <param name="scene">Where everything stands.</param>
    /// <param name="slide">Half the range of positions, m; 0 for the one position, negative for an upper bound.</param>
    public abstract double Gap(Scene scene, double slide);

    /// <summary>Upper bound of the change of the gap, m, while the damper is slid and the axle moves by up to these amounts.</summary>
    /// <param name="scene">Where the motion begins.</param>
    /// <param name="slide">Sideways movement of the damper, m; 0 or more.</param>
    /// <param name="heave">Heave of the axle from the scene, m; 0 or more.</param>
    /// <param name="roll">Roll of the axle from the scene, rad; 0 or more.</param>
    public abstract double MotionBound(Scene scene, double slide, double heave, double roll);

    /// <summary>The distance at which the gap is 0, m: the clearance, and the radius where a bush is represented by its centre.</summary>
    public abstract double Allowance(Scene scene);

    /// <summary>The pair at a scene, as it is reported.</summary>
    public Contact At(Scene scene, double margin) => new()
    {
        Part = Part,
        Name = Name,
        Against = Against,
        Heave = scene.Heave,
        Roll = scene.Roll,
        Margin = margin,
        Clearance = Clearance,
    };
}
