using RollRide.Mounting;

namespace RollRide.Packaging;

/// <summary>
/// Says whether a damper at one lateral position keeps every clearance over all heave and roll, and how far the answer holds
/// on either side. Nothing is sampled and hoped for: between the points looked at, no part moves farther than a bound says.
/// </summary>
/// <remarks>
/// The margin of a pair (distance less clearance) changes by no more than the pair's points move; and two convex bodies are apart at
/// least as far as along any one axis, where each corner's motion is known to first order and its curvature bounded. A region of
/// heave and roll whose middle has a larger margin than anything in it can lose by either bound is settled; others are halved
/// (branch and bound). Not thread-safe.
/// </remarks>
internal sealed class FitCheck
{
    /// <summary>Margins are known to this, m: two thousandths of a millimetre.</summary>
    public const double Resolution = 2e-6;

    // While a position clearly fits or clearly does not, its margin need only be known to this share: it says how far to step.
    private const double StepShare = 0.75;

    private const string OtherDamper = "the other damper";
    private const string Closed = "the damper's closed length";
    private const string Extended = "the damper's extended length";

    private readonly PackagingSpace _space;
    private readonly CancellationToken _cancellation;
    private readonly KeepOut[] _keepOuts;
    private readonly Pair[] _pairs;
    private readonly Stack<Region> _open = new();

