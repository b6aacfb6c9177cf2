namespace RollRide.Packaging;

/// <summary>
/// Says whether a damper at one lateral position keeps every clearance over all heave and roll, and how far the answer holds
/// on either side. Nothing is sampled and hoped for: between the points looked at, no part moves farther than a bound says.
/// </summary>
/// <remarks>
/// The margin of a pair (distance less clearance) changes by no more than the pair's points move. A box of heave and roll whose
/// middle has a larger margin than anything in the box can lose is settled; others are halved (branch and bound). Not thread-safe.
/// </remarks>
internal sealed class FitCheck
{
    /// <summary>Margins are known to this, m: a thousandth of a millimetre.</summary>
    public const double Resolution = 1e-6;

    // While a position clearly fits, its margin need only be known to this share: it decides how far the search may step.
    private const double SafeShare = 0.75;

    private const string OtherDamper = "the other damper";
    private const string Closed = "the damper's closed length";
    private const string Extended = "the damper's extended length";

    private readonly PackagingSpace _space;
    private readonly KeepOut[] _keepOuts;
    private readonly Pair[] _pairs;
    private readonly Stack<Region> _open = new();

    public FitCheck(PackagingSpace space)
    {
        _space = space;
        _keepOuts = space.Rail is { } rail ? [rail, .. space.KeepOuts] : [.. space.KeepOuts];
        DamperPart[] parts = Enum.GetValues<DamperPart>();
        _pairs =
        [
            .. from keepOut in Enumerable.Range(0, _keepOuts.Length) from part in parts select new Pair(PairKind.KeepOut, part, keepOut, default),
            .. from part in parts from other in parts where other >= part select new Pair(PairKind.OtherDamper, part, -1, other),
            new Pair(PairKind.ClosedLength, default, -1, default),
            new Pair(PairKind.ExtendedLength, default, -1, default),
        ];
    }

    /// <summary>Judges one position.</summary>
    /// <param name="position">Lateral position of the axle end, m.</param>
    public Verdict Judge(double position)
    {
        var travel = _space.Travel;
        var whole = new Region(
            (travel.Bump - travel.Rebound) / 2, 0, (travel.Bump + travel.Rebound) / 2, travel.Roll, [.. Enumerable.Range(0, _pairs.Length)]);

        // A violation at corners, middles of edges or centre decides at once, and says how far along it holds.
        double holds = 0, worst = double.PositiveInfinity;
        (Pair Pair, double Heave, double Roll) at = default;
        for (int i = -1; i <= 1; i++)
        {
            for (int j = -1; j <= 1; j++)
            {
                double heave = whole.Heave + (i * whole.HalfHeave), roll = whole.Roll + (j * whole.HalfRoll);
                var scene = new Scene(this, position, heave, roll);
                foreach (var pair in _pairs)
                {
                    double margin = scene.Margin(pair);
                    if (margin < worst)
                        (worst, at) = (margin, (pair, heave, roll));
                    if (margin < 0)
                        holds = Math.Max(holds, StepOfViolation(pair, scene, -margin, roll));
                }
            }
        }

        if (worst < -Resolution)
            return new Verdict(false, holds, ToContact(at.Pair, at.Heave, at.Roll, worst));
        return Bound(position, whole, worst, at);
    }

    /// <summary>The keep-outs whose clearance is broken at a position, at corners, middles of edges or centre of the travel.</summary>
    public IEnumerable<KeepOut> BrokenAt(double position)
    {
        var travel = _space.Travel;
        var broken = new SortedSet<int>();
        foreach (double heave in (ReadOnlySpan<double>)[-travel.Rebound, (travel.Bump - travel.Rebound) / 2, travel.Bump])
        {
            foreach (double roll in (ReadOnlySpan<double>)[-travel.Roll, 0, travel.Roll])
            {
                var scene = new Scene(this, position, heave, roll);
                foreach (var pair in _pairs)
                {
                    if (pair.Kind == PairKind.KeepOut && scene.Margin(pair) < 0)
                        broken.Add(pair.KeepOut);
                }
            }
        }

        return broken.Select(index => _keepOuts[index]);
    }

    private Verdict Bound(double position, Region whole, double least, (Pair Pair, double Heave, double Roll) at)
    {
        _open.Clear();
        _open.Push(whole);
        double proven = double.PositiveInfinity;
        while (_open.TryPop(out var region))
        {
            var scene = new Scene(this, position, region.Heave, region.Roll);
            var undecided = new List<int>(region.Pairs.Length);
            double lowest = double.PositiveInfinity;
            foreach (int index in region.Pairs)
            {
                var pair = _pairs[index];
                double margin = scene.Margin(pair);
                if (margin < least)
                    (least, at) = (margin, (pair, region.Heave, region.Roll));
                double bound = margin - LossWithin(pair, scene, position, region);
                if (bound >= Accepted(least))
                {
                    proven = Math.Min(proven, bound);
                    continue;
                }

                undecided.Add(index);
                lowest = Math.Min(lowest, bound);
            }

            if (least < -Resolution)
                return new Verdict(false, StepOfViolation(at.Pair, new Scene(this, position, at.Heave, at.Roll), -least, at.Roll), ToContact(at.Pair, at.Heave, at.Roll, least));
            if (undecided.Count > 0)
                Split(region, [.. undecided], position);
        }

        double margin0 = Math.Max(0, Math.Min(least, proven));
        return new Verdict(true, margin0 / MostMotion(), ToContact(at.Pair, at.Heave, at.Roll, least));
    }

