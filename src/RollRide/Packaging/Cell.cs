namespace RollRide.Packaging;

/// <summary>
/// A range of lateral positions, heave and roll, roll being a share of what the travel leaves at that heave. It says how small the margins of
/// pairs can be anywhere within.
/// </summary>
internal sealed class Cell
{
    private readonly PackagingSpace _space;
    private readonly double _position, _halfPosition, _share, _halfShare;
    private readonly Way[] _ways;
    private readonly double _arm;
    private readonly double _shortest;
    private Scene[]? _corners;

    /// <summary>Makes a cell.</summary>
    /// <param name="space">What stands where.</param>
    /// <param name="pairs">The pairs to be settled in it.</param>
    /// <param name="position">The middle of its positions, m.</param>
    /// <param name="halfPosition">Half of their range, m.</param>
    /// <param name="heave">The middle of its heaves, m; the range lies between two neighbouring corners of the travel.</param>
    /// <param name="halfHeave">Half of their range, m.</param>
    /// <param name="share">The middle of its shares of the roll, from −1 to 1.</param>
    /// <param name="halfShare">Half of their range.</param>
    public Cell(PackagingSpace space, Pair[] pairs, double position, double halfPosition, double heave, double halfHeave, double share, double halfShare)
    {
        (_space, Pairs, _position, _halfPosition, Heave, HalfHeave, _share, _halfShare) = (space, pairs, position, halfPosition, heave, halfHeave, share, halfShare);
        double before = space.Travel.RollAt(heave - halfHeave), after = space.Travel.RollAt(heave + halfHeave);
        double mostRoll = Math.Max(before, after);
        double rollByHeave = halfHeave > 0 ? Math.Abs(after - before) / (2 * halfHeave) : 0;
        _arm = Hypot(Math.Abs(position) + halfPosition, space.Mounts.AxleEndHeight - space.RollCentreHeight);
        _ways =
        [
            new(halfHeave, Lift: 1, Turn: rollByHeave, Slide: 0, Parting: 1 + (_arm * rollByHeave)),
            new(halfShare, Lift: 0, Turn: mostRoll, Slide: 0, Parting: _arm * mostRoll),

            // Both ends are slid alike, the axle end in a direction turned by the roll: they part by 2 sin(r/2) of the way.
            new(halfPosition, Lift: 0, Turn: 0, Slide: 1, Parting: 2 * Math.Sin(mostRoll / 2)),
        ];
        Middle = At(0, 0, 0);
        _shortest = Middle.ShorterInView - _ways.Sum(way => way.Parting * way.Half);
    }

    public Pair[] Pairs { get; }

    public double Heave { get; }

    public double HalfHeave { get; }

    /// <summary>Its middle.</summary>
    public Scene Middle { get; }

    /// <summary>Its eight corners; four where it holds one position only.</summary>
    public Scene[] Corners => _corners ??= [.. from i in (int[])[-1, 1] from j in (int[])[-1, 1] from k in (_halfPosition > 0 ? (int[])[-1, 1] : [0]) select At(i, j, k)];

    /// <summary>Whether nothing moves within it by more than the tolerance.</summary>
    public bool IsSmall => (_ways[0].Parting * _ways[0].Half) + (_ways[1].Parting * _ways[1].Half) < FitCheck.Tolerance;

    /// <summary>The margin in the middle less the most that the pair can move from there.</summary>
    public double MarginWithinReach(Pair pair) => pair.Margin(Middle) - MostMotion(pair);

    /// <summary>Its ends in position, at the corners, the middles of the edges and the middle of its heave and roll.</summary>
    public IEnumerable<(Scene Inner, Scene Outer)> EndsAtCornersAndMiddles() =>
        from i in (int[])[-1, 0, 1] from j in (int[])[-1, 0, 1] select (At(i, j, -1), At(i, j, 1));