    public FitCheck(PackagingSpace space, CancellationToken cancellation = default)
    {
        _space = space;
        _cancellation = cancellation;
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
        var least = (Lengths: double.PositiveInfinity, Bodies: double.PositiveInfinity);
        (Pair Pair, double Heave, double Roll) at = default;
        for (int i = -1; i <= 1; i++)
        {
            for (int j = -1; j <= 1; j++)
            {
                double heave = whole.Heave + (i * whole.HalfHeave), roll = whole.Roll + (j * whole.HalfRoll);
                var scene = new Scene(this, position, heave, roll);
                foreach (var pair in _pairs)
                {
                    double margin = scene.Margin(pair, out _);
                    if (margin < worst)
                        (worst, at) = (margin, (pair, heave, roll));
                    if (pair.IsLength)
                        least.Lengths = Math.Min(least.Lengths, margin);
                    else
                        least.Bodies = Math.Min(least.Bodies, margin);
                    if (margin < 0)
                        holds = Math.Max(holds, StepOfViolation(pair, scene, -margin, roll));
                }
            }
        }

        if (worst < -Resolution)
            return new Verdict(false, holds, ToContact(at.Pair, at.Heave, at.Roll, worst));
        return Bound(position, whole, least, at);
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
                    if (pair.Kind == PairKind.KeepOut && scene.Margin(pair, out _) < 0)
                        broken.Add(pair.KeepOut);
                }
            }
        }

        return broken.Select(index => _keepOuts[index]);
    }

    private Verdict Bound(double position, Region whole, (double Lengths, double Bodies) least, (Pair Pair, double Heave, double Roll) at)
    {
        _open.Clear();
        _open.Push(whole);

        // Lengths hardly depend on the position, so they must not shorten the step that the bodies allow, nor the other way round.
        var proven = (Lengths: double.PositiveInfinity, Bodies: double.PositiveInfinity);
        while (_open.TryPop(out var region))
        {
            _cancellation.ThrowIfCancellationRequested();
            var scene = new Scene(this, position, region.Heave, region.Roll);
            var undecided = new List<int>(region.Pairs.Length);
            foreach (int index in region.Pairs)
            {
                var pair = _pairs[index];
                double margin = scene.Margin(pair, out var axis);
                if (margin < Math.Min(least.Lengths, least.Bodies))
                    at = (pair, region.Heave, region.Roll);
                if (pair.IsLength)
                    least.Lengths = Math.Min(least.Lengths, margin);
                else
                    least.Bodies = Math.Min(least.Bodies, margin);
                double accepted = Accepted(pair.IsLength ? least.Lengths : least.Bodies);
                double bound = margin - LossWithin(pair, scene, position, region);
                if (bound < accepted)
                    bound = Math.Max(bound, AlongAxis(pair, scene, position, region, axis, accepted));
                if (bound >= accepted)
                {
                    if (pair.IsLength)
                        proven.Lengths = Math.Min(proven.Lengths, bound);
                    else
                        proven.Bodies = Math.Min(proven.Bodies, bound);
                    continue;
                }

                undecided.Add(index);
            }

            if (undecided.Count > 0)
                Split(region, [.. undecided], position);
        }

        double worst = Math.Min(least.Lengths, least.Bodies);
        if (worst < -Resolution)
            return new Verdict(false, StepOfViolation(at.Pair, new Scene(this, position, at.Heave, at.Roll), -worst, at.Roll), ToContact(at.Pair, at.Heave, at.Roll, worst));
        double byLengths = LengthMotion > 0 ? Math.Max(0, Math.Min(least.Lengths, proven.Lengths)) / LengthMotion : double.PositiveInfinity;
        double byBodies = Math.Max(0, Math.Min(least.Bodies, proven.Bodies)) / MostMotion();
        return new Verdict(true, Math.Min(byLengths, byBodies), ToContact(at.Pair, at.Heave, at.Roll, worst));
    }

    /// <summary>A bound that settles a region: close enough to the least margin found.</summary>
    private static double Accepted(double least) => Math.Min(least - Resolution, least > 0 ? StepShare * least : least / StepShare);

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

    /// <summary>
    /// A bound on a pair's margin in a region from one axis: the least over all pairs of corners of their distance along it, to
    /// first order from the middle of the region, less the most that curvature can take. Along an axis that turns with one of
    /// the two bodies a face of it stays square, so three are tried: fixed to the body, turning with the axle, and with the damper.
    /// </summary>
    private double AlongAxis(Pair pair, in Scene scene, double position, Region region, PlaneVector axis, double enough)
    {
        // Along a straight way through half the region the axle end moves by no more than 'moves', its path bending by no more than 'bends'.
        double arm = Hypot(position, _space.Mounts.AxleEndHeight - _space.RollCentreHeight);
        double moves = region.HalfHeave + (region.HalfRoll * arm), bends = region.HalfRoll * region.HalfRoll * arm;
        double shortest = Math.Min(scene.LengthInView, scene.OtherLengthInView) - moves;
        if (shortest <= 0)
            return double.NegativeInfinity;
        double lineTurns = moves / shortest;
        double lineBends = (bends / shortest) + (lineTurns * lineTurns);
        if (pair.Kind is PairKind.ClosedLength or PairKind.ExtendedLength)
        {
            var (byHeave, byRoll) = scene.LengthRates;
            return scene.Margin(pair, out _) - (Math.Abs(byHeave) * region.HalfHeave) - (Math.Abs(byRoll) * region.HalfRoll)
                - (((moves * moves / shortest) + bends) / 2);
        }

        double apartMoves = PartMoves(pair.Part, moves, scene.LengthInView, movesAtAxleEnd: true);
        double apartBends = PartBends(pair.Part, moves, bends, scene.LengthInView);
        if (pair.Kind == PairKind.OtherDamper)
        {
            apartMoves += PartMoves(pair.Other, moves, scene.OtherLengthInView, movesAtAxleEnd: true);
            apartBends += PartBends(pair.Other, moves, bends, scene.OtherLengthInView);
        }
        else if (_keepOuts[pair.KeepOut] is { MovesWithAxle: true } keepOut)
        {
            double corner = Hypot(
                Math.Max(Math.Abs(keepOut.Inner), Math.Abs(keepOut.Outer)),
                Math.Max(Math.Abs(keepOut.Bottom - _space.RollCentreHeight), Math.Abs(keepOut.Top - _space.RollCentreHeight)));
            apartMoves += region.HalfHeave + (region.HalfRoll * corner);
            apartBends += region.HalfRoll * region.HalfRoll * corner;
        }

        var relative = new RelativeMotion(apartMoves, apartBends);
        double bound = LeastAlong(pair, scene, region, relative, axis, default);
        if (bound < enough)
            bound = Math.Max(bound, LeastAlong(pair, scene, region, relative, axis, new Turning(0, 1, region.HalfRoll, 0)));
        if (bound < enough)
            bound = Math.Max(bound, LeastAlong(pair, scene, region, relative, axis, new Turning(scene.TurnRates.ByHeave, scene.TurnRates.ByRoll, lineTurns, lineBends)));
        return bound;
    }

    private static double LeastAlong(Pair pair, in Scene scene, Region region, RelativeMotion relative, PlaneVector axis, Turning turning)
    {
        double least = double.PositiveInfinity, farthestSquare = 0;
        for (int i = 0; i < 4; i++)
        {
            var mine = scene.Corner(pair, i);
            for (int j = 0; j < 4; j++)
            {
                // G = n·(o − p), with n' = ϑ' Jn.
                var other = scene.OtherCorner(pair, j);
                var apart = other.Position - mine.Position;
                double aside = axis.Turned.Dot(apart);
                double byHeave = axis.Dot(other.ByHeave - mine.ByHeave) + (turning.ByHeave * aside);
                double byRoll = axis.Dot(other.ByRoll - mine.ByRoll) + (turning.ByRoll * aside);
                least = Math.Min(least, axis.Dot(apart) - (Math.Abs(byHeave) * region.HalfHeave) - (Math.Abs(byRoll) * region.HalfRoll));
                farthestSquare = Math.Max(farthestSquare, apart.Dot(apart));
            }
        }

        // |G''| ≤ |o'' − p''| + 2 |ϑ'| |o' − p'| + (ϑ'² + |ϑ''|) |o − p|.
        double farthest = Math.Sqrt(farthestSquare) + relative.Moves;
        double bends = relative.Bends + (2 * turning.Most * relative.Moves) + (((turning.Most * turning.Most) + turning.Bends) * farthest);
        return least - (bends / 2) - scene.Allowance(pair);
    }

    /// <summary>
    /// The most that the second derivative of a part's points along a straight way through a region can be. With the line's unit
    /// vector <c>u = D/L</c> it is <c>|u''| ≤ |D''|/L + √(4/3) |D'|²/L²</c>.
    /// </summary>
    private double PartBends(DamperPart part, double moves, double bends, double lengthInView)
    {
        switch (part)
        {
            case DamperPart.UpperBush:
                return 0;
            case DamperPart.LowerBush or DamperPart.Rod:
                return bends;
            default:
                double shortest = lengthInView - moves;
                if (shortest <= 0)
                    return double.PositiveInfinity;

                // A line inclined fore and aft: foreshortening, ellipse and their products bend by no more than six times as much.
                double inclined = IsUpright ? 1 : 6;
                double turning = (bends / shortest) + (Math.Sqrt(4.0 / 3) * moves * moves / (shortest * shortest));
                return (part == DamperPart.LowerTube ? bends : 0) + (inclined * TubeReach(part) * turning);
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

    /// <summary>Whether the damper stands upright in the side view.</summary>
    private bool IsUpright => _space.Mounts.AxleEndForward == _space.Mounts.BodyEndForward;

    /// <summary>
    /// How far any point of a tube moves for each rad that the damper's line turns. A line inclined fore and aft also changes its
    /// foreshortening and its ellipse, each by no more than the line turns.
    /// </summary>
    private double TubeReach(DamperPart part)
    {
        var damper = _space.Damper;
        var (length, radius) = part == DamperPart.UpperTube ? (damper.UpperLength, damper.UpperDiameter / 2) : (damper.LowerLength, damper.LowerDiameter / 2);
        return IsUpright ? Hypot(length, radius) : length + (3 * radius);
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

    /// <summary>The most that the damper's length changes for each metre of position, over all heave and roll: without roll, nothing.</summary>
    private double LengthMotion => 2 * Math.Sin(_space.Travel.Roll / 2);

    /// <summary>The most that any distance of a fitting damper changes for each metre of position, over all heave and roll.</summary>
    private double MostMotion()
    {
        // A damper that fits is at least as long as when closed, here seen from behind.
        double x = _space.Mounts.BodyEndForward - _space.Mounts.AxleEndForward;
        double closed = _space.Damper.ClosedLength;
        double shortest = Math.Sqrt(Math.Max((closed * closed) - (x * x), Resolution));
        double parting = LengthMotion;
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

    /// <summary>A keep-out in the body's frame at a heave and roll.</summary>
    public static OrientedBox Place(PackagingSpace space, KeepOut keepOut, double heave, double sin, double cos)
    {
        double y = (keepOut.Inner + keepOut.Outer) / 2, z = (keepOut.Bottom + keepOut.Top) / 2;
        double halfWidth = (keepOut.Outer - keepOut.Inner) / 2, halfHeight = (keepOut.Top - keepOut.Bottom) / 2;
        if (!keepOut.MovesWithAxle)
            return new OrientedBox(y, z, 1, 0, halfWidth, halfHeight);
        double centre = space.RollCentreHeight, zeta = z - centre;
        return new OrientedBox((y * cos) - (zeta * sin), centre + heave + (y * sin) + (zeta * cos), cos, sin, halfWidth, halfHeight);
    }

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

    private readonly record struct Pair(PairKind Kind, DamperPart Part, int KeepOut, DamperPart Other)
    {
        public bool IsLength => Kind is PairKind.ClosedLength or PairKind.ExtendedLength;
    }

    private sealed record Region(double Heave, double Roll, double HalfHeave, double HalfRoll, int[] Pairs);

    /// <summary>The most that two bodies' points move against each other along a straight way through half a region, and bend.</summary>
    private readonly record struct RelativeMotion(double Moves, double Bends);

    /// <summary>How an axis turns: by heave and roll at the middle of a region, and the most along a straight way through half of it.</summary>
    private readonly record struct Turning(double ByHeave, double ByRoll, double Most, double Bends);

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

        public (double ByHeave, double ByRoll) LengthRates => _damper.LengthRates;

        public (double ByHeave, double ByRoll) TurnRates => _damper.TurnRates;

        /// <summary>Distance of a pair less the clearance it must keep, m, and the axis along which it lies.</summary>
        public double Margin(Pair pair, out PlaneVector axis)
        {
            axis = default;
            switch (pair.Kind)
            {
                case PairKind.ClosedLength:
                    return _damper.Length - _check._space.Damper.ClosedLength;
                case PairKind.ExtendedLength:
                    return _check._space.Damper.ExtendedLength - _damper.Length;
                case PairKind.OtherDamper:
                    var other = _mirrored[pair.Other];
                    other = other with { Y = -other.Y, AlongY = -other.AlongY };
                    return OrientedBox.Distance(_damper[pair.Part], other, out axis) - Allowance(pair);
                default:
                    return OrientedBox.Distance(_damper[pair.Part], Place(_check._keepOuts[pair.KeepOut]), out axis) - Allowance(pair);
            }
        }

        /// <summary>The clearance that a pair must keep and the radii of its bushes, m.</summary>
        public double Allowance(Pair pair) => pair.Kind == PairKind.OtherDamper
            ? _damper.Radius(pair.Part) + _mirrored.Radius(pair.Other) + _check._space.ClearanceBetweenDampers
            : _damper.Radius(pair.Part) + _check._keepOuts[pair.KeepOut].Clearance;

        /// <summary>A corner of the damper's part.</summary>
        public MovingPoint Corner(Pair pair, int index) => _damper.Corner(pair.Part, index);

        /// <summary>A corner of what it is paired with.</summary>
        public MovingPoint OtherCorner(Pair pair, int index)
        {
            if (pair.Kind == PairKind.OtherDamper)
                return _mirrored.Corner(pair.Other, index).Mirrored;
            var keepOut = _check._keepOuts[pair.KeepOut];
            var corner = Place(keepOut).Corner(index);
            return keepOut.MovesWithAxle
                ? new MovingPoint(corner, new(0, 1), (corner - new PlaneVector(0, _check._space.RollCentreHeight + _heave)).Turned)
                : new MovingPoint(corner, default, default);
        }

        private OrientedBox Place(KeepOut keepOut) => FitCheck.Place(_check._space, keepOut, _heave, _sin, _cos);
    }
}