    /// <summary>A bound that settles a region: close enough to the least margin found.</summary>
    private static double Accepted(double least) => least > 0 ? Math.Min(least - Resolution, SafeShare * least) : least - Resolution;

    private void Split(Region region, int[] pairs, double position)
    {
        // Halve what moves the axle end more.
        double reach = Math.Abs(position) + Math.Abs(_space.Mounts.AxleEndHeight - _space.RollCentreHeight);
        for (int half = -1; half <= 1; half += 2)
        {
            _open.Push(region.HalfHeave >= region.HalfRoll * reach
                ? region with { Heave = region.Heave + (half * region.HalfHeave / 2), HalfHeave = region.HalfHeave / 2, Pairs = pairs }
                : region with { Roll = region.Roll + (half * region.HalfRoll / 2), HalfRoll = region.HalfRoll / 2, Pairs = pairs });
        }
    }

    /// <summary>The most that a pair's margin can fall between the middle of a region and any of its points.</summary>
    private double LossWithin(Pair pair, in Scene scene, double position, Region region)
    {
        // How far an end can move: in the body's frame the axle end, in the axle's frame the body end.
        var mounts = _space.Mounts;
        double heaveAway = Math.Abs(region.Heave) + region.HalfHeave;
        double axleMoves = region.HalfHeave + (region.HalfRoll * Hypot(position, mounts.AxleEndHeight - _space.RollCentreHeight));
        double bodyMoves = region.HalfHeave
            + (region.HalfRoll * Hypot(position + mounts.BodyEndOutboard, Math.Abs(mounts.BodyEndHeight - _space.RollCentreHeight) + heaveAway));
        switch (pair.Kind)
        {
            case PairKind.ClosedLength or PairKind.ExtendedLength:
                return axleMoves;
            case PairKind.OtherDamper:
                return PartMoves(pair.Part, axleMoves, scene.LengthInView, movesAtAxleEnd: true)
                    + PartMoves(pair.Other, axleMoves, scene.OtherLengthInView, movesAtAxleEnd: true);
            default:
                return _keepOuts[pair.KeepOut].MovesWithAxle
                    ? PartMoves(pair.Part, bodyMoves, scene.LengthInView, movesAtAxleEnd: false)
                    : PartMoves(pair.Part, axleMoves, scene.LengthInView, movesAtAxleEnd: true);
        }
    }

    /// <summary>The most that a part's points move when one end of the damper moves by a distance and the other stays.</summary>
    private double PartMoves(DamperPart part, double endMoves, double lengthInView, bool movesAtAxleEnd)
    {
        switch (part)
        {
            case DamperPart.Rod:
                return endMoves;
            case DamperPart.UpperBush:
                return movesAtAxleEnd ? 0 : endMoves;
            case DamperPart.LowerBush:
                return movesAtAxleEnd ? endMoves : 0;
            default:
                bool movesAlong = (part == DamperPart.LowerTube) == movesAtAxleEnd;
                double shortest = lengthInView - endMoves;
                return shortest <= 0 ? double.PositiveInfinity : (movesAlong ? endMoves : 0) + (TubeReach(part) * endMoves / shortest);
        }
    }

    /// <summary>
    /// How far any point of a tube moves for each rad that the damper's line turns. A line inclined fore and aft also changes its
    /// foreshortening and its ellipse, each by no more than the line turns.
    /// </summary>
    private double TubeReach(DamperPart part)
    {
        var damper = _space.Damper;
        var (length, radius) = part == DamperPart.UpperTube ? (damper.UpperLength, damper.UpperDiameter / 2) : (damper.LowerLength, damper.LowerDiameter / 2);
        bool upright = _space.Mounts.AxleEndForward == _space.Mounts.BodyEndForward;
        return upright ? Hypot(length, radius) : length + (3 * radius);
    }

    /// <summary>
    /// How much further along the same violation still stands: with the damper moved by <c>Δ</c> at a fixed heave and roll its body
    /// end moves by <c>Δ</c>, its axle end by as much in a direction turned by the roll, so the line's ends part by <c>2 Δ sin(r/2)</c>.
    /// </summary>
    private double StepOfViolation(Pair pair, in Scene scene, double missing, double roll)
    {
        double parting = 2 * Math.Sin(Math.Abs(roll) / 2);
        switch (pair.Kind)
        {
            case PairKind.ClosedLength or PairKind.ExtendedLength:
                // Farther than any search goes where the length does not depend on the position.
                return missing / Math.Max(parting, 1e-3);
            case PairKind.OtherDamper:
                double both = PartMotion(pair.Part, parting, scene.LengthInView / 2) + PartMotion(pair.Other, parting, scene.OtherLengthInView / 2);
                return Limited(missing / both, Math.Min(scene.LengthInView, scene.OtherLengthInView));
            default:
                return Limited(missing / PartMotion(pair.Part, parting, scene.LengthInView / 2), scene.LengthInView);
        }

        // The step leaves at least half of the length, which the motion was reckoned with.
        double Limited(double step, double length) => parting > 0 ? Math.Min(step, length / (2 * parting)) : step;
    }

