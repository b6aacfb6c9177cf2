using RollRide.Mounting;
using RollRide.Numerics;
using RollRide.Vehicle;

namespace RollRide.Dynamics;

/// <summary>Where a vehicle comes to rest whose load stands beside the centre plane, or whose sides are unlike: body and axle sink and lean.</summary>
/// <remarks>
/// The static solution of the equations of motion with springs and tyres set at the design load, followed as the change of load grows in proportion.
/// Heights move the roll centre, which moves the mounts' turning point: the vehicle is drawn anew where it stands until neither changes.
/// </remarks>
internal sealed record LeaningRest
{
    // The load is put on in this many equal parts, so that of several rest positions the one that is reached first is found.
    private const int Parts = 16;

    // Heights that move by less than this, m, no longer change.
    private const double Settled = 1e-13;

    // Each turn of drawing anew leaves a tenth of a percent of the change or less: the roll centre's rise over its arm times the lean.
    private const int MostTurns = 50;

    /// <summary>How far everything has risen.</summary>
    public required RideHeightChange Change { get; init; }

    /// <summary>Roll angle of the body, rad.</summary>
    public required double BodyRoll { get; init; }

    /// <summary>Roll angle of the axle, rad.</summary>
    public required double UnsprungRoll { get; init; }

    /// <summary>The vehicle drawn at that height without the lean.</summary>
    public required AssembledHalfCar Level { get; init; }

    /// <summary>Finds it.</summary>
    /// <param name="design">The vehicle at its design load, drawn in its design position.</param>
    /// <param name="layout">The damper layout there.</param>
    /// <param name="body">The body under the load, drawn at its design height.</param>
    /// <param name="setting">What springs and tyres carry at the design position.</param>
    /// <param name="refused">Makes the exception of a reason.</param>
    public static LeaningRest Find(HalfCar design, DamperLayout layout, SprungBody body, DesignSetting setting, Func<FormattableString, NoRestPositionException> refused)
    {
        // Whether the damper is long enough is looked at where the vehicle stands, not on the way there.
        // And the gas has all the time to take on the temperature around it.
        var free = layout.With(side => side with { Damper = side.Damper with { Gas = side.Damper.Gas?.Isothermal }, CompressionTravel = null, ReboundTravel = null });
        double[] position = [0, 0, 0, 0];
        for (var part = 1; part <= Parts; part++)
        {
            var share = (double)part / Parts;
            var (car, _) = Drawn(design with { Body = Share(design.Body, body, share) }, free, setting, default);
            if (!StaticEquilibrium.TryFind(car, 0, 0, 0, position, out var stand))
                throw Falls(body, design, $"with {Unit.Percent.Of(share):F0} % of the change of load on it", refused);
            position = [.. stand.Position];
        }

        var loaded = design with { Body = body };
        var (heave, unsprung) = (position[HalfCarState.BodyHeave], position[HalfCarState.UnsprungHeave]);
        for (var turn = 1; ; turn++)
        {
            LoadedHalfCar.RefuseHeight("the body's centre of gravity", body.CgHeight + heave, refused);
            LoadedHalfCar.RefuseHeight("the centre of the unsprung mass", design.Unsprung.CgHeight + unsprung, refused);
            var (car, change) = Drawn(loaded, free, setting, new RideHeightChange(heave, unsprung, 0));
            if (!StaticEquilibrium.TryFind(car, 0, 0, 0, [0, position[HalfCarState.BodyRoll], 0, position[HalfCarState.UnsprungRoll]], out var stand))
                throw Falls(body, design, $"at the height to which it sinks", refused);
            if (turn == MostTurns || (Math.Abs(stand.BodyHeave) < Settled && Math.Abs(stand.UnsprungHeave) < Settled))
                return new LeaningRest { Change = change, BodyRoll = stand.BodyRoll, UnsprungRoll = stand.UnsprungRoll, Level = car };
            (heave, unsprung, position) = (heave + stand.BodyHeave, unsprung + stand.UnsprungHeave, [.. stand.Position]);
        }
    }

