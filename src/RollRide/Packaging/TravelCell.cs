using RollRide.Vehicle;

namespace RollRide.Packaging;

/// <summary>A part of the travel: heaves between two neighbouring corners of the envelope, each with some shares of the roll that it leaves there.</summary>
/// <param name="Travel">The envelope.</param>
/// <param name="Heave">The middle of its heaves, m.</param>
/// <param name="HalfHeave">Half of their range, m.</param>
/// <param name="Share">The middle of its shares of the roll, from −1 to 1.</param>
/// <param name="HalfShare">Half of their range.</param>
internal readonly record struct TravelCell(TravelEnvelope Travel, double Heave, double HalfHeave, double Share, double HalfShare)
{
    /// <summary>Its middle.</summary>
    public TravelCorner Middle => At(0, 0);

    /// <summary>Its four corners.</summary>
    public IEnumerable<TravelCorner> Corners => [At(-1, -1), At(-1, 1), At(1, -1), At(1, 1)];

    /// <summary>The most roll between the middle and any share of it at the same heave, rad.</summary>
    public double HalfRollAtMiddle => HalfShare * Travel.RollAt(Heave);

    /// <summary>The most roll between the middle and any of its points, rad; no less than <see cref="HalfRollAtMiddle"/>.</summary>
    public double HalfRoll
    {
        get
        {
            double middle = Middle.Roll;
            return Corners.Max(corner => Math.Abs(corner.Roll - middle));
        }
    }

    /// <summary>The whole travel, in one cell for each stretch between corners of the envelope.</summary>
    public static IEnumerable<TravelCell> All(TravelEnvelope travel) =>
        travel.Corners.Zip(travel.Corners.Skip(1), (from, to) => new TravelCell(travel, (from.Heave + to.Heave) / 2, (to.Heave - from.Heave) / 2, 0, 1));

    /// <summary>Its halves, in heave or in roll.</summary>
    public IEnumerable<TravelCell> Halves(bool inHeave) => inHeave
        ? [this with { Heave = Heave - (HalfHeave / 2), HalfHeave = HalfHeave / 2 }, this with { Heave = Heave + (HalfHeave / 2), HalfHeave = HalfHeave / 2 }]
        : [this with { Share = Share - (HalfShare / 2), HalfShare = HalfShare / 2 }, this with { Share = Share + (HalfShare / 2), HalfShare = HalfShare / 2 }];

    private TravelCorner At(int i, int j)
    {
        double heave = Heave + (i * HalfHeave);
        return new TravelCorner(heave, (Share + (j * HalfShare)) * Travel.RollAt(heave));
    }
}