    /// <summary>By how much a margin can be larger between the ends of the positions than at both of them, at one heave and roll.</summary>
    /// <remarks>
    /// The distance of two convex bodies, overlaps counted negative, is convex in a translation: in between it is no larger than at the larger
    /// end. Besides, a damper that is slid stretches and turns a little, unless there is no roll.
    /// </remarks>
    public double MostBetweenEnds(Pair pair, Scene scene)
    {
        double parting = 2 * Math.Sin(Math.Abs(scene.Roll) / 2);
        return SpeedOf(pair, new Way(_halfPosition, Lift: parting, Turn: 0, Slide: 0, Parting: parting)) * _halfPosition;
    }

    /// <summary>A margin that the pair falls short of nowhere in the cell.</summary>
    /// <remarks>
    /// Two rectangles are apart at least as far as along any one axis. Along an axis that turns with one of them, the way between a corner of
    /// the one and a corner of the other is a smooth function <c>G</c> of position, heave and roll, and at the cell's corners it is known.
    /// In between it is least at one of them, but for its curvature: <c>G ≥ min G(corners) − Σ |G''| h²/2</c>, <c>h</c> being half the range.
    /// A length is such a function itself.
    /// </remarks>
    public double Bound(Pair pair)
    {
        if (_shortest <= 0)
            return double.NegativeInfinity;
        if (pair.First is not { } first || pair.Second is not { } second)
            return Corners.Min(pair.Margin) - _ways.Sum(way => way.Half * way.Half / 2 * ((way.Parting * way.Parting / _shortest) + (_arm * way.Turn * way.Turn)));

        var (a, b) = (first.Place(Middle), second.Place(Middle));
        OrientedBox.Distance(a, b, out var axis);
        double farthest = (b.Centre - a.Centre).Length + a.Radius + b.Radius + MostMotion(pair);
        return Math.Max(Along(turnsWith: first, a), Along(turnsWith: second, b)) - pair.Allowance(Middle);

        double Along(Pair.Item turnsWith, OrientedBox middle)
        {
            double along = axis.Dot(middle.Along), across = axis.Dot(middle.Along.Turned), least = double.PositiveInfinity;
            foreach (var corner in Corners)
            {
                var frame = turnsWith.Place(corner).Along;
                least = Math.Min(least, OrientedBox.Gap(first.Place(corner), second.Place(corner), (along * frame) + (across * frame.Turned)));
            }

            // G = n·(o − p), so |G''| ≤ |o''| + |p''| + 2|ϑ'| |o' − p'| + (ϑ'² + |ϑ''|) |o − p|, with n' = ϑ' Jn.
            double curvature = 0;
            foreach (var way in _ways)
            {
                var (turn, turnBend) = TurnOf(turnsWith, way);
                double bend = BendOf(first, way) + BendOf(second, way) + (2 * turn * SpeedOf(pair, way)) + (((turn * turn) + turnBend) * farthest);
                curvature += bend * way.Half * way.Half / 2;
            }

            return least - curvature;
        }
    }

    /// <summary>Puts both halves on a stack, halved in heave or in roll, whichever moves the damper more.</summary>
    public void Split(Pair[] pairs, Stack<Cell> halves)
    {
        bool inHeave = _ways[0].Parting * _ways[0].Half >= _ways[1].Parting * _ways[1].Half;
        for (int sign = -1; sign <= 1; sign += 2)
        {
            halves.Push(inHeave
                ? new Cell(_space, pairs, _position, _halfPosition, Heave + (sign * HalfHeave / 2), HalfHeave / 2, _share, _halfShare)
                : new Cell(_space, pairs, _position, _halfPosition, Heave, HalfHeave, _share + (sign * _halfShare / 2), _halfShare / 2));
        }
    }

    private Scene At(int i, int j, int k)
    {
        double heave = Heave + (i * HalfHeave);
        return new Scene(_space, _position + (k * _halfPosition), heave, (_share + (j * _halfShare)) * _space.Travel.RollAt(heave));
    }

    /// <summary>The most that a pair's points move against each other between the middle and anywhere in the cell.</summary>
    private double MostMotion(Pair pair)
    {
        double motion = 0;
        foreach (var way in _ways)
        {
            if (way.Half > 0)
                motion += SpeedOf(pair, way) * way.Half;
        }

        return motion;
    }

    private double SpeedOf(Pair pair, Way way) => pair.First is not { } first || pair.Second is not { } second
        ? way.Parting
        : SpeedOf(first, way) + SpeedOf(second, way);