    /// <summary>The vehicle drawn as it leans, each side for itself.</summary>
    /// <param name="layout">The layout in the design position: for what is left of the dampers' strokes.</param>
    public AssembledHalfCar Turned(DamperLayout layout)
    {
        var roll = UnsprungRoll - BodyRoll;
        var (vehicle, there, standing) = (Level.Vehicle, Level.Layout, Level.Standing);
        SuspensionSide Suspension(Side side, PiecewiseLinear force) => RedrawnSides.AtRoll(side, roll).Of(vehicle.On(side), force);
        double Force(Side side, PiecewiseLinear force) => RedrawnSides.AtRoll(side, roll).ForceOf(vehicle.On(side).Spring, force);
        DamperSide Damper(Side side)
        {
            var given = layout.On(side);
            var compressed = given.Fitting.At(Change.Travel, roll, side).Compression;
            var turned = RedrawnSides.AtRoll(side, roll).Of(there.On(side));
            return turned with
            {
                Damper = given.Damper with { Gas = turned.Damper.Gas is { } gas ? gas with { PolytropicIndex = given.Damper.Gas!.PolytropicIndex } : null },
                CompressionTravel = given.CompressionTravel - compressed,
                ReboundTravel = given.ReboundTravel + compressed,
            };
        }

        return new AssembledHalfCar(
            vehicle.With(Suspension(Side.Left, Level.SpringForce), Suspension(Side.Right, Level.RightSpringForce)) with { StandingTyres = vehicle.StandingTyres?.From(0, roll) },
            there.With(Damper(Side.Left), Damper(Side.Right)),
            new Standing
            {
                LeftSpring = Force(Side.Left, Level.SpringForce),
                RightSpring = Force(Side.Right, Level.RightSpringForce),
                TyreLoads = [.. standing.TyreLoads.Zip(vehicle.ContactPositions, (load, y) => load - (vehicle.Tyre.Stiffness * y * UnsprungRoll))],
                BodyRoll = BodyRoll,
                UnsprungRoll = UnsprungRoll,
            });
    }

    /// <summary>The vehicle drawn level at a height, springs and tyres set as at the design load: not at rest there.</summary>
    private static (AssembledHalfCar Car, RideHeightChange Change) Drawn(HalfCar vehicle, DamperLayout layout, DesignSetting setting, RideHeightChange change)
    {
        double leftForce = setting.SpringPreload, rightForce = setting.RightSpringPreload ?? leftForce, tyre = setting.TyreLoad;
        if (change != default)
        {
            PiecewiseLinear Set(Side side, double preload) => vehicle.On(side).Spring.Characteristic.AtRideHeight(preload);
            var left = Set(Side.Left, leftForce);
            var right = vehicle.RightSide is null && rightForce == leftForce ? left : Set(Side.Right, rightForce);
            var (atLeft, atRight) = (RedrawnSides.AtHeight(Side.Left, change), RedrawnSides.AtHeight(Side.Right, change));
            (leftForce, rightForce) = (atLeft.ForceOf(vehicle.Spring, left), atRight.ForceOf(vehicle.On(Side.Right).Spring, right));
            tyre -= vehicle.Tyre.Stiffness * change.Unsprung;
            (vehicle, layout, change) = LoadedHalfCar.Redrawn(vehicle, layout, left, right, change);
        }

        var standing = new Standing { LeftSpring = leftForce, RightSpring = rightForce, TyreLoads = [.. Enumerable.Repeat(tyre, vehicle.ContactPositions.Count)], IsRest = false };
        return (new AssembledHalfCar(vehicle, layout, standing), change);
    }

    private static NoRestPositionException Falls(SprungBody body, HalfCar design, FormattableString where, Func<FormattableString, NoRestPositionException> refused)
    {
        var aside = body.Mass * body.CgOffset / (body.Mass + design.Unsprung.Mass);
        return refused($"{FormattableString.Invariant(where)} the suspension no longer holds the body, which falls to one side or past what springs and stops carry: all weight together acts {Unit.Millimetre.Show(Math.Abs(aside)):F0} {(aside < 0 ? "right" : "left")} of the centre plane, and the tyres stand {Unit.Millimetre.Show(design.HalfTrack):F0} from it");
    }

    /// <summary>The body with a share of the change of load on it.</summary>
    private static SprungBody Share(SprungBody from, SprungBody to, double share)
    {
        double Between(double a, double b) => a + (share * (b - a));
        var mass = Between(from.Mass, to.Mass);
        return to with
        {
            Mass = mass,
            CgHeight = Between(from.Mass * from.CgHeight, to.Mass * to.CgHeight) / mass,
            CgOffset = Between(from.Mass * from.CgOffset, to.Mass * to.CgOffset) / mass,
        };
    }
}