    /// <summary>The most that any margin of a fitting damper changes with the position, over all heave and roll.</summary>
    private double MostMotion()
    {
        // A damper that fits is at least as long as when closed, here seen from behind.
        double x = _space.Mounts.BodyEndForward - _space.Mounts.AxleEndForward;
        double closed = _space.Damper.ClosedLength;
        double shortest = Math.Sqrt(Math.Max((closed * closed) - (x * x), Resolution));
        double parting = 2 * Math.Sin(_space.Travel.Roll / 2);
        double one = Math.Max(PartMotion(DamperPart.UpperTube, parting, shortest), PartMotion(DamperPart.LowerTube, parting, shortest));
        return 2 * one;
    }

    /// <summary>Motion of a part's points for each metre of position.</summary>
    private double PartMotion(DamperPart part, double parting, double shortest) =>
        part is DamperPart.UpperTube or DamperPart.LowerTube ? 1 + (TubeReach(part) * parting / shortest) : 1;

    private Contact ToContact(Pair pair, double heave, double roll, double margin) => new()
    {
        Part = pair.Kind is PairKind.KeepOut or PairKind.OtherDamper ? pair.Part : null,
        Against = pair.Kind switch
        {
            PairKind.KeepOut => _keepOuts[pair.KeepOut].Name,
            PairKind.OtherDamper => OtherDamper,
            PairKind.ClosedLength => Closed,
            _ => Extended,
        },
        Heave = heave,
        Roll = roll,
        Margin = margin,
    };

    private static double Hypot(double a, double b) => Math.Sqrt((a * a) + (b * b));

    /// <summary>What was found at a position.</summary>
    /// <param name="Fits">Whether every clearance is kept, to within <see cref="Resolution"/>.</param>
    /// <param name="Holds">How much further along this answer is proven to hold, m.</param>
    /// <param name="Worst">The tightest pair found.</param>
    internal readonly record struct Verdict(bool Fits, double Holds, Contact Worst);

    private enum PairKind
    {
        KeepOut,
        OtherDamper,
        ClosedLength,
        ExtendedLength,
    }

    private readonly record struct Pair(PairKind Kind, DamperPart Part, int KeepOut, DamperPart Other);

    private sealed record Region(double Heave, double Roll, double HalfHeave, double HalfRoll, int[] Pairs);

    /// <summary>Both dampers at one position, heave and roll.</summary>
    private readonly struct Scene
    {
        private readonly FitCheck _check;
        private readonly DamperShape _damper, _mirrored;
        private readonly double _heave, _sin, _cos;

        public Scene(FitCheck check, double position, double heave, double roll)
        {
            _check = check;
            _heave = heave;
            (_sin, _cos) = Math.SinCos(roll);
            _damper = new DamperShape(check._space, position, heave, roll);
            _mirrored = new DamperShape(check._space, position, heave, -roll);
        }

        public double LengthInView => _damper.LengthInView;

        public double OtherLengthInView => _mirrored.LengthInView;

        /// <summary>Distance of a pair less the clearance it must keep, m.</summary>
        public double Margin(Pair pair)
        {
            var space = _check._space;
            switch (pair.Kind)
            {
                case PairKind.ClosedLength:
                    return _damper.Length - space.Damper.ClosedLength;
                case PairKind.ExtendedLength:
                    return space.Damper.ExtendedLength - _damper.Length;
                case PairKind.OtherDamper:
                    var other = _mirrored[pair.Other];
                    other = other with { Y = -other.Y, AlongY = -other.AlongY };
                    return OrientedBox.Distance(_damper[pair.Part], other)
                        - _damper.Radius(pair.Part) - _mirrored.Radius(pair.Other) - space.ClearanceBetweenDampers;
                default:
                    var keepOut = _check._keepOuts[pair.KeepOut];
                    return OrientedBox.Distance(_damper[pair.Part], Place(keepOut)) - _damper.Radius(pair.Part) - keepOut.Clearance;
            }
        }

        private OrientedBox Place(KeepOut keepOut)
        {
            double y = (keepOut.Inner + keepOut.Outer) / 2, z = (keepOut.Bottom + keepOut.Top) / 2;
            double halfWidth = (keepOut.Outer - keepOut.Inner) / 2, halfHeight = (keepOut.Top - keepOut.Bottom) / 2;
            if (!keepOut.MovesWithAxle)
                return new OrientedBox(y, z, 1, 0, halfWidth, halfHeight);
            double centre = _check._space.RollCentreHeight, zeta = z - centre;
            return new OrientedBox((y * _cos) - (zeta * _sin), centre + _heave + (y * _sin) + (zeta * _cos), _cos, _sin, halfWidth, halfHeight);
        }
    }
}