    /// <summary>The most that a point of an item moves along a way, for each unit of it.</summary>
    private double SpeedOf(Pair.Item item, Way way)
    {
        if (item.KeepOut is { } keepOut)
            return keepOut.MovesWithAxle ? way.Lift + (ReachOf(keepOut) * way.Turn) : 0;
        double axleEnd = way.Lift + (_arm * way.Turn) + way.Slide, bodyEnd = way.Slide;
        double turned = way.Parting == 0 ? 0 : _shortest > 0 ? way.Parting / _shortest : double.PositiveInfinity;
        return item.Part switch
        {
            DamperPart.UpperBush => bodyEnd,
            DamperPart.UpperTube => bodyEnd + (ReachOf(item.Part.Value) * turned),
            DamperPart.LowerTube => axleEnd + (ReachOf(item.Part.Value) * turned),
            _ => axleEnd,
        };
    }

    /// <summary>The most that the way of a point of an item bends: its second derivative.</summary>
    private double BendOf(Pair.Item item, Way way)
    {
        double turnSquare = way.Turn * way.Turn;
        if (item.KeepOut is { } keepOut)
            return keepOut.MovesWithAxle ? ReachOf(keepOut) * turnSquare : 0;
        double axleEnd = _arm * turnSquare;
        switch (item.Part)
        {
            case DamperPart.UpperBush:
                return 0;
            case DamperPart.LowerBush or DamperPart.Rod:
                return axleEnd;
            default:
                // With the line's unit vector u = D/L it is |u''| ≤ |D''|/L + √(4/3) |D'|²/L². Of a line inclined fore and aft the foreshortening,
                // the ellipse and their products bend by no more than six times as much.
                double turned = way.Parting / _shortest;
                double line = (axleEnd / _shortest) + (Math.Sqrt(4.0 / 3) * turned * turned);
                return (item.Part == DamperPart.LowerTube ? axleEnd : 0) + ((_space.Mounts.IsUprightFromTheSide ? 1 : 6) * ReachOf(item.Part!.Value) * line);
        }
    }

    /// <summary>How fast an item turns, and the rate of that.</summary>
    private (double Turn, double Bend) TurnOf(Pair.Item item, Way way)
    {
        if (item.KeepOut is { } keepOut)
            return (keepOut.MovesWithAxle ? way.Turn : 0, 0);
        double turned = way.Parting / _shortest;
        return (turned, (_arm * way.Turn * way.Turn / _shortest) + (turned * turned));
    }

    /// <summary>How far from the roll centre a keep-out reaches, m.</summary>
    private double ReachOf(KeepOut keepOut) => Hypot(
        Math.Max(Math.Abs(keepOut.Inner), Math.Abs(keepOut.Outer)),
        Math.Max(Math.Abs(keepOut.Bottom - _space.RollCentreHeight), Math.Abs(keepOut.Top - _space.RollCentreHeight)));

    /// <summary>
    /// How far any point of a tube moves for each rad that the damper's line turns. A line inclined fore and aft also changes its
    /// foreshortening and its ellipse, each by no more than the line turns.
    /// </summary>
    private double ReachOf(DamperPart part)
    {
        var damper = _space.Damper;
        var (length, radius) = part == DamperPart.UpperTube ? (damper.UpperLength, damper.UpperDiameter / 2) : (damper.LowerLength, damper.LowerDiameter / 2);
        return _space.Mounts.IsUprightFromTheSide ? Hypot(length, radius) : length + (3 * radius);
    }

    private static double Hypot(double a, double b) => Math.Sqrt((a * a) + (b * b));

    /// <summary>One of the three ways through a cell: in heave, in roll, in position; rates are for each unit of it.</summary>
    /// <param name="Half">Half the cell's range along it.</param>
    /// <param name="Lift">How fast the axle rises.</param>
    /// <param name="Turn">How fast it rolls.</param>
    /// <param name="Slide">How fast the dampers are slid outboard.</param>
    /// <param name="Parting">How fast a damper's ends move against each other.</param>
    private readonly record struct Way(double Half, double Lift, double Turn, double Slide, double Parting);
}
