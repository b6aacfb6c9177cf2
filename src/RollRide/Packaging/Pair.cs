using System.Collections.Immutable;

namespace RollRide.Packaging;

/// <summary>Two rectangles that must stay apart, or one of the damper's lengths that must not be passed.</summary>
internal sealed record Pair
{
    private const string OtherDamper = "the other damper";

    /// <summary>What is named first: a part of the damper, or a keep-out that moves with the axle; null for a length.</summary>
    public Item? First { get; private init; }

    /// <summary>What it must stay clear of; null for a length.</summary>
    public Item? Second { get; private init; }

    /// <summary>The clearance to keep, m; for a length 0.</summary>
    public double Clearance { get; private init; }

    /// <summary>The keep-out named first, where it is one.</summary>
    public string? Name { get; private init; }

    /// <summary>What is in the way.</summary>
    public required string Against { get; init; }

    /// <summary>The length, m, and whether it must not be exceeded, rather than fallen short of.</summary>
    private (double Length, bool IsMost) Limit { get; init; }

    /// <summary>Whether it is one of the damper's lengths.</summary>
    public bool IsLength => First is null;

    /// <summary>The damper against keep-outs, the other damper and its own lengths, as far as these are known.</summary>
    public static ImmutableArray<Pair> OfDamper(PackagingSpace space)
    {
        var parts = Enum.GetValues<DamperPart>();
        var pairs = ImmutableArray.CreateBuilder<Pair>();
        foreach (var keepOut in space.AllKeepOuts)
            pairs.AddRange(parts.Select(part => new Pair { First = Item.Of(part), Second = Item.Of(keepOut), Clearance = keepOut.Clearance, Against = keepOut.Name }));
        pairs.AddRange(
            from part in parts
            from other in parts
            where other >= part // the mirrored pair is the same at the opposite roll
            select new Pair { First = Item.Of(part), Second = Item.Of(other) with { IsOfOther = true }, Clearance = space.ClearanceBetweenDampers, Against = OtherDamper });
        if (space.Damper.ClosedLength is { } closed)
            pairs.Add(new Pair { Against = "the damper's closed length", Limit = (closed, false) });
        if (space.Damper.ExtendedLength is { } extended)
            pairs.Add(new Pair { Against = "the damper's extended length", Limit = (extended, true) });
        return pairs.ToImmutable();
    }

    /// <summary>
    /// What moves with the axle against what is fixed to the body, on this side and on the other. They must not meet; how near they may come
    /// is not given, since each clearance is that of the damper.
    /// </summary>
    public static ImmutableArray<Pair> OfRooms(PackagingSpace space) =>
    [
        .. from axle in space.AllKeepOuts
           where axle.MovesWithAxle
           from body in space.AllKeepOuts
           where !body.MovesWithAxle
           from fixedRoom in (KeepOut[])[body, body.Mirrored()]
           select new Pair { Name = axle.Name, First = Item.Of(axle), Second = Item.Of(fixedRoom), Against = body.Name },
    ];

    /// <summary>Distance less the clearance to be kept, m.</summary>
    public double Margin(Scene scene)
    {
        if (First is not { } first || Second is not { } second)
            return Limit.IsMost ? Limit.Length - scene.Damper.Length : scene.Damper.Length - Limit.Length;
        return OrientedBox.Distance(first.Place(scene), second.Place(scene), out _) - Allowance(scene);
    }

    /// <summary>The clearance and the radii of bushes, m.</summary>
    public double Allowance(Scene scene) => Clearance + First!.Radius(scene) + Second!.Radius(scene);

    /// <summary>The pair at a scene, as it is reported.</summary>
    public Contact At(Scene scene, double margin) => new()
    {
        Part = First?.Part,
        Name = Name,
        Against = Against,
        Heave = scene.Heave,
        Roll = scene.Roll,
        Margin = margin,
        Clearance = Clearance,
    };

    /// <summary>A part of a damper, or a keep-out.</summary>
    internal sealed record Item
    {
        /// <summary>The part; null for a keep-out.</summary>
        public DamperPart? Part { get; private init; }

        /// <summary>Whether it is a part of the right damper.</summary>
        public bool IsOfOther { get; init; }

        /// <summary>The keep-out; null for a part.</summary>
        public KeepOut? KeepOut { get; private init; }

        public static Item Of(DamperPart part) => new() { Part = part };

        public static Item Of(KeepOut keepOut) => new() { KeepOut = keepOut };

        public OrientedBox Place(Scene scene) => Part is { } part ? scene.Part(part, IsOfOther) : scene.Place(KeepOut!);

        public double Radius(Scene scene) => Part is { } part ? scene.Damper.Radius(part) : 0;
    }
}
